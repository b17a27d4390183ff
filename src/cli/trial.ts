/** `batted trial`: a fair trial of two ways: its order to print, how many rounds it takes, and what it came to. */
import type { Command } from "commander";
import type { TrialResult, TrialRound } from "../season/trial.ts";
import { Fault } from "./errors.ts";
import { filterMeant, noneLeft, withFilter, type FilterCall } from "./filtering.ts";
import { nameMeant } from "./names.ts";
import type { Out } from "./out.ts";
import { readSource } from "./source.ts";
import { tableText } from "./table.ts";
import { unitsOption, type UnitsCall } from "./units.ts";

interface Call extends FilterCall, UnitsCall {
  readonly library?: string;
  readonly hitter?: string;
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
  withFilter(
    program
      .command("trial")
      .description(
        "a fair trial of two ways: with two --arm its order to print, else what those in a library came to",
      )
      .option("--library <dir>", "the library's folder (default: data/demo)")
      .option(
        "--hitter <name>",
        "this hitter's rounds alone; for a new trial, planned from this hitter's work",
      ),
  )
    .option("--name <name>", "the trial's name: of the new one, or the one to tell alone")
    .option("--arm <way>", "one of the two ways, given twice: two drills, two tee heights, two bats", collect)
    .option("--rounds <count>", "rounds of both together, even (default: as many as it takes)")
    .option("--swings <count>", "swings of a round", "6")
    .option("--change <mph>", "the difference of exit velocity that is to be seen", "2")
    .option("--seed <number>", "for another order than the first one")
    .option("-o, --output <file>", "write the order as a page to print and tick off")
    .addOption(unitsOption())
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

/** The library, enriched, and what of it is asked for; ceilings are from all of it. */
async function asked(out: Out, call: Call) {
  const { scopeIn } = await filterMeant(call);
  const source = await readSource(out, { ...call, files: [] });
  const names = [...new Set(source.swings.map((s) => s.hitter))];
  const hitters = call.hitter === undefined ? [] : [nameMeant(call.hitter, names, "hitter")];
  const scope = await scopeIn(source);
  const { enrich } = await import("../contact/enrich.ts");
  return { library: { ...source, swings: enrich(source) }, scope, hitters };
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
  const { valueWords } = await import("../views/words.ts");
  const { library, scope, hitters } = await asked(out, call);
  const { seasons } = await import("../season/plan.ts");
  const spread = trialSpread(seasons(library, scope), hitters);
  if (spread === null && call.rounds === undefined) throw new Fault(`${spreadUnknown} (--rounds)`, 1);
  const needed = spread === null ? null : roundsNeeded(change, spread, swings);
  const rounds = call.rounds === undefined ? needed : numberMeant(call.rounds, "rounds", 2, true);
  const sentence =
    spread === null
      ? spreadUnknown
      : roundsSentence(needed, swings, valueWords(change, "mph", call.units, 1));
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
  const { library: whole, scope, hitters } = await asked(out, call);
  const { rowsInScope } = await import("../views/filter.ts");
  const of = new Set(hitters);
  const swings = rowsInScope(whole.swings, whole, scope).filter(
    ({ hitter }) => of.size === 0 || of.has(hitter),
  );
  if (swings.length === 0) throw await noneLeft(`${hitters[0] ?? whole.name} has`, scope);
  const library = { ...whole, swings };
  const { trialNames, trialResult } = await import("../season/trial.ts");
  const names = trialNames(swings);
  const chosen = call.name === undefined ? names : [nameMeant(call.name, names, "trial")];
  const results = chosen.flatMap((name) =>
    (["better_half_speed", "well_hit"] as const).flatMap((measure): readonly TrialResult[] => {
      const result = trialResult(library, name, measure);
      return result === null ? [] : [result];
    }),
  );
  if (call.json === true) return out.json({ source: whole.name, scope, trials: results });
  if (chosen.length === 0)
    return out.print("No swing here is of a trial: `trial --arm … --arm …` plans one.");
  const { earlySentence, trialSentence } = await import("../views/sentences/trial.ts");
  const { signedWords } = await import("../views/words.ts");
  for (const result of results) {
    out.print(trialSentence(result, call.units));
    const early = earlySentence(result);
    if (early !== null) out.print(`  ${early}`);
    if (result.measure === "better_half_speed")
      out.print(
        tableText(
          result.blocks.map((b) => [
            `block ${b.block}`,
            b.session ?? "",
            signedWords(b.difference, "mph", call.units),
          ]),
          { indent: 2, right: [2] },
        ).trimEnd(),
      );
  }
}
