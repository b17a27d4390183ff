/** What goes wrong between the tracker and the file: misreadings, rows twice, rows nobody can use. */
import { chance } from "./chance.ts";

/** A row as printed: a text for each column. */
export type PrintedRow = Record<string, string>;

/** A printed row on its way into the file, with what was done to it. */
export interface FiledRow {
  readonly cells: PrintedRow;
  readonly fault: Fault | null;
}

export interface Fault {
  readonly kind: "misread" | "duplicate" | "refused";
  readonly field: string | null;
  readonly what: string;
  /** The cells before, of those that were changed. */
  readonly before: PrintedRow;
}

interface Change {
  readonly kind: "misread" | "refused";
  readonly field: string;
  readonly what: string;
  readonly fits: (row: PrintedRow) => boolean;
  readonly cells: (row: PrintedRow) => PrintedRow;
}

const has =
  (...fields: string[]) =>
  (row: PrintedRow): boolean =>
    fields.every((f) => row[f] !== "");
const hit = (row: PrintedRow): boolean =>
  row.outcome === "in_play" && has("exit_velocity_mph", "spray_angle_deg")(row);
const input =
  (name: string) =>
  (row: PrintedRow): boolean =>
    row.input === name && hit(row);

const times =
  (factor: number) =>
  (row: PrintedRow): PrintedRow => ({
    exit_velocity_mph: (Number(row.exit_velocity_mph) * factor).toFixed(1),
  });

const overRead: Change = {
  kind: "misread",
  field: "exit_velocity_mph",
  what: "exit velocity read a third too high",
  fits: (row) => hit(row) && Number(row.exit_velocity_mph) > 60 && Number(row.exit_velocity_mph) < 92,
  cells: times(1.34),
};
const underRead: Change = {
  kind: "misread",
  field: "exit_velocity_mph",
  what: "the tee seen rolling, not the ball",
  fits: input("tee"),
  cells: () => ({ exit_velocity_mph: "11.8", launch_angle_deg: "-34.2" }),
};
const pitchRead: Change = {
  kind: "misread",
  field: "exit_velocity_mph",
  what: "the pitch read as the ball off the bat",
  fits: (row) => input("live")(row) && has("pitch_speed_mph")(row),
  cells: (row) => ({
    exit_velocity_mph: row.pitch_speed_mph!,
    launch_angle_deg: "-6.4",
    spray_angle_deg: "178.9",
  }),
};
const steepRead: Change = {
  kind: "misread",
  field: "launch_angle_deg",
  what: "launch angle read as all but straight up",
  fits: (row) => hit(row) && Math.abs(Number(row.launch_angle_deg)) < 20,
  cells: () => ({ launch_angle_deg: "87.6" }),
};
const backward: Change = {
  kind: "misread",
  field: "spray_angle_deg",
  what: "spray angle read as behind the plate",
  fits: input("tee"),
  cells: (row) => ({ spray_angle_deg: (Number(row.spray_angle_deg) < 0 ? 171.3 : -168.4).toFixed(1) }),
};
const highContact: Change = {
  kind: "misread",
  field: "contact_height_ft",
  what: "contact read far above the zone",
  fits: (row) => input("tee")(row) && has("contact_height_ft")(row),
  cells: () => ({ contact_height_ft: "7.42" }),
};

const refuse = (
  field: string,
  text: string,
  what: string,
  fits: (row: PrintedRow) => boolean = hit,
): Change => ({ kind: "refused", field, what, fits, cells: () => ({ [field]: text }) });

/** Every change, each to a row of its own. */
const changes: readonly Change[] = [
  overRead,
  overRead,
  overRead,
  underRead,
  underRead,
  pitchRead,
  pitchRead,
  pitchRead,
  steepRead,
  steepRead,
  backward,
  backward,
  highContact,
  refuse("exit_velocity_mph", "", "in play without an exit velocity", input("live")),
  refuse("launch_angle_deg", "", "in play without a launch angle", input("flip")),
  refuse("launch_angle_deg", "230.0", "a launch angle that can't be"),
  refuse("exit_velocity_mph", "err", "a text where a number belongs"),
  refuse("exit_velocity_mph", "894", "an exit velocity without its decimal point"),
  refuse("pitch_speed_mph", "fast", "a text where a number belongs", input("live")),
  refuse("input", "front toss", "an input that is none of the three", input("flip")),
  refuse("hitter", "", "nobody's swing", input("tee")),
];

const duplicates = 6;

/** The rows with what goes wrong put in, each fault in a different row; duplicates follow their originals. */
export function withFaults(rows: readonly PrintedRow[]): FiledRow[] {
  const draw = chance("faults");
  const touched = new Map<number, Change | "twice">();
  const choose = (fits: (row: PrintedRow) => boolean): number => {
    for (;;) {
      const i = Math.floor(draw.uniform() * rows.length);
      if (!touched.has(i) && fits(rows[i]!)) return i;
    }
  };
  for (const change of changes) touched.set(choose(change.fits), change);
  for (let i = 0; i < duplicates; i++) touched.set(choose(hit), "twice");

  return rows.flatMap((row, i): FiledRow[] => {
    const change = touched.get(i);
    if (change === undefined) return [{ cells: row, fault: null }];
    if (change === "twice") {
      const fault: Fault = { kind: "duplicate", field: null, what: "the row before again", before: {} };
      return [
        { cells: row, fault: null },
        { cells: row, fault },
      ];
    }
    const cells = change.cells(row);
    const before = Object.fromEntries(Object.keys(cells).map((field) => [field, row[field]!]));
    return [
      {
        cells: { ...row, ...cells },
        fault: { kind: change.kind, field: change.field, what: change.what, before },
      },
    ];
  });
}
