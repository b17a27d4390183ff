/** What the setup check says of sessions in which no tracker moved. */
import { drift } from "../../src/setup/drift.ts";
import { allSettings, type Line, type Setting, type Tally } from "./line.ts";
import { dayOf, sessionName, sessionsTable, sittingOf, squadOf } from "./squad.ts";

/** Ten hitters, tee and flip on the same days; `gained` is what each gains from session to session, mph. */
const nothingMoved =
  (gained_mph: number) =>
  ({ swings, sessions, days }: Setting, seed: number, tally: Tally): void => {
    const squad = squadOf(seed, { hitters: 10 });
    const rows = squad.traits.flatMap((trait) =>
      squad.luck.uneven(swings * sessions, sessions).flatMap((balls, s) => {
        const day = dayOf(squad.luck, days, gained_mph * s);
        return (["tee", "flip"] as const).flatMap((input) =>
          sittingOf(squad, trait, { session: sessionName(s), input, balls }, day),
        );
      }),
    );
    const found = drift(rows, sessionsTable(sessions));
    const flagged = found.sessions.filter((s) => s.verdict !== null && s.verdict !== "sound");
    tally.count("a library with a session called moved", flagged.length > 0, { most: 0.05 });
    tally.count(
      "of them, for exit velocity",
      flagged.some((s) => s.reasons.some((r) => /exit velocit/i.test(r))),
      { most: 0.05 },
    );
  };

export const driftLines: readonly Line[] = [
  {
    name: "drift",
    about: "Ten hitters, a tracker that stood still: libraries in which a session is called moved.",
    runs: 80,
    settings: allSettings.filter((s) => s.swings === 12 && s.sessions > 2),
    run: nothingMoved(0),
  },
  {
    name: "drift-improving",
    about: "The same, and the team gains 0.6 mph a session.",
    runs: 80,
    settings: allSettings.filter((s) => s.swings === 12 && s.sessions > 2),
    run: nothingMoved(0.6),
  },
];
