/** The comparisons of a large library, made beside the page that shows them. */
import type { MeasureName } from "../../../src/gap/measures.ts";
import type { Work } from "../apart.ts";
import { answerTo, comparisonsOf, type Ask, type Comparisons } from "../comparison.ts";
import type { PageLibrary } from "../library.ts";
import type { Scope } from "../scope.ts";

/** What was compared stays: a comparison rests on others, and is asked for again. */
const made = new WeakMap<PageLibrary, (leaveOut: boolean) => Comparisons>();

function comparing(library: PageLibrary, leaveOut: boolean): Comparisons {
  const known = made.get(library) ?? comparisonsOf(library);
  made.set(library, known);
  return known(leaveOut);
}

/** The answers to some questions, in their order. */
export const compared: Work<[leaveOut: boolean, asks: readonly Ask[]], unknown[]> = {
  name: "comparisons",
  what: "the comparisons",
  *steps(library, leaveOut, asks) {
    const answers: unknown[] = [];
    for (const ask of asks) {
      answers.push(answerTo(comparing(library, leaveOut), ask));
      yield;
    }
    return answers;
  },
};

/** What may be asked next, so that it is there then. */
export const comparedAhead: Work<[leaveOut: boolean, scope: Scope, measure: MeasureName], null> = {
  name: "comparisons ahead",
  what: "what may be asked next",
  isIdle: true,
  *steps(library, leaveOut, scope, measure) {
    yield* comparing(library, leaveOut).ahead(scope, measure);
    return null;
  },
};
