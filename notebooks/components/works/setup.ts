/** What the checks say of every session, worked out beside the page. The computing is in src/setup. */
import { isDoubtful } from "../../../src/contact/flags.ts";
import { drift, type Drift } from "../../../src/setup/drift.ts";
import { trustBySession, type Trust } from "../../../src/setup/trust.ts";
import type { Work } from "../apart.ts";

/** Each session against those of other days, and what can be said of its numbers. */
export const sessionsCompared: Work<
  [],
  { readonly found: Drift; readonly trusts: ReadonlyMap<string, Trust> }
> = {
  name: "setup",
  what: "how each session compares with those of other days",
  run({ swings, sessions }) {
    const found = drift(
      swings.filter((row) => !isDoubtful(row)),
      sessions,
    );
    return { found, trusts: trustBySession(swings, sessions, found) };
  },
};
