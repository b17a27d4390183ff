/**
 * What an analyst does with the kit: a gap, a carry and a chart. It runs from the sources as it stands here, and in
 * projects that have the package installed with the package's name where the sources' are.
 */
import { enrich, fieldFor, gap, makeReady, oneBall, sprayChart, swingOf } from "../../src/index.ts";
import { ft } from "../../src/units/index.ts";

interface Answers {
  readonly gap: {
    readonly value: number | null;
    readonly n: readonly [number, number];
    readonly words: string;
  };
  readonly carry_ft: number | null;
  /** The drawing, as SVG. */
  readonly chart: string;
}

const work = [
  { input: "tee", session: "Monday", pitch: 0, speed: 74 },
  { input: "tee", session: "Tuesday", pitch: 0, speed: 75 },
  { input: "live", session: "Friday", pitch: 62, speed: 77 },
  { input: "live", session: "Saturday", pitch: 64, speed: 79 },
] as const;

/** The three answers, drawn in the document given. */
export function answers(document: Document): Answers {
  const swings = work.flatMap(({ input, session, pitch, speed }) =>
    Array.from({ length: 12 }, (_, i) =>
      swingOf({
        hitter: "Ada K.",
        bats: "R",
        swing_id: `${session} ${i}`,
        input,
        session,
        outcome: "in_play",
        exit_velocity_mph: speed + ((i * 7) % 11),
        launch_angle_deg: 4 + ((i * 5) % 23),
        spray_angle_deg: ((i * 9) % 41) - 20,
        pitch_speed_mph: pitch,
      }),
    ),
  );
  const tables = { sessions: [], hitters: [], thresholds: null };
  const rows = enrich({ swings, ...tables });
  const [speed] = gap(makeReady({ swings: rows, ...tables }), "Ada K.", {
    measures: ["exit_velocity"],
  }).measures;
  const { ball } = oneBall(
    swingOf({ hitter: "Ada K.", bats: "R", input: "tee", exit_velocity_mph: 100, launch_angle_deg: 28 }),
  );
  return {
    gap: { value: speed!.value, n: [speed!.from.n, speed!.to.n], words: speed!.words },
    carry_ft: ball === null ? null : ball.flight.carry / ft,
    chart: sprayChart(rows, { document, field: fieldFor(null) }).outerHTML,
  };
}
