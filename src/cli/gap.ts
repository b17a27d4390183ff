/** `batted gap`: how much of one kind of work shows up in another, and what takes the rest away. */
import { Option, type Command } from "commander";
import { byName } from "../swing/byName.ts";
import { inputs, type Input } from "../swing/fields.ts";
import { Fault } from "./errors.ts";
import { filterMeant, noneLeft, withFilter, type FilterCall } from "./filtering.ts";
import { nameMeant } from "./names.ts";
import { readSource, withSource, type SourceOptions } from "./source.ts";
import type { Out } from "./out.ts";
import { unitsOption, type UnitsCall } from "./units.ts";

interface Call extends FilterCall, SourceOptions, UnitsCall {
  readonly hitter?: string;
  readonly from: Input;
  readonly to: Input;
  readonly measure?: string;
  readonly full?: true;
  readonly json?: true;
}

/** Describes the command. */
export function register(program: Command, out: Out): void {
  const kind = (flag: string, what: string, otherwise: Input): Option =>
    new Option(`${flag} <input>`, what).choices([...inputs]).default(otherwise);
  withFilter(
    withSource(
      program
        .command("gap")
        .description(
          "the gap between two kinds of work, tee and live as a rule, and the parts it is made of",
        ),
      { sessions: "dates, air and where pitch speed was measured", hitters: "sides, heights and levels" },
    ).option("--hitter <name>", "this hitter alone, without what is told across hitters"),
  )
    .addOption(kind("--from", "the work that comes first", "tee"))
    .addOption(kind("--to", "the work it is held against", "live"))
    .option("--measure <name>", "this measure alone; exit_velocity, launch_angle, misses …")
    .option("--full", "all hitters: every measure, part and note of each, and what stabilizes when")
    .addOption(unitsOption())
    .option("--json", "print every figure as JSON")
    .addHelpText(
      "after",
      "\nA drill narrows the side that has it. What is asked of pitches narrows what was\npitched; a tee stays as it is. Ceilings are told from all of a hitter's swings.\nWith --json the words are in the units chosen, each number in the unit beside\nit.",
    )
    .action((files: string[], call: Call) => run(out, files, call));
}

async function run(out: Out, files: string[], call: Call): Promise<void> {
  if (call.from === call.to)
    throw new Fault(`A gap lies between two kinds of work: --from and --to are both ${call.from}.`, 2);
  const { scopeIn } = await filterMeant(call);
  const { measuresIn } = await import("../views/measures.ts");
  const known = measuresIn("gap").map((m) => m.name);
  const measures = call.measure === undefined ? undefined : [nameMeant(call.measure, known, "measure")];
  const source = await readSource(out, { ...call, files });
  const [{ enricher }, { makeReady, sidesOf }, { acrossHitters, beyondPitch }, { gapReport }, words] =
    await Promise.all([
      import("../contact/enrich.ts"),
      import("../gap/rows.ts"),
      import("../gap/across.ts"),
      import("./gapReport.ts"),
      import("./gapWords.ts"),
    ]);
  // A ceiling's shape is pooled over all hitters; beyond that, one hitter's work is worked out alone.
  const { enrich } = enricher(source, { ranges: false });
  const names = [...new Set(source.swings.map((s) => s.hitter))].sort(byName);
  const alone = call.hitter === undefined ? null : nameMeant(call.hitter, names, "hitter");
  const counted = alone === null ? source.swings : source.swings.filter((s) => s.hitter === alone);
  const ready = makeReady({ ...source, swings: counted.map(enrich) });
  const { from, to } = call;
  const chosen = alone === null ? names : [alone];
  const scope = await scopeIn(source);
  const hasSwings = (hitter: string): boolean => {
    const sides = sidesOf(ready, hitter, { ...scope, from, to });
    return sides.from.length + sides.to.length > 0;
  };
  if (!chosen.some(hasSwings))
    throw await noneLeft(alone === null ? `${source.name} has` : `${alone} has`, scope);
  const asked = { ...scope, from, to, system: call.units, ...(measures === undefined ? {} : { measures }) };
  if (alone === null && ready.hitters.length > 1 && call.full !== true && call.json !== true)
    return out.print(words.shortWords(acrossHitters(ready, measures?.[0] ?? beyondPitch, asked), call.units));
  const report = gapReport(ready, source, chosen, alone !== null, asked);
  if (call.json === true) out.json(report);
  else out.print(words.reportWords(report, call.units));
}
