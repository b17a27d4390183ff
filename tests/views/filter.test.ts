/** One filter: into an address and back, over swings, and what to widen. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { inputs } from "../../src/swing/fields.ts";
import {
  bandNamed,
  filtered,
  filterFrom,
  chosenText,
  filterKeys,
  noFilter,
  offersOf,
  rowsInScope,
  widenings,
  type FilterField,
  type SwingFilter,
} from "../../src/views/filter.ts";
import { swing } from "./rows.ts";

const session = (name: string, date: string, pitch_speed_at: "plate" | "release" | null = "plate") => ({
  session: name,
  date,
  pitch_speed_at,
});
const live = (given: Parameters<typeof swing>[0]) => swing({ input: "live", session: "new", ...given });

const library = {
  sessions: [
    session("old", "2025-03-01"),
    session("new", "2025-04-12"),
    session("release", "2025-04-12", "release"),
  ],
  thresholds: null,
  swings: [
    swing({ swing_id: "tee", session: "old", drill: "Tee, middle" }),
    live({ swing_id: "fast", pitch_type: "fastball", pitch_speed_mph: 80, pitcher: "Coach Pell" }),
    live({ swing_id: "slow", pitch_type: "changeup", pitch_speed_mph: 79.9, pitcher: "Coach Pell" }),
    live({ swing_id: "unknown", flags: "above_ceiling" }),
    // 84 mph at release are 77 at the plate, by the twelfth that a pitch loses.
    live({ swing_id: "from hand", session: "release", pitch_type: "fastball", pitch_speed_mph: 84 }),
    live({ swing_id: "other", hitter: "Other", pitch_speed_mph: 61, pitch_type: "slider" }),
  ],
};
const ids = (filter: Partial<SwingFilter>): (string | null)[] =>
  filtered(library, { ...noFilter, ...filter }).map(({ swing_id }) => swing_id);

describe("an address", () => {
  const text = fc.string({ minLength: 1 });
  const maybe = <T>(of: fc.Arbitrary<T>): fc.Arbitrary<T | null> => fc.option(of, { nil: null });
  const any: fc.Arbitrary<SwingFilter> = fc.record({
    hitter: maybe(text),
    session: maybe(text),
    input: maybe(fc.constantFrom(...inputs)),
    drill: maybe(text),
    dates: fc.constantFrom(
      "",
      "week",
      "four-weeks",
      "2025-03-01/..",
      "../2025-03-01",
      "2025-03-01/2025-03-31",
    ),
    pitch_type: maybe(text),
    pitch_speed_mph: maybe(fc.constantFrom({ low: 70, high: 80 }, { low: 0, high: 62.5 })),
    pitcher: maybe(text),
    without_flagged: fc.boolean(),
  });

  it("gives back every filter that is written into it", () => {
    fc.assert(
      fc.property(any, (filter) => {
        // As pages write it into their address.
        const written = (Object.keys(filterKeys) as FilterField[])
          .map((field) => [filterKeys[field], chosenText(filter, field)])
          .filter(([, text]) => text !== "");
        const read = filterFrom(new URLSearchParams(new URLSearchParams(written).toString()));
        expect(read).toEqual({ filter, troubles: [] });
      }),
    );
  });

  it("says what it can't read, and leaves nothing out for it", () => {
    const { filter, troubles } = filterFrom(
      new URLSearchParams("input=machine&dates=2025-02-30/..&pitch-speed=80-70&hitter=Ada"),
    );
    expect(filter).toEqual({ ...noFilter, hitter: "Ada" });
    expect(troubles).toHaveLength(3);
    expect(troubles[0]).toBe(
      "The address asks for input=machine, but a ball comes by tee, flip, live; all are shown.",
    );
    expect(troubles[1]).toMatch(/dates are week, four-weeks, or a first and a last day/);
    expect(troubles[2]).toMatch(/the lower comes first/);
  });
});

describe("swings", () => {
  it("are left by each choice, and by all together", () => {
    expect(ids({})).toHaveLength(library.swings.length);
    expect(ids({ hitter: "Robin Test", input: "live", pitch_type: "fastball" })).toEqual([
      "fast",
      "from hand",
    ]);
    expect(ids({ pitcher: "Coach Pell", pitch_type: "changeup" })).toEqual(["slow"]);
    expect(ids({ drill: "Tee, middle" })).toEqual(["tee"]);
    expect(ids({ session: "new", without_flagged: true })).toEqual(["fast", "slow", "other"]);
  });

  it("have the speed of the plate, from a band's low up to its high, it left out; a tee has no pitch", () => {
    expect(ids({ pitch_speed_mph: { low: 70, high: 80 } })).toEqual(["slow", "from hand"]);
    expect(ids({ pitch_speed_mph: { low: 80, high: 90 } })).toEqual(["fast"]);
    expect(ids({ pitch_speed_mph: { low: 0, high: 10 } })).toEqual([]);
  });

  it("have their days counted from the library's last, whoever is chosen", () => {
    expect(ids({ dates: "week" })).not.toContain("tee");
    expect(ids({ dates: "week", hitter: "Robin Test", input: "tee" })).toEqual([]);
    expect(ids({ dates: "../2025-03-31" })).toEqual(["tee"]);
  });

  it("of no measured speed are in no band, and a swing without a day is in no span", () => {
    const rows = [live({ pitch_speed_mph: null }), swing({ session: null, time: null })];
    expect(rowsInScope(rows, library, { pitch_speed_mph: { low: 0, high: 200 } })).toEqual([]);
    expect(rowsInScope(rows, library, { since: "2025-01-01" })).toEqual([rows[0]]);
    expect(rowsInScope(rows, library, {})).toEqual(rows);
  });
});

describe("what can be chosen", () => {
  it("is what some swing has, and no more", () => {
    const offers = offersOf(library.swings, library);
    expect(offers.pitch_types).toEqual([
      { value: "fastball", n: 2 },
      { value: "changeup", n: 1 },
      { value: "slider", n: 1 },
    ]);
    expect(offers.pitch_speeds).toEqual([
      { value: { low: 60, high: 70 }, n: 1 },
      { value: { low: 70, high: 80 }, n: 2 },
      { value: { low: 80, high: 90 }, n: 1 },
    ]);
    expect(offers.inputs).toEqual([
      { value: "tee", n: 1 },
      { value: "live", n: 5 },
    ]);
    expect(offers.flagged).toBe(1);
    const tee = offersOf([library.swings[0]!], library);
    expect([tee.pitch_types, tee.pitch_speeds, tee.pitchers]).toEqual([[], [], []]);
  });

  it("is told to be widened where nothing is left, what opens most first", () => {
    const filter = { ...noFilter, hitter: "Robin Test", dates: "../2025-03-31", pitch_type: "fastball" };
    expect(filtered(library, filter)).toEqual([]);
    expect(widenings(library, filter)).toEqual([
      { field: "dates", n: 2 },
      { field: "pitch_type", n: 1 },
    ]);
  });
});

describe("a band", () => {
  it.each(["fast", "70", "-10-80", "80-70", "70-70", "1e3-2e3", "70-80-90"])(
    "refuses %s in a sentence",
    (text) => expect(() => bandNamed(text)).toThrow(/pitch speeds/),
  );
  it.each(["70-80", " 70 – 80 ", "70 to 80"])("takes %s", (text) =>
    expect(bandNamed(text)).toEqual({ low: 70, high: 80 }),
  );
});
