/** `batted gap`: how much of one kind of work shows up in another, and what takes the rest away. */
import { Option, type Command } from "commander";
import { inputs, type Input } from "../swing/fields.ts";
import { spanMeant } from "./days.ts";
import { Fault } from "./errors.ts";
import { nameMeant } from "./names.ts";
import { fieldsOption } from "./ownFields.ts";
import { readSource } from "./source.ts";
import type { Out } from "./out.ts";

interface Call {
  readonly library?: string;
  readonly sessions?: string;
  readonly hitters?: string;
  readonly fields?: string;
  readonly thresholds?: string;
  readonly hitter?: string;
  readonly from: Input;
  readonly to: Input;
  readonly measure?: string;
  readonly drill?: string;
  readonly since?: string;
  readonly until?: string;
  readonly full?: true;
  readonly json?: true;
}

/** Describes the command. */
export function register(program: Command, out: Out): void {
  const kind = (flag: string, what: string, otherwise: Input): Option =>
    new Option(`${flag} <input>`, what).choices([...inputs]).default(otherwise);
  program
    .command("gap")
    .description("the gap between two kinds of work, tee and live as a rule, and the parts it is made of")
    .argument("[csv...]", "files of swings; without any, a library")
    .option("--library <dir>", "the library's folder (default: data/demo)")
    .option("--sessions <csv>", "with CSV files: the sessions' dates, air and where pitch speed was measured")
    .option("--hitters <csv>", "with CSV files: the hitters' sides, heights and levels")
    .option(fieldsOption[0], `with CSV files: ${fieldsOption[1]}`)
    .option(
      "--thresholds <json>",
      "with CSV files: your own figures in place of some of data/thresholds.json",
    )
    .option("--hitter <name>", "this hitter alone, without what is told across hitters")
    .addOption(kind("--from", "the work that comes first", "tee"))
    .addOption(kind("--to", "the work it is held against", "live"))
    .option("--measure <name>", "this measure alone; exit_velocity, launch_angle, misses …")
    .option("--drill <name>", "narrows the side that has this drill")
    .option("--since <date>", "from this day on, like 2025-03-03")
    .option("--until <date>", "up to this day, it included")
    .option("--full", "all hitters: every measure, part and note of each, and what stabilizes when")
    .option("--json", "print every figure as JSON")
    .action((files: string[], call: Call) => run(out, files, call));
}

async function run(out: Out, files: string[], call: Call): Promise<void> {
  if (call.from === call.to)
    throw new Fault(`A gap lies between two kinds of work: --from and --to are both ${call.from}.`, 2);
  const span = spanMeant(call);
  const { measuresIn } = await import("../views/measures.ts");
  const known = measuresIn("gap").map((m) => m.name);
  const measures = call.measure === undefined ? undefined : [nameMeant(call.measure, known, "measure")];
  const source = await readSource(out, { ...call, files });
  const [{ enricher }, { makeReady }, { acrossHitters, beyondPitch }, { gapReport }, words] =
    await Promise.all([
      import("../contact/enrich.ts"),
      import("../gap/rows.ts"),
      import("../gap/across.ts"),
      import("./gapReport.ts"),
      import("./gapWords.ts"),
    ]);
  // A ceiling's shape is pooled over all hitters; beyond that, one hitter's work is worked out alone.
  const { enrich } = enricher(source);
  const names = [...new Set(source.swings.map((s) => s.hitter))].sort();
  const alone = call.hitter === undefined ? null : nameMeant(call.hitter, names, "hitter");
  const counted = alone === null ? source.swings : source.swings.filter((s) => s.hitter === alone);
  const ready = makeReady({ ...source, swings: counted.map(enrich) });
  const drills = [...new Set(source.swings.flatMap((s) => s.drill ?? []))];
  const drill = call.drill === undefined ? null : nameMeant(call.drill, drills, "drill");
  const { from, to } = call;
  const asked = { drill, ...span, from, to, ...(measures === undefined ? {} : { measures }) };
  if (alone === null && ready.hitters.length > 1 && call.full !== true && call.json !== true)
    return out.print(words.shortWords(acrossHitters(ready, measures?.[0] ?? beyondPitch, asked)));
  const report = gapReport(ready, source, alone === null ? names : [alone], alone !== null, asked);
  if (call.json === true) out.json(report);
  else out.print(words.reportWords(report));
}
