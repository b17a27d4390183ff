/** `batted trial`: a fair trial of two ways: its order to print, how many rounds it takes, and what it came to. */
import type { Command } from "commander";
import type { TrialResult, TrialRound } from "../season/trial.ts";
import { Fault } from "./errors.ts";
import { nameMeant } from "./names.ts";
import type { Out } from "./out.ts";
import { readSource } from "./source.ts";
import { tableText } from "./table.ts";

interface Call {
  readonly library?: string;
  readonly name?: string;
  readonly arm?: readonly string[];
  readonly rounds?: string;
  readonly swings: string;
  readonly change: string;
  readonly seed?: string;
  readonly output?: string;
  readonly json?: true;
}

const collect = (arm: string, before: readonly string[] = []): readonly string[] => [...before, arm];

/** Describes the command. */
export function register(program: Command, out: Out): void {
  program
    .command("trial")
    .description(
      "a fair trial of two ways: with two --arm its order to print, else what those in a library came to",
    )
    .option("--library <dir>", "the library's folder (default: data/demo)")
    .option("--name <name>", "the trial's name: of the new one, or the one to tell alone")
    .option("--arm <way>", "one of the two ways, given twice: two drills, two tee heights, two bats", collect)
    .option("--rounds <count>", "rounds of both together, even (default: as many as it takes)")
    .option("--swings <count>", "swings of a round", "6")
    .option("--change <mph>", "the difference of exit velocity that is to be seen", "2")
    .option("--seed <number>", "for another order than the first one")
    .option("-o, --output <file>", "write the order as a page to print and tick off")
    .option("--json", "print rounds, or blocks and results, as JSON")
    .action((call: Call) => (call.arm === undefined ? tell(out, call) : plan(out, call)));
}

/** What `--json` prints of a new trial. */
export interface TrialPlan {
  readonly trial: string;
  readonly needed: number | null;
  readonly swings: number;
  readonly rounds: readonly (TrialRound & { readonly drill: string })[];
}

function numberMeant(text: string, name: string, least: number, whole: boolean): number {
  const value = Number(text);
  if (text.trim() === "" || !Number.isFinite(value) || value < least || (whole && !Number.isInteger(value)))
    throw new Fault(
      `--${name} takes a ${whole ? "whole number" : "number"} from ${least} on, not "${text}".`,
      2,
    );
  return value;
}

async function plan(out: Out, call: Call): Promise<void> {
  const { arm: arms = [], name: trial } = call;
  if (trial === undefined) throw new Fault("A new trial needs a name: --name.", 2);
  if (arms.length !== 2 || arms[0] === arms[1])
    throw new Fault("A trial is of two ways: give --arm twice, with two names.", 2);
  const { isReadable, trialSpread } = await import("../season/trialPlan.ts");
  const { roundsSentence, spreadUnknown, trialTroubleSentence } = await import("../views/sentences/trial.ts");
  if (!arms.every((arm) => isReadable(trial, arm))) throw new Fault(trialTroubleSentence("unreadable"), 2);
  const swings = numberMeant(call.swings, "swings", 2, true);
  const change = numberMeant(call.change, "change", 0.1, false);
  const { planTrial, roundName, roundsNeeded } = await import("../season/trial.ts");
  const source = await readSource(out, { ...call, files: [] });
  const { enrich } = await import("../contact/enrich.ts");
  const { seasons } = await import("../season/plan.ts");
  const spread = trialSpread(seasons({ ...source, swings: enrich(source) }), []);
  if (spread === null && call.rounds === undefined) throw new Fault(`${spreadUnknown} (--rounds)`, 1);
  const needed = spread === null ? null : roundsNeeded(change, spread, swings);
  const rounds = call.rounds === undefined ? needed : numberMeant(call.rounds, "rounds", 2, true);
  const sentence = spread === null ? spreadUnknown : roundsSentence(needed, swings, `${change} mph`);
  if (rounds === null) throw new Fault(sentence, 2);
  if (rounds % 2 !== 0) throw new Fault(`--rounds takes an even number: one round of each way a block.`, 2);
  const seed = call.seed === undefined ? undefined : numberMeant(call.seed, "seed", 0, true);
  const order = planTrial([arms[0]!, arms[1]!], rounds, seed);
  if (call.output !== undefined) {
    const { trialSheet } = await import("../report/trialSheet.ts");
    const { writeWhole } = await import("../library/write.ts");
    await writeWhole(call.output, [trialSheet({ trial, rounds: order, swings, needed: sentence })]);
  }
  const named = order.map((r) => ({
    ...r,
    drill: roundName({ trial, arm: r.arm, round: r.round, of: rounds }),
  }));
  if (call.json === true) out.json({ trial, needed, swings, rounds: named } satisfies TrialPlan);
  else {
    out.print(sentence);
    if (call.output !== undefined) return out.print(call.output);
    out.print(
      `Write each round's swings down under the drill's name as it stands here; end a session after a whole block.`,
    );
    for (const { drill, round } of named) out.print(`  ${drill}${round % 2 === 0 ? "\n" : ""}`);
  }
}

async function tell(out: Out, call: Call): Promise<void> {
  const source = await readSource(out, { ...call, files: [] });
  const { trialNames, trialResult } = await import("../season/trial.ts");
  const names = trialNames(source.swings);
  const chosen = call.name === undefined ? names : [nameMeant(call.name, names, "trial")];
  const { enrich } = await import("../contact/enrich.ts");
  const library = { ...source, swings: enrich(source) };
  const results = chosen.flatMap((name) =>
    (["better_half_speed", "well_hit"] as const).flatMap((measure): readonly TrialResult[] => {
      const result = trialResult(library, name, measure);
      return result === null ? [] : [result];
    }),
  );
  if (call.json === true) return out.json({ source: source.name, trials: results });
  if (chosen.length === 0)
    return out.print("No swing here is of a trial: `trial --arm … --arm …` plans one.");
  const { earlySentence, trialSentence } = await import("../views/sentences/trial.ts");
  for (const result of results) {
    out.print(trialSentence(result, "us"));
    const early = earlySentence(result);
    if (early !== null) out.print(`  ${early}`);
    if (result.measure === "better_half_speed")
      out.print(
        tableText(
          result.blocks.map((b) => [`block ${b.block}`, b.session ?? "", b.difference.toFixed(1)]),
          { indent: 2, right: [2] },
        ).trimEnd(),
      );
  }
}
