/** What the setup check says of sessions in which no tracker moved. */
import { drift } from "../../src/setup/drift.ts";
import { allSettings, type Line, type Setting, type Tally } from "./line.ts";
import { dayOf, sessionName, sessionsTable, sittingOf, squadOf } from "./squad.ts";

/**
 * Ten hitters, tee and flip on the same days.
 * @param gained_mph what each gains from session to session
 * @param shared the part of a day's exit velocity that all have alike (the balls, the cold): of its variance
 */
const nothingMoved =
  (gained_mph: number, shared: number) =>
  ({ swings, sessions, days }: Setting, seed: number, tally: Tally): void => {
    const squad = squadOf(seed, { hitters: 10 });
    const together = Array.from({ length: sessions }, () => dayOf(squad.luck, days).speed);
    const rows = squad.traits.flatMap((trait) =>
      squad.luck.uneven(swings * sessions, sessions).flatMap((balls, s) => {
        const own = dayOf(squad.luck, days);
        const speed = gained_mph * s + Math.sqrt(shared) * together[s]! + Math.sqrt(1 - shared) * own.speed;
        const day = { ...own, speed };
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
    run: nothingMoved(0, 0),
  },
  {
    name: "drift-shared-days",
    about: "The same, and half of what a day does to exit velocity it does to all.",
    runs: 80,
    settings: allSettings.filter((s) => s.swings === 12 && s.sessions > 2),
    run: nothingMoved(0, 0.5),
  },
  {
    name: "drift-improving",
    about: "The same, and the team gains 0.6 mph a session.",
    runs: 80,
    settings: allSettings.filter((s) => s.swings === 12 && s.sessions > 2),
    run: nothingMoved(0.6, 0),
  },
];
