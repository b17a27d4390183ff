/** Every sentence of the kit at its edges: all met, none met, one row, ties, zero, all equal, no earlier session, one drill. */
import { afterAll, describe, expect, it } from "vitest";
import claims from "../../data/claims.json" with { type: "json" };
import * as sentences from "../../src/views/sentences/index.ts";
import { changeSince } from "../../src/views/change.ts";
import { noFilter } from "../../src/views/filter.ts";
import { headline } from "../../src/views/headline.ts";
import { targetResult } from "../../src/views/target.ts";
import type { EnrichedSwing } from "../../src/swing/fields.ts";
import { swing, target } from "./rows.ts";

const {
  carry,
  changes,
  field,
  filter,
  gap,
  group,
  marked,
  month,
  needs,
  opening,
  progress,
  readings,
  report,
  round,
  rounds,
  season,
  setup,
  stations,
  timing,
  titles,
  trial,
} = sentences;

type Given = Partial<EnrichedSwing>;
const many = (n: number, given: Given | ((i: number) => Given)): EnrichedSwing[] =>
  Array.from({ length: n }, (_, i) => swing(typeof given === "function" ? given(i) : given));
/** Noise that is the same on every run, about −1 to 1. */
const wave = (i: number): number => Math.sin(i * 12.9898) * Math.cos(i * 4.1414);

/** Sentences that were held to something here: the rest of the registry is missing from this file. */
const known = new Set<string>();
const held = <T>(name: string, of: T): T => {
  known.add(name);
  return of;
};

describe("what to work on next", () => {
  const drill = (name: string, met: number, of: number): EnrichedSwing[] =>
    many(of, (i) => ({ drill: name, session: "a", launch_angle_deg: i < met ? 15 : 40 }));
  const targetsOf = (rows: readonly EnrichedSwing[], ...names: string[]) =>
    names.map((name) => targetResult(rows, target({ drill: name, launch_angle_deg_high: 25 })));
  const nextOf = (rows: readonly EnrichedSwing[], ...names: string[]): string =>
    headline(rows, { targets: targetsOf(rows, ...names), zone: { height_in: 72 } }).next;

  held("report.nextSentence", report.nextSentence);

  it("says that every target was met where it was, and not that no drill has 10", () => {
    const rows = [...drill("a", 12, 12), ...drill("b", 18, 18), ...drill("c", 19, 19)];
    const text = nextOf(rows, "a", "b", "c");
    expect(text).toBe(
      "No one thing to work on stands out in 49 swings: no contact point was measured; " +
        "every target of 3 drills was met (“a” 12 of 12, “b” 18 of 18, “c” 19 of 19).",
    );
    expect(nextOf(drill("a", 12, 12), "a")).toContain("every target of the drill was met (“a” 12 of 12)");
  });

  it("names the only drill with room left, whichever share was met", () => {
    expect(nextOf(drill("a", 0, 12), "a")).toBe(
      "Work on next: the drill “a”, target met on 0 of 12 (0 to 24%). Most often off: launched too high, 12 balls.",
    );
    expect(nextOf(drill("a", 11, 12), "a")).toMatch(/^Work on next: the drill “a”, target met on 11 of 12/);
  });

  it("names one of several drills only where it is clearly behind, and none at a tie", () => {
    const behind = [...drill("a", 2, 30), ...drill("b", 25, 30), ...drill("c", 26, 30)];
    expect(nextOf(behind, "a", "b", "c")).toMatch(
      /^Work on next: the drill “a”, target met on 2 of 30 .* The least met of 3 drills, by more than chance\.$/,
    );
    for (const [a, b] of [
      [5, 5],
      [4, 6],
      [0, 0],
    ])
      expect(nextOf([...drill("a", a!, 12), ...drill("b", b!, 12)], "a", "b")).toContain(
        `none of 2 drills is clearly behind the others (“a” ${a} of 12, “b” ${b} of 12).`,
      );
  });

  it("tells drills with too few swings, one cell, no cell and no place apart", () => {
    const few = drill("a", 3, 9);
    expect(nextOf(few, "a")).toBe(
      "No one thing to work on stands out in 9 swings: no contact point was measured; " +
        "no drill with a target has 10 swings that can be judged.",
    );
    const middle: Given = { contact_side_ft: 0, contact_height_ft: 2.4, power_kept: 0.8 };
    expect(nextOf(many(9, middle))).toContain("no cell of the zone has 10 balls.");
    expect(nextOf(many(10, middle))).toContain(
      "only one cell of the zone has 10 balls, with no other to hold it against.",
    );
    expect(nextOf(many(1, {}))).toContain("in 1 swing: no contact point was measured.");
    expect(nextOf([])).toBe("There are no swings to say anything about.");
    expect(nextOf(many(2, { outcome: "take", exit_velocity_mph: null }))).toBe(
      "There are no swings to say anything about.",
    );
  });

  const cell = (n: number, place: Given, power: (i: number) => number, session = "a"): EnrichedSwing[] =>
    many(n, (i) => ({ ...place, session, power_kept: power(i) }));
  const low: Given = { contact_side_ft: 0.6, contact_height_ft: 1.5 };
  const mid: Given = { contact_side_ft: 0, contact_height_ft: 2.4 };
  const high: Given = { contact_side_ft: 0, contact_height_ft: 3 };

  it("names no cell where all balls are equal, or cells differ by days and not by place", () => {
    const equal = [...cell(15, low, () => 0.8), ...cell(15, mid, () => 0.8), ...cell(15, high, () => 0.8)];
    expect(nextOf(equal)).toContain(
      "none of the 3 cells of the zone with 10 balls or more is clearly weaker",
    );
    // A bad day that was spent low and outside.
    const days = [
      ...cell(20, low, (i) => 0.7 + 0.05 * wave(i), "bad day"),
      ...cell(20, mid, (i) => 0.9 + 0.05 * wave(i + 50), "good day"),
    ];
    expect(nextOf(days)).not.toContain("Work on next");
    // The same with two kinds of work on one day.
    const works = days.map((r, i) => ({ ...r, session: "a", input: i < 20 ? ("live" as const) : r.input }));
    expect(nextOf(works)).not.toContain("Work on next");
  });

  it("names the cell that is weak within the days", () => {
    const rows = ["a", "b", "c"].flatMap((session, d) => [
      ...cell(8, low, (i) => 0.7 + 0.1 * d + 0.05 * wave(i + d), session),
      ...cell(8, mid, (i) => 0.8 + 0.1 * d + 0.05 * wave(i + 9 * d), session),
    ]);
    expect(nextOf(rows)).toMatch(
      /^Work on next: balls met low and outside, clearly weaker than elsewhere \(2 cells with 10 balls or more were compared\)\. \d+% of power kept \(median\) on 24 balls, \d+% on the 24 met elsewhere; held against the same kind of work on the same day, lower by [\d to]+ points\.$/,
    );
  });
});

describe("facts in short", () => {
  held("report.wellHitSentence", report.wellHitSentence);
  held("report.speedSentence", report.speedSentence);
  held("report.targetSentence", report.targetSentence);
  held("report.changeSentence", report.changeSentence);

  it("of one row, of none hit well, of all, and of balls that all read the same", () => {
    const factsOf = (rows: readonly EnrichedSwing[]) => headline(rows).facts;
    expect(factsOf(many(1, { bucket: "flush" }))).toEqual([
      "Clean or flush contact on 1 of 1 tee ball (21 to 100%).",
      "1 ball off the tee, at 80 mph: too few to say more.",
    ]);
    expect(factsOf(many(20, { bucket: "mishit" })).at(-1)).toMatch(/on 0 of 20 tee balls \(0 to 16%\)/);
    expect(factsOf(many(20, { bucket: "flush" }))[0]).toMatch(/on 20 of 20 tee balls \(84 to 100%\)/);
    expect(factsOf(many(20, {}))).toEqual(["Every one of 20 balls off the tee read 80 mph."]);
    expect(factsOf(many(3, {}))).toEqual(["3 balls off the tee, 80 mph on average: too few to say more."]);
    expect(factsOf([])).toEqual([]);
  });

  it("of a drill that can't be judged, and one that was met throughout", () => {
    const of = (rows: readonly EnrichedSwing[]) =>
      headline(rows, { targets: [targetResult(rows, target({ drill: "a", spray_angle_deg_low: 0 }))] }).facts;
    expect(of(many(4, { drill: "a" }))).toContain("Drill “a”: no swing can be judged.");
    const met = of(many(12, { drill: "a", session: "s", spray_angle_deg: 5 }));
    expect(met).toContain("Drill “a”: target met on 12 of 12 (76 to 100%).");
  });

  const days = (levels: readonly number[], n = 30): EnrichedSwing[] =>
    levels.flatMap((level, d) =>
      many(n, (i) => ({
        session: `day ${d}`,
        time: `2025-03-${String(d + 10)}T10:00:00`,
        exit_velocity_mph: level + 2 * wave(i + 31 * d),
        launch_angle_deg: 12 + 3 * wave(i + 17 * d),
      })),
    );
  const saidOf = (levels: readonly number[]) => {
    const rows = days(levels);
    const table = changeSince(rows, []);
    return { table, facts: headline(rows, { changes: table }).facts.filter((f) => f.includes("since")) };
  };

  it("no change without three earlier sessions, however large, and the table says why", () => {
    for (const levels of [[70], [70, 90], [70, 70.4, 90]]) expect(saidOf(levels).facts).toEqual([]);
    const { table } = saidOf([70, 70.4, 90]);
    expect(held("changes.changeNotes", changes.changeNotes)(table)).toEqual([
      "Days differ too, and with fewer than 3 earlier sessions nobody can say by how much. These lines count swings and no days: a good or a bad day moves many of them, so none is called a change.",
    ]);
    expect(table[0]!.changes.every((c) => !c.marked)).toBe(true);
    const line = held("changes.changeLine", changes.changeLine);
    expect(line(table[0]!.changes[0]!, "us")).toMatch(
      /^\+19\.\d mph \(1[89]\.\d to [12]\d\.\d\), days not counted$/,
    );
    for (const c of table[0]!.changes) expect(line(c, "us")).not.toMatch(/up by|down by/);
    expect(line({ ...table[0]!.changes[0]!, days: 3 }, "us")).toMatch(/^up by/);
    expect(changes.changeNotes([])).toEqual([]);
    expect(held("changes.nothingBefore", changes.nothingBefore)).toMatch(/no earlier session/);
  });

  it("a change that days don't make, with four earlier sessions alike; none where days differ as much", () => {
    const alike = saidOf([70, 70.3, 69.8, 70.1, 90]);
    expect(alike.facts).toHaveLength(1);
    expect(alike.facts[0]).toMatch(
      /^Exit velocity, mean, tee, since 2025-03-13: up by [\d.]+ to [\d.]+ mph \(30 and 30 swings; days counted\)\.$/,
    );
    expect(changes.changeNotes(alike.table).join(" ")).toMatch(
      /as 4 earlier tee sessions show it\. 1 of \d lines stands out with all of them looked at together \(Holm\): it is clear\.$/,
    );
    const varied = saidOf([70, 88, 66, 80, 90]);
    expect(varied.facts).toEqual([]);
    expect(changes.changeNotes(varied.table).join(" ")).toMatch(/so none is put into a sentence\.$/);
    // All days equal: nothing changed.
    expect(saidOf([80, 80, 80, 80, 80]).facts).toEqual([]);
  });

  it("lines that chance alone would mark", () => {
    const of = held("changes.chanceSentence", changes.chanceSentence);
    expect([0, 1, 7, 14, 15, 21, 42, 200].map(of)).toEqual([
      null,
      "One line at 95% stands out by chance alone 1 time in 20.",
      "Of 7 lines at 95%, one stands out by chance alone in about 1 table of 3.",
      "Of 14 lines at 95%, one stands out by chance alone in about 1 table of 2.",
      "Of 15 lines at 95%, about 1 stands out by chance alone.",
      "Of 21 lines at 95%, about 1 stands out by chance alone.",
      "Of 42 lines at 95%, about 2 stand out by chance alone.",
      "Of 200 lines at 95%, about 10 stand out by chance alone.",
    ]);
  });
});

describe("a gap", () => {
  const works = { from: "tee", to: "live" } as const;
  const told = (value: number, low: number, high: number) => ({ value, low, high, reason: null });
  const none = { value: null, low: null, high: null, reason: "too few to compare: 0 and 9" };
  const bare = { value: 3, low: null, high: null, reason: "too few for an interval: 3 and 9" };
  const speed = { title: "Exit velocity, mean", unit: "mph" } as const;

  it("touching zero is no clear difference; beyond the pitches it leads and is never contradicted", () => {
    const of = held("gap.beyondPitchSentence", gap.beyondPitchSentence);
    const all = held("gap.inAllSentence", gap.inAllSentence);
    const title = held("gap.beyondPitchTitle", gap.beyondPitchTitle);
    for (const beyond of [told(0, 0, 0), told(1, 0, 2), told(-1, -2, 0)]) {
      expect(of(beyond, works)).toMatch(/no clear difference/);
      expect(title(beyond, works)).toBeUndefined();
    }
    for (const beyond of [bare, none, told(-14, -14, -14)]) expect(title(beyond, works)).toBeUndefined();
    expect(title(told(-5, -9, -2), works)).toBe("Live costs 2 to 9 mph beyond the pitch");
    expect(title(told(5, 2, 9), { from: "live", to: "flip" }, "metric")).toBe(
      "Flip work adds 3 to 14 km/h beyond the pitch",
    );
    expect(of(bare, works)).toBe(
      "beyond the pitches' speed, mean exit velocity is +3.0 mph live: too few for an interval: 3 and 9.",
    );
    expect(of(none, works)).toBeNull();
    // All equal: no width, and nothing that could be called clear.
    expect(of(told(-14, -14, -14), works)).toBe(
      "beyond the pitches' speed, mean exit velocity is −14.0 mph live, every ball of a side reading the same: nothing tells how far chance would move it.",
    );
    expect(gap.gapSentence({ ...speed, ...told(5, 5, 5) }, works)).toMatch(
      /^mean exit velocity: \+5\.0 mph live, every ball/,
    );
    const lower = of(told(-5, -9, -2), works)!;
    const inAll = all({ pitch: { value: 8 }, predicted: { value: 73 }, gap: told(3, -1, 7) }, works)!;
    expect(lower).toContain("lower by 2 to 9 mph");
    expect(inAll).not.toMatch(/no clear difference/);
    expect(inAll).toMatch(/In all, the difference is \+3\.0 mph \(−1\.0 to 7\.0\), which could be chance\.$/);
    expect(all({ pitch: { value: 8 }, predicted: { value: 73 }, gap: bare }, works)).toMatch(
      /too few to say more/,
    );
    expect(all({ pitch: { value: null }, predicted: { value: null }, gap: bare }, works)).toBeNull();
    expect(all({ pitch: { value: 0 }, predicted: { value: 73 }, gap: told(0, 0, 0) }, works)).toMatch(
      /by itself gives 0\.0 mph.*difference is 0\.0 mph/,
    );
  });

  it("without figures says what there is", () => {
    const of = held("gap.gapSentence", gap.gapSentence);
    held("gap.gapWords", gap.gapWords);
    held("gap.measureWords", gap.measureWords);
    expect(of({ ...speed, ...none }, works)).toBe(
      "mean exit velocity can't be compared: too few to compare: 0 and 9.",
    );
    expect(of({ ...speed, ...bare }, works)).toBe(
      "mean exit velocity: +3.0 mph, too few for an interval: 3 and 9.",
    );
    expect(of({ ...speed, ...told(-5, -9, -2) }, works)).toBe(
      "mean exit velocity: lower by 2 to 9 mph live than off the tee.",
    );
    expect(held("gap.noSwingsSentence", gap.noSwingsSentence)("A", "flip")).toBe(
      "A has no flip swings in this scope.",
    );
  });

  it("without pitch speeds: one ball, all of them, one kind of work or both", () => {
    expect(held("gap.ceilingGivenSentence", gap.ceilingGivenSentence)).toMatch(/itself an estimate/);
    const without = held("gap.noPitchSpeedSentence", gap.noPitchSpeedSentence);
    expect(without("live", 1, 30)).toBe(
      "1 of 30 live balls has no pitch speed: it is in no figure of power kept or buckets.",
    );
    expect(without("flip", 30, 60)).toBe(
      "30 of 60 flip balls have no pitch speed: they are in no figure of power kept or buckets.",
    );
    expect(held("gap.ownCeilingSentence", gap.ownCeilingSentence)("live")).toMatch(
      /^Most live balls have no pitch speed: .* are told by a ceiling of live alone/,
    );
    const reason = held("gap.ownCeilingReason", gap.ownCeilingReason);
    expect(reason(["live"])).toBe("not comparable: without pitch speeds live has a ceiling of its own");
    expect(reason(["flip", "live"])).toBe(
      "not comparable: without pitch speeds flip and live have ceilings of their own",
    );
  });

  it("in parts: none told, none that stands, and what is left takes in what can't be told", () => {
    const of = held("gap.partSentence", gap.partSentence);
    const contact = { part: "contact", ...told(-5, -8, -2) } as const;
    const pitch = { part: "pitch speed", ...told(8, 7, 9) } as const;
    const noBat = { part: "bat speed", ...none } as const;
    expect(of([], [])).toBeNull();
    expect(of([], [{ part: "contact", ...bare }])).toBeNull();
    expect(of([], [pitch, contact])).toBe("Beyond the pitches' speed no part stands out beyond chance.");
    expect(of([], [{ ...pitch, ...none }, contact])).toBe("No part of it stands out beyond chance.");
    expect(of([{ way: "lost", part: contact, alike: [] }], [pitch, noBat, contact])).toBe(
      "Most is lost by contact (with bat speed, which can't be told): −5.0 mph (−8.0 to −2.0).",
    );
    expect(of([{ way: "lost", part: contact, alike: [] }], [pitch, contact])).toBe(
      "Most is lost by contact, all that is left: −5.0 mph (−8.0 to −2.0).",
    );
  });
});

describe("how many swings it takes", () => {
  const { stabilizes } = sentences;

  it("is said with its range, or why it can't be", () => {
    const of = held("stabilizes.stabilizesSentence", stabilizes.stabilizesSentence);
    expect(of("Carry", { value: 1, low: 1, high: 1 })).toBe(
      "Carry: stabilizes after about 1 swing (1 to 1).",
    );
    expect(of("Carry", { value: 30, low: null, high: null })).toMatch(
      /\(at least 1; how many at most can't be told\)/,
    );
    const never = held("stabilizes.neverStabilizes", stabilizes.neverStabilizes);
    expect(of("Carry", { value: null, low: null, high: null })).toContain(`more than ${never} swings`);
    const why = held("stabilizes.untoldSentence", stabilizes.untoldSentence);
    for (const reason of ["same", "alike", "days", "oneDay"] as const)
      expect(why("Carry", reason)).toMatch(/^Carry: .*\.$/);
  });

  it("is not said of too few hitters: none, one, two, and some of other levels", () => {
    const of = held("stabilizes.fewHittersSentence", stabilizes.fewHittersSentence);
    const least = held("stabilizes.fewestHitters", stabilizes.fewestHitters);
    const swings = held("stabilizes.fewestSwings", stabilizes.fewestSwings);
    expect(of("Carry", 0, true)).toBe(
      `Carry: 0 hitters have ${swings} swings or more; it takes ${least} to tell apart.`,
    );
    expect(of("Carry", 1, false)).toMatch(/1 hitter has/);
    expect(of("Carry", least, true)).toMatch(/too few of them of one level/);
    const compared = held("stabilizes.comparedSentence", stabilizes.comparedSentence);
    expect(compared(1, 0, false)).toBeNull();
    expect(compared(1, 2, false)).toBe("Hitters of one level are compared; 2 alone at theirs left out.");
    expect(compared(3, 0, true)).toMatch(/3 levels \(those whose level is unknown are taken as one\)\.$/);
  });

  it("is printed once where every measure says the same", () => {
    const of = held("stabilizes.foldedLines", stabilizes.foldedLines);
    expect(of([])).toEqual([]);
    expect(of(["Carry: same."])).toEqual(["Carry: same."]);
    expect(of(["Carry: same.", "Power: same."])).toEqual(["every measure: same."]);
    expect(of(["Carry: same.", "Power: other."])).toEqual(["Carry: same.", "Power: other."]);
  });
});

describe("swings that figures are read with care of", () => {
  it("from both sides of the plate: none, one side, both in one kind of work, one in each", () => {
    const of = held("gap.bothSidesSentence", gap.bothSidesSentence);
    const works = (...sides: [number, number][]) =>
      sides.map(([left, right], i) => ({
        input: i === 0 ? ("tee" as const) : ("live" as const),
        left,
        right,
      }));
    expect(of([])).toBeNull();
    expect(of(works([0, 0], [0, 0]))).toBeNull();
    expect(of(works([5, 0], [7, 0]))).toBeNull();
    expect(of(works([5, 0], [0, 0]))).toBeNull();
    expect(of(works([5, 0], [0, 7]))).toMatch(/tee 5 left and 0 right, live 0 left and 7 right\.$/);
    expect(of(works([5, 1], [0, 0]))).toMatch(/together: tee 5 left and 1 right\.$/);
  });

  it("are told in the headline: missing pitch speeds, a ceiling of its own, both sides", () => {
    const live = (flags: string | null, bats: "L" | "R") =>
      many(12, { input: "live", session: "a", flags, bats });
    const of = (rows: readonly EnrichedSwing[]) => headline(rows).facts.join(" ");
    expect(of([...live(null, "R"), ...live("no_pitch_speed", "R")])).toContain(
      "12 of 24 live balls have no pitch speed",
    );
    expect(of(live("own_ceiling", "R"))).toContain("told by a ceiling of live alone");
    expect(of([...live(null, "R"), ...live(null, "L")])).toContain("live 12 left and 12 right");
    expect(of(live(null, "R"))).not.toMatch(/pitch speed|ceiling|left/);
  });
});

describe("days", () => {
  it("are too few at one and at two, and said of each kind of work alone", () => {
    expect(held("days.oneSessionSentence", sentences.days.oneSessionSentence)).toMatch(/^One session/);
    const few = held("days.fewDaysSentence", sentences.days.fewDaysSentence);
    for (const sessions of [0, 1, 3, 8]) expect(few([{ input: "tee", sessions }])).toBeNull();
    expect(few([])).toBeNull();
    expect(few([{ input: "tee", sessions: 2 }])).toMatch(/^Tee work is of two days: too few to tell/);
    expect(
      few([
        { input: "tee", sessions: 2 },
        { input: "flip", sessions: 2 },
        { input: "live", sessions: 2 },
      ]),
    ).toMatch(/^Tee, flip and live work are of two days each: .* their ranges/);
  });

  it("stand in the headline of two days, and of no other number", () => {
    const of = (sessions: number) =>
      headline(
        many(20 * sessions, (i) => ({ session: `${i % sessions}`, exit_velocity_mph: 80 + wave(i) })),
      ).facts.filter((f) => /two days/.test(f)).length;
    expect([1, 2, 3].map(of)).toEqual([0, 1, 0]);
  });
});

describe("a group", () => {
  const works = { from: "tee", to: "live" } as const;
  const carry = { title: "Carry, mean", unit: "ft" } as const;

  it("of none, of a mean of nothing, of one pair and of many", () => {
    const of = held("group.groupSentence", group.groupSentence);
    expect(of({ ...carry, k: 1, mean: null }, works)).toMatch(/fewer than two hitters/);
    expect(of({ ...carry, k: 2, mean: { value: 0, low: 0, high: 0 } }, works)).toMatch(
      /^In the mean of 2 hitters, no clear/,
    );
    const order = held("group.orderSentence", group.orderSentence);
    expect(order({ clear: 0, all: 0 })).toBeNull();
    expect(order({ clear: 1, all: 3 })).toMatch(/^1 of the 3 pairs of hitters clearly differs,/);
    expect(order({ clear: 3, all: 3 })).toMatch(/^All 3 pairs of hitters clearly differ/);
    expect(held("group.noDifferenceSentence", group.noDifferenceSentence)).toMatch(
      /pooled far toward the group/,
    );
    expect(held("group.noGroupSentence", group.noGroupSentence)).toMatch(/no group/);
    expect(held("group.tooFewToRankSentence", group.tooFewToRankSentence)([])).toBeNull();
  });
});

describe("a group's days and needs", () => {
  it("with nobody, with one, with nothing clear, and with parts that can't be told apart", () => {
    const answer = held("needs.groupAnswer", needs.groupAnswer);
    expect(answer({ active: 1, hitters: 2, swings: 1, clear: 1 }).text).toBe(
      "1 of 2 hitters took 1 swing; what to work on next is clear for 1 hitter.",
    );
    expect(answer({ active: 3, hitters: 3, swings: 9, clear: null }).text).not.toMatch(/clear/);
    const words = held("needs.needWords", needs.needWords);
    const told = (part: "place" | "contact") => ({ part, value: -5, low: -7, high: -3, reason: null });
    expect(
      words({
        kind: "gap",
        largest: { part: told("place"), alike: [told("contact")] },
        n: { from: 9, to: 8 },
      }),
    ).toMatch(
      /^Live costs most by where the ball is met, or by contact: −5\.0 mph .* 9 tee and 8 live balls$/,
    );
    expect(words({ kind: "drill", drill: { drill: "a", count: 0, n: 10, low: null, high: null } })).toBe(
      "“a”: met on 0 of 10, behind the other drills",
    );
    const none = held("needs.noNeedWords", needs.noNeedWords);
    expect(none({ swings: 1, lines: 3 })).toBe("Nothing clear in 1 swing");
    const span = held("needs.spanWords", needs.spanWords);
    expect(span({ since: "2025-04-07", until: "2025-04-07" })).toBe("on 2025-04-07");
    expect(held("needs.needsNote", needs.needsNote)(1, { since: null, until: null })).toMatch(
      /picked from 1 line of all hitters together, on all days .* It ranks nobody\.$/,
    );
    expect(held("needs.columnOrder", needs.columnOrder)("Met", { clear: 1, all: 3 })).toBe(
      "Met: 1 of 3 pairs of hitters clearly differs.",
    );
  });
});

describe("a marked part", () => {
  it("says how many of how many, and from where to where, open ends and both units too", () => {
    const said = held("marked.markedSentence", marked.markedSentence);
    const part = held("marked.partWords", marked.partWords);
    const open = { low: null, high: null };
    expect(said({ chart: "contact", x: open, y: { low: -10, high: null } }, 1, 23, "us")).toBe(
      "1 of 23 swings: the one in the marked part, launch angle from −10°.",
    );
    expect(said({ chart: "field", x: open, y: open }, 2, 2, "us")).toBe(
      "2 of 2 swings: those in the marked part.",
    );
    expect(part({ chart: "field", x: { low: null, high: 0 }, y: { low: null, high: 328 } }, "metric")).toBe(
      "up to 100 m out, from the left edge to center",
    );
    expect(part({ chart: "contact", x: { low: null, high: 100 }, y: open }, "metric")).toBe(
      "exit velocity up to 161 km/h",
    );
    expect(held("marked.measureName", marked.measureName)("field", "y", "us")).toBe("Out from the plate, ft");
    expect(held("marked.ofMarked", marked.ofMarked)).toMatch(/marked part alone\.$/);
    expect(held("marked.toldOfAll", marked.toldOfAll)).toMatch(/^What to work on next/);
  });
});

describe("a filter", () => {
  it("in words, alone and all at once, in both units", () => {
    const words = held("filter.filterWords", filter.filterWords);
    const all = {
      hitter: "Ada K.",
      session: "clinic",
      input: "live",
      drill: "At-bats",
      dates: "2025-03-01/2025-03-31",
      pitch_type: "curveball",
      pitch_speed_mph: { low: 70, high: 80 },
      pitcher: "Coach Pell",
      without_flagged: true,
    } as const;
    expect(words(all, "metric")).toBe(
      "from 2025-03-01 to 2025-03-31, session clinic, live, drill “At-bats”, curveballs of 113 to 129 km/h, thrown by Coach Pell, without flagged swings",
    );
    const dates = held("filter.datesWords", filter.datesWords);
    expect(Object.keys(held("filter.spanTitles", filter.spanTitles)).map(dates)).toEqual([
      "this week",
      "the last four weeks",
    ]);
    expect(held("filter.bandWords", filter.bandWords)({ low: 0, high: 10 }, "us")).toBe("0 to 10 mph");
    const pitches = held("filter.pitchWords", filter.pitchWords);
    for (const [type, told] of [
      ["changeup", "changeups"],
      ["Slider", "pitches “Slider”"],
      ["cross", "pitches “cross”"],
      ["x".repeat(60), `pitches “${"x".repeat(39)}…”`],
    ])
      expect(pitches({ pitch_type: type!, pitch_speed_mph: null }, "us")).toBe(told);
    expect(pitches(noFilter, "us")).toBeNull();
  });

  it("says from which day a named span is counted, and that a ceiling isn't filtered", () => {
    const said = held("filter.filterSentence", filter.filterSentence);
    expect(held("filter.ceilingOverAll", filter.ceilingOverAll)).toMatch(/all of the hitter’s swings\.$/);
    const four = { ...noFilter, dates: "four-weeks", pitcher: "Jory B." };
    expect(said(four, "2025-04-12", "us")).toBe(
      `Only thrown by Jory B.; the last four weeks: from 2025-03-17 to 2025-04-13, counted from the last day here, 2025-04-12.`,
    );
    expect(said(four, null, "us")).toBe(`Only thrown by Jory B.; the last four weeks.`);
    expect(said({ ...noFilter, input: "tee", drill: "a", session: "b" }, "2025-04-12", "us")).toBeNull();
  });

  it("says what to widen, and which values there are, the nearest first", () => {
    const empty = held("filter.emptyFilter", filter.emptyFilter);
    expect(empty(noFilter, [], "us")).toBe("No swing is left.");
    expect(empty({ ...noFilter, pitcher: "A" }, [{ field: "pitcher", n: 1 }], "us")).toBe(
      "No swing is left: thrown by A. Without the pitcher there is 1 swing.",
    );
    const there = held("filter.notThere", filter.notThere);
    expect(there("pitch_speed_mph", "71-79", ["30-40", "60-70", "70-80"], "mph")).toBe(
      "No swing has the pitch speed 71-79 mph; there are 70-80, 60-70 and 30-40 mph.",
    );
    expect(there("pitcher", "Pel", ["Wyn", "Coach Pell"])).toBe(
      "No swing has the pitcher “Pel”; there are Coach Pell and Wyn.",
    );
    expect(there("drill", "z", ["a", "b", "c", "d", "e", "f", "g"])).toMatch(/ and 2 more\.$/);
    expect(there("drill", "z", ["a"])).toMatch(/; there is a\.$/);
  });
});

describe("live rounds", () => {
  const pair = {
    hitter: "Noa B.",
    pitcher: "Tamsin O.",
    stands: "harder",
    measure: "own_speed",
    unit: "mph",
    own: { value: 61.24, low: 58, high: 64.5 },
    expected: 66.4,
    n: 41,
    sessions: 1,
  } as const;

  it("with a pair, with none, with too few, by each measure, and what is left out", () => {
    const answer = held("rounds.roundsAnswer", rounds.roundsAnswer);
    expect(answer([], 0, "us").text).toMatch(/^Too few swings/);
    expect(answer([], 12, "us").text).toMatch(/^No pitcher is clearly harder/);
    expect(answer([pair], 12, "us")).toEqual({
      text: "Noa B. has it harder against Tamsin O.: 61.2 mph of own exit velocity, where 66.4 mph would be expected.",
      figure: "61.2 mph",
    });
    const sentence = held("rounds.pairSentence", rounds.pairSentence);
    const missed = {
      ...pair,
      stands: "easier",
      measure: "misses",
      unit: "share",
      own: { value: 0, low: 0, high: 0.1 },
      expected: 0.2,
    } as const;
    expect(sentence(missed, "us")).toBe(
      "Noa B. has it easier against Tamsin O.: misses on 0% of swings, where 20% would be expected.",
    );
    expect(sentence({ ...missed, measure: "power_kept" }, "metric")).toContain("0% of power kept");
    expect(held("rounds.pairBasis", rounds.pairBasis)(pair, "metric")).toMatch(
      /^95%: 93\.3 to 103\.8 km\/h, n 41 in 1 session\./,
    );
    const note = held("rounds.roundsNote", rounds.roundsNote);
    expect(note({ pairs: 1, enough: 0, looked: 0, fewest: 20, sessions: 3 })).toBe(
      "1 of 1 pair has too few swings to say anything: it takes 20 in 3 sessions.",
    );
    expect(note({ pairs: 0, enough: 0, looked: 0, fewest: 20, sessions: 3 })).toBe("");
    const outside = held("rounds.outsideRounds", rounds.outsideRounds);
    expect(outside(0, 0)).toBeNull();
    expect(outside(1, 0)).toBe("1 reading in doubt is left out.");
    expect(outside(0, 2)).toBe("2 pitches whose pitcher nobody wrote down are left out.");
    expect(held("rounds.pitcherCaution", rounds.pitcherCaution)).not.toMatch(/arm|fatigue|injur|tired/i);
  });
});

describe("a month, for a parent", () => {
  const work = { hitter: "Ivo S.", sessions: 1, tee: 1, flip: 0, live: 0, most: 1 } as const;
  const nothing = { ...work, sessions: 0, tee: 0, most: 0 } as const;

  it("with nothing, with one swing, with a change and without, with a ball that has no range", () => {
    const answer = held("month.monthAnswer", month.monthAnswer);
    expect(answer(work).text).toBe("Ivo S. came to 1 session and took 1 swing.");
    expect(answer(nothing).text).toBe("Ivo S. has no swings in this time.");
    const worked = held("month.monthWorked", month.monthWorked);
    expect(worked(nothing)).toBeNull();
    expect(worked({ ...work, live: 3 })).toMatch(
      /^1 off the tee and 3 against live pitching, 1 at most in one session\./,
    );
    const steady = held("month.monthSteady", month.monthSteady);
    expect(steady(0, 0, 0)).toMatch(/too early/);
    expect(steady(0, 5, 4)).toMatch(
      /^Nothing has clearly changed in 4 weeks, .*doesn't mean that the work is lost\.$/,
    );
    expect(steady(1, 5, 1)).toMatch(/1 week can tell/);
    const best = held("month.bestSentence", month.bestSentence);
    expect(best(null, "us")).toBeNull();
    const ball = {
      exit_velocity_mph: 70,
      carry_ft: null,
      carry_low_ft: null,
      carry_high_ft: null,
      day: null,
    };
    expect(best(ball, "metric")).toBe("The hardest ball left the bat at 113 km/h.");
    const meaning = held("month.monthMeaning", month.monthMeaning).join(" ");
    for (const word of [
      /grows/,
      /short/,
      /compares/,
      /not a prediction/,
      /hurts, stop, tell the coach, .* licensed practitioner/,
    ])
      expect(meaning).toMatch(word);
  });
});

describe("balls on a field", () => {
  it("of nobody, of one, and what is left out; never more than an estimate", () => {
    const answer = held("field.fieldAnswer", field.fieldAnswer);
    const nothing = { n: 0, safe: { value: 0, low: 0, high: 0 } };
    expect(answer("", nothing).text).toBe("There is no fair ball here yet.");
    const one = answer("Ada K.", { n: 1, safe: { value: 0.6, low: 0, high: 1 } });
    expect(one.text).toMatch(/about 1 of Ada K\.'s 1 fair ball would .*: an estimate, 0 to 1 by chance/);
    expect(one.text).toContain(one.figure);
    const out = held("field.leftOutSentence", field.leftOutSentence);
    expect(out({ foul: 1, left_out: 0 })).toBe("1 ball comes down foul there: in no figure here.");
    expect(held("field.fieldBasis", field.fieldBasis)).toMatch(/nobody's own defence is known/);
  });
});

describe("stations", () => {
  it("of one swing, of one round, of several", () => {
    const words = held("stations.swingsWords", stations.swingsWords);
    expect(words(1, [1])).toBe("1 swing in one round");
    expect(words(12, [6, 6])).toBe("12 swings: rounds of 6, 6");
    expect(held("stations.noNeedHere", stations.noNeedHere)).toMatch(/nothing clear/);
    expect(held("stations.noDrillsSentence", stations.noDrillsSentence)).toMatch(/targets\.csv/);
    expect(held("stations.planBasis", stations.planBasis)).toMatch(/The count is the coach's/);
  });
});

describe("timing", () => {
  it("calls nobody early or late who is not clearly so", () => {
    const of = held("timing.ruleWords", timing.ruleWords);
    expect(of({ value: 0, low: 0, high: 0 })).toBe("On average, neither clearly early nor late");
    expect(of({ value: 3, low: null, high: null })).toBe("On average, neither clearly early nor late");
    const told = held("timing.timingSentence", timing.timingSentence);
    const none = { count: 0 };
    const empty = {
      early: none,
      on_time: none,
      late: none,
      early_ms: { value: null, low: null, high: null },
      spread_ms: { value: null },
      n: 0,
    };
    expect(told("live", empty)).toBeNull();
    expect(told("live", { ...empty, n: 3, late: { count: 3 } })).toBe(
      "Timing, live: early 0, on time 0, late 3 of 3.",
    );
    expect(
      told("live", { ...empty, n: 3, late: { count: 3 }, early_ms: { value: -4, low: -6, high: -2 } }),
    ).toBe("Timing, live: early 0, on time 0, late 3 of 3; 4.0 ms late on average.");
    expect(held("timing.unplacedSentence", timing.unplacedSentence)(0, 0, "flip")).toBeNull();
    expect(held("timing.untimedSentence", timing.untimedSentence)(0, 0)).toBeNull();
    expect(held("timing.noPatternSentence", timing.noPatternSentence)(10)).toMatch(/10 tee balls/);
    expect(held("timing.noBatSpeedSentence", timing.noBatSpeedSentence)).toMatch(/^No bat speed/);
  });
});

describe("a tracker", () => {
  it("is said to be moved one way or the other, and by nothing where nothing is", () => {
    const place = held("setup.placeShiftSentence", setup.placeShiftSentence);
    expect(place(0.25, "higher", "lower")).toMatch(/lies 3 in higher/);
    expect(place(-0.25, "higher", "lower")).toMatch(/lies 3 in lower/);
    const speed = held("setup.speedShiftSentence", setup.speedShiftSentence);
    expect(speed(-4)).toMatch(/lie 4\.0 mph under the hitters' own trend/);
    expect(speed(3.26)).toMatch(/lie 3\.3 mph over .*: the tracker, the balls or the hitters/);
    const turned = held("setup.turnedSentence", setup.turnedSentence);
    expect(turned({ value: 2, low: 0, high: 4 }, "tilted", "up")).toMatch(
      /tilted 2\.0° up \(95%: 0\.0 to \+4\.0°\)/,
    );
    expect(held("setup.directionAloneSentence", setup.directionAloneSentence)(-2, "tilted")).toMatch(
      /−2\.0° in launch/,
    );
    expect(held("setup.inDoubtSentence", setup.inDoubtSentence)(0, 0, "")).toBeNull();
    expect(setup.inDoubtSentence(40, 40, "doubled 40")).toBe("40 of 40 readings are in doubt (doubled 40).");
    expect(
      held("setup.turnedBackSentence", setup.turnedBackSentence)({ yaw: 0, tilt: 1.5, roll: 0 }, null),
    ).toBe("Readings are corrected by tilt 1.5°, as sessions.csv says (no reason given).");
    expect(held("setup.tooFewSharedSentence", setup.tooFewSharedSentence)(0, ["A", "B", "C"])).toMatch(
      /^None of its 3/,
    );
    expect(held("setup.leftOutSentence", setup.leftOutSentence)(["yaw"])).toBe(
      "The log leaves out the tracker's yaw.",
    );
    expect(held("setup.loggedTurnSentence", setup.loggedTurnSentence)("yaw", -2, "redo it")).toMatch(
      /yaw as −2\.0°: redo it\.$/,
    );
    expect(held("setup.calibratedBeforeSentence", setup.calibratedBeforeSentence)("2025-01-01")).toMatch(
      /before the day/,
    );
    for (const text of [
      ...Object.values(held("setup.limitSentences", setup.limitSentences)),
      ...Object.values(held("setup.logSentences", setup.logSentences)),
      held("setup.noPartnerSentence", setup.noPartnerSentence),
      held("setup.eitherOfTwoSentence", setup.eitherOfTwoSentence),
      held("setup.notComparedSentence", setup.notComparedSentence),
    ])
      expect(text).toMatch(/^[A-Z].*\.$/);
  });
});

describe("a placement", () => {
  it("has a verdict, and says what looks like a slip", () => {
    const verdict = held("setup.placementSentence", setup.placementSentence);
    expect((["fine", "tighten it", "redo it"] as const).map((v) => verdict(v).split(":")[0])).toEqual([
      "Fine",
      "Tighten it",
      "Redo it",
    ]);
    const near = held("setup.nearSentence", setup.nearSentence);
    expect(near("2 m", null)).not.toMatch(/feet/);
    expect(near("6.5 ft", { number: "6.5", far: "21.3 ft" })).toMatch(
      /^The tracker stands 6\.5 ft .* Was it measured in metres\? 6\.5 m would be 21\.3 ft; .* feet\.$/,
    );
    expect(held("setup.farSentence", setup.farSentence)("200 ft")).toMatch(/200 ft .* check the unit/);
    const odd = held("setup.oddTurnSentence", setup.oddTurnSentence);
    expect((["turn", "tilt", "lean"] as const).map((name) => odd(name, -40))).toEqual([
      expect.stringMatching(/^A turn of −40°/),
      expect.stringMatching(/^A tilt of/),
      expect.stringMatching(/^A lean of/),
    ]);
    expect(held("setup.tapesSentence", setup.tapesSentence)("a", "b", "c")).toMatch(
      /read to a: ± b .* ± c across/,
    );
    for (const text of Object.values(held("setup.nothingOdd", setup.nothingOdd)))
      expect(text).toMatch(/^No.*\.$/);
  });
});

describe("readings and carries", () => {
  it("of none, one and all", () => {
    const doubtful = held("readings.doubtfulSentence", readings.doubtfulSentence);
    expect(doubtful(0, 0)).toBe("There is no reading of an exit velocity.");
    expect(doubtful(0, 1)).toBe("None of 1 reading is in doubt.");
    expect(doubtful(1, 1)).toMatch(/^1 of 1 reading is in doubt\. It is/);
    expect(held("readings.flaggedSentence", readings.flaggedSentence)(0, false)).toBeNull();
    expect(held("readings.turnedRowsSentence", readings.turnedRowsSentence)(1, 1)).toMatch(
      /^1 of 1 row corrected/,
    );
    const sound = held("readings.soundWords", readings.soundWords);
    expect(sound(3, 0, 3)).toBe("3 sessions sound, not compared");
    expect(sound(2, 1, 1)).toBe("the other 2 sessions sound, 1 of them not compared");
    const rules = held("carry.rulesSentence", carry.rulesSentence);
    expect(rules(360, "us")).toMatch(/near that/);
    expect(rules(359, "us")).toMatch(/carries 359 ft/);
    expect(rules(100, "metric")).toMatch(/ball of 122 m; this one carries 30 m/);
  });
});

describe("the first words of a page", () => {
  const none = { drills: [], count: 0, n: 0 };
  /** What is set apart stands in the sentence. */
  const whole = ({ text, figure }: { text: string; figure: string }): string => {
    expect(text).toContain(figure);
    expect(text).toMatch(/^[^a-z].*\.$/);
    expect(text).not.toMatch(/NaN|undefined|null|Infinity/);
    return text;
  };

  it("are the target's where there is one, and else the contact's", () => {
    const of = held("opening.reportAnswer", opening.reportAnswer);
    const all = { swings: 12, balls: 12 };
    const drill = (count: number, n: number) => ({ drills: ["Coach rounds"], count, n });
    expect(whole(of("Ada K.", drill(0, 12), { count: 12, n: 12 }, all))).toContain("on 0 of 12 swings");
    expect(whole(of("Ada K.", drill(12, 12), { count: 0, n: 12 }, all))).toContain("on 12 of 12 swings");
    expect(whole(of("Ada K.", drill(1, 1), { count: 1, n: 1 }, all))).toContain("on 1 of 1 swing.");
    const long = of("A".repeat(90), { ...drill(5, 9), drills: ["b".repeat(90)] }, none, all);
    expect(whole(long).length).toBeLessThan(120);
    expect(whole(of("Ada K.", none, { count: 1, n: 1 }, all))).toBe("Ada K. hit 1 of 1 ball clean or flush.");
    const bare = (swings: number, balls: number) => whole(of("Ada K.", none, none, { swings, balls }));
    expect(bare(0, 0)).toBe("Ada K. has no swing here yet.");
    expect(whole(of("", none, none, { swings: 0, balls: 0 }))).toBe("There is no swing here yet.");
    expect(bare(8, 0)).toBe("Ada K. put no ball in play in 8 swings.");
    expect(bare(1, 1)).toBe("Ada K. put 1 ball in play in 1 swing.");
  });

  it("say where balls went as far as it is known", () => {
    const of = held("opening.sprayAnswer", opening.sprayAnswer);
    const pulled = { count: 0, n: 1 };
    expect(whole(of("Ada K.", { balls: 1, pulled, farthest_ft: 0.2 }, "us"))).toBe(
      "Ada K. pulled 0 of 1 fair ball; the farthest ball carried 0 ft.",
    );
    expect(whole(of("Ada K.", { balls: 9, pulled: { count: 0, n: 0 }, farthest_ft: 400 }, "metric"))).toBe(
      "Ada K. put 9 balls in play; the farthest ball carried 122 m.",
    );
    expect(whole(of("Ada K.", { balls: 9, pulled: { count: 4, n: 9 }, farthest_ft: null }, "us"))).toBe(
      "Ada K. pulled 4 of 9 fair balls.",
    );
    expect(whole(of("Ada K.", { balls: 0, pulled: { count: 0, n: 0 }, farthest_ft: null }, "us"))).toContain(
      "no ball",
    );
  });

  it("say what the checks found, of none, one, some and all sessions", () => {
    const of = held("opening.trustAnswer", opening.trustAnswer);
    const said = [
      [0, 0],
      [0, 1],
      [1, 1],
      [0, 3],
      [1, 3],
      [2, 3],
      [3, 3],
    ].map(([a, b]) => whole(of(a!, b!)));
    expect(new Set(said).size).toBe(said.length);
    expect(said[4]).toBe("1 of 3 sessions is sound.");
    const last = held("opening.lastAnswer", opening.lastAnswer);
    for (const verdict of ["sound", "look again", "hold back"] as const)
      for (const compared of [true, false]) whole(last({ verdict, compared }));
    expect(whole(last(null))).toContain("no session");
  });
});

describe("a season", () => {
  const line = {
    measure: "well_hit",
    title: "Clean or flush",
    unit: "share",
    input: "live",
    weeks: 0.2,
    change: { value: -0.004, low: -0.1, high: 0.09 },
    verdict: "declining",
    reason: null,
  } as const;

  it("is told by what stands first, by nothing where nothing does, and not too early", () => {
    const of = held("progress.progressAnswer", progress.progressAnswer);
    const span = { weeks: 11.6, fewest: 4 };
    expect(of("Ada K.", [line], 3, span, "us").text).toBe(
      "Ada K., live: clean or flush down 0 points in 1 week.",
    );
    const speed = {
      ...line,
      measure: "better_half_speed",
      unit: "mph",
      change: { value: -3.04, low: -5, high: -1 },
    } as const;
    expect(of("Ada K.", [speed, line], 3, span, "metric").text).toBe(
      "Ada K. hits softer live: down 4.9 km/h in 1 week.",
    );
    expect(of("Ada K.", [], 1, span, "us").text).toBe("No clear change for Ada K. in 12 weeks.");
    expect(of("Ada K.", [], 0, span, "us").text).toMatch(/^It is too early .* 4 dated sessions/);
    const group = held("progress.seasonAnswer", progress.seasonAnswer);
    expect(group(0, [], "us").text).toBe("There is no season here yet.");
    expect(group(3, [], "us").text).toBe("Of 3 hitters none clearly changed.");
    const two = group(
      3,
      [
        { hitter: "Ada K.", line: speed },
        { hitter: "Eve S.", line },
      ],
      "us",
    );
    expect(two.text).toBe(
      "Of 3 hitters 2 clearly changed, first of all Ada K. hits softer live, down 3.0 mph in 1 week.",
    );
    expect(two.text).toContain(two.figure);
    expect(held("progress.workWords", progress.workWords)(null)).toBe("in all work");
    expect(held("progress.weeksWords", progress.weeksWords)(0)).toBe("1 week");
  });

  it("lists what stands and nothing else, and counts what was looked at", () => {
    const of = held("progress.standingSentence", progress.standingSentence);
    expect(of(line, "us")).toMatch(/^Clean or flush, live: 0 points .* in 1 week, worse\.$/);
    expect(of({ ...line, verdict: "higher" }, "us")).toMatch(/in 1 week\.$/);
    expect(of({ ...line, verdict: null }, "us")).toBeNull();
    const note = held("progress.seasonNote", progress.seasonNote);
    expect(note(0, 0)).toBeNull();
    expect(note(1, 1)).toMatch(/^1 of 1 line stands out/);
    expect(note(21, 2)).toMatch(/^2 of 21 lines stand out/);
    expect(note(21, 0)).toMatch(/none is put into a sentence/);
    const second = held("progress.secondOpinion", progress.secondOpinion);
    const none = { value: null, low: null, high: null };
    expect(second(none, line.change, "mph", "us")).toBeNull();
    expect(second({ value: -3, low: -4, high: -2 }, { value: -3, low: -5, high: -1 }, "mph", "us")).toMatch(
      /says the same/,
    );
    expect(second({ value: -3, low: -4, high: -2 }, { value: 3, low: 1, high: 5 }, "mph", "us")).toMatch(
      /less sure/,
    );
    expect(second({ value: 3, low: 2, high: 4 }, { value: 3, low: null, high: null }, "mph", "us")).toMatch(
      /less sure/,
    );
    const panel = held("progress.panelSaid", progress.panelSaid);
    const apart = { ...line, marked: false, stands: false };
    expect(panel({ ...apart, change: none }, "us")).toBe("no trend");
    expect(panel(apart, "us")).toMatch(/^no clear change, 0 points/);
    expect(panel({ ...apart, marked: true }, "us")).toMatch(
      /^0 points .*, no clear change among all the lines$/,
    );
    expect(panel({ ...apart, marked: true, stands: true }, "us")).toMatch(/^0 points .* in 1 week$/);
    const outside = held("progress.outsideSentence", progress.outsideSentence);
    expect(outside(0, [])).toBeNull();
    expect(outside(1, ["a", "b", "c", "d", "e"])).toBe(
      "1 reading in doubt is left out. Without a date, and so in no line: “a”, “b” and “c” and 2 more.",
    );
  });

  it("plans for one session, for none that would do, and for none that is there", () => {
    const of = held("progress.planSentence", progress.planSentence);
    const plan = {
      input: null,
      title: "Ceiling",
      unit: "mph",
      change: 2,
      swings: 1,
      eachSide: 1,
      there: 0,
      more: null,
    } as const;
    expect(of(plan, "us")).toBe(
      "To see a change of 2.0 mph in all work, with 80% chance: 1 session of 1 swing on each side.",
    );
    expect(of({ ...plan, there: 1 }, "us")).toMatch(/the 1 session there is too few/);
    expect(of({ ...plan, eachSide: null }, "metric")).toMatch(
      /^A change of 3\.2 km\/h in all work can't be seen/,
    );
  });
});

describe("work within a session, and a fair trial", () => {
  it("tells what stands and nothing else, which way, along what", () => {
    const of = held("season.withinSentence", season.withinSentence);
    const line = {
      input: "flip",
      measure: "power_kept",
      unit: "share",
      by: "rest",
      sessions: 4,
      n: 40,
      most: 0,
      value: 0.02,
      low: 0.01,
      high: 0.03,
      stands: true,
      reason: null,
    } as const;
    expect(of("Ada K.", line, "us")).toBe(
      "Ada K., off flips: power kept rises within a session, +2 points (1 to 3) for each doubling of the rest before a swing; 4 sessions of up to 1 swing, n 40.",
    );
    expect(of("Ada K.", { ...line, stands: false }, "us")).toBeNull();
    expect(of("Ada K.", { ...line, value: null }, "us")).toBeNull();
    const title = held("season.withinTitle", season.withinTitle);
    expect(title([{ ...line, by: "rest" }])).toMatch(/^Nothing stands out/);
    expect(title([{ ...line, by: "swings" }])).toBe("Power kept rises within a session");
    expect(title([{ ...line, by: "swings", stands: false }])).toMatch(/^Nothing stands out/);
    const along = held("season.alongSaid", season.alongSaid);
    expect(along({ ...line, value: null, reason: "too few" }, "us")).toBe("too few");
    expect(along({ ...line, stands: false }, "us")).toMatch(/^\+2 points .*, not clear$/);
    expect(held("season.steadySentence", season.steadySentence)("Ada K.")).toMatch(/^Ada K\.: nothing/);
    expect(held("season.fatigueCaution", season.fatigueCaution)).toMatch(/Nothing here is a diagnosis\.$/);
  });

  it("says that a drill shows live only where it clearly does", () => {
    const shows = held("season.showsSentence", season.showsSentence);
    const side = { sessions: 2, n: 40 };
    const told = { value: 3, low: 1, high: 5, before: side, after: side, shows: true };
    expect(shows("Low tee", told, "metric")).toMatch(
      /^Low tee shows live: .* gained \+4\.8 km\/h \(1\.6 to 8\.0\) on those elsewhere; 2 live sessions before half of it and 2 after,/,
    );
    expect(shows("Low tee", { ...told, shows: false }, "us")).toBeNull();
    expect(shows("Low tee", { ...told, value: null }, "us")).toBeNull();
    expect(held("season.liveContrastNote", season.liveContrastNote)).toMatch(/less that in the other cells/);
    expect(held("season.noWorkShows", season.noWorkShows)).toMatch(/^No drill’s work shows/);
  });

  it("calls a difference only where it is clear, and says what an early end costs", () => {
    const of = held("trial.trialSentence", trial.trialSentence);
    const told = {
      trial: "Two bats",
      arms: ["long", "short"],
      measure: "well_hit",
      blocks: [1, 2],
      planned: 2,
      sessions: 1,
      hitters: 3,
      difference: { value: 0.1, low: 0.05, high: 0.15 },
      p: 0.01,
      exact: true,
      ended: true,
      clear: true,
      wider: 1,
    } as const;
    expect(of(told, "us")).toBe(
      "Two bats: clean or flush is higher with “short” than with “long”, +10 points (5 to 15); 2 blocks in 1 session, 3 hitters, p 0.010 by the coins that gave the order.",
    );
    expect(of({ ...told, clear: false, p: 0.0001 }, "us")).toMatch(
      /^Two bats: no clear difference .* p under 0\.001/,
    );
    expect(of({ ...told, exact: false, p: 0.4 }, "us")).toMatch(/p about 0\.400/);
    expect(held("trial.noBlockSentence", trial.noBlockSentence)("x")).toMatch(/complete yet\.$/);
    const early = held("trial.earlySentence", trial.earlySentence);
    expect(early(told)).toBeNull();
    expect(early({ ...told, ended: false, blocks: [], wider: Infinity })).toMatch(
      /^0 of 2 blocks are done\. As looking/,
    );
    const rounds = held("trial.roundsSentence", trial.roundsSentence);
    expect(rounds(null, 1, "1 mph")).toMatch(/more than 400 rounds of 1 swing:/);
    expect(rounds(6, 6, "1 mph")).toMatch(/6 rounds of 6 swings, 3 of each\.$/);
  });

  it("says of a trial's plan what it takes, what is wrong with it, and how far it is", () => {
    const shared = held("trial.sharedSentence", trial.sharedSentence);
    expect(shared(26, 26, 1)).toBeNull();
    expect(shared(26, 14, 2)).toBe("Over 2 hitters: 14 rounds each, 28 in all.");
    const trouble = held("trial.trialTroubleSentence", trial.trialTroubleSentence);
    expect(trouble("two ways")).toMatch(/^Name two ways that differ:/);
    expect(trouble("rounds")).toMatch(/even number/);
    expect(held("trial.spreadUnknown", trial.spreadUnknown)).toMatch(/write them in/);
    expect(held("trial.noTrialSentence", trial.noTrialSentence)).toMatch(/yet\.$/);
    expect(held("trial.trialRules", trial.trialRules)).toMatch(/after a whole block\..* letter by letter\.$/);
    const round = { round: 2, arm: "wood", n: 0, state: "open" } as const;
    const state = held("trial.roundStateWords", trial.roundStateWords);
    expect(state(round, 6)).toBe("");
    expect(state({ ...round, n: 1, state: "short" }, 6)).toBe("done, 1 of 6 swings");
    expect(state({ ...round, n: 1, state: "done" }, 1)).toBe("done, 1 swing");
    const next = held("trial.nextRoundWords", trial.nextRoundWords);
    expect(next(round, 6)).toBe("Next: round 2, wood");
    expect(next({ ...round, n: 5, state: "begun" }, 6)).toBe("Next: round 2, wood (begun, 5 of 6 swings)");
    expect(held("trial.wayWords", trial.wayWords)({ done: 0, of: 2 })).toBe("0 of 2 rounds done");
    const here = held("trial.roundHere", trial.roundHere);
    expect(here({ round: 2, of: 4, arm: "wood" }, 1, null)).toBe("Round 2 of 4, wood: 1 swing kept.");
    const split = held("trial.splitRoundsSentence", trial.splitRoundsSentence);
    expect(split([])).toBeNull();
    expect(split([1, 2, 3, 4, 5, 6].map((n) => ({ hitter: "A", round: n })))).toMatch(
      /round 4 \(A\) and 2 more\.$/,
    );
  });
});

describe("what an interval of one kind of work leaves out", () => {
  /** How often the intervals of a figure cover the truth of made-up hitters, over all settings. */
  const covered = (line: string, what: string): number => {
    const { found } = claims.lines.find(({ name }) => name === line)!;
    const { count, n } = found.find((one) => one.what === what)!;
    const sum = (list: readonly number[]): number => list.reduce((a, b) => a + b, 0);
    expect(sum(n)).toBeGreaterThan(200);
    return sum(count) / sum(n);
  };

  it("is said of what simulated hitters show it of", () => {
    expect(covered("report-figures", "live view: power kept holds")).toBeLessThan(0.92);
    expect(held("gap.ceilingGivenSentence", gap.ceilingGivenSentence)).toMatch(
      /^Power kept and contact buckets .* take it as it stands and are somewhat narrow/,
    );
    expect(covered("report-figures", "spread of launch angle holds")).toBeLessThan(0.92);
    expect(held("gap.spreadTailsSentence", gap.spreadTailsSentence)).toMatch(
      /less often than 95 times in 100/,
    );
  });
});

describe("the last ball and its round", () => {
  const lines = held("round.ballLines", round.ballLines);
  const aloud = held("round.spokenBall", round.spokenBall);
  const fly = swing({
    exit_velocity_mph: 91.6,
    launch_angle_deg: 18.2,
    category: "line drive",
    lane: "right-center",
    bucket: "flush",
    carry_ft: 309.7,
    carry_low_ft: 296.2,
    carry_high_ft: 323.5,
  });

  it("are whole, and say no more than is known", () => {
    expect(lines(fly, "us")).toEqual({
      figure: { value: "92", unit: "mph" },
      where: "18° up, line drive to right-center.",
      how: "310 ft, 296 to 324. Flush.",
    });
    expect(lines(fly, "metric")).toMatchObject({
      figure: { value: "147", unit: "km/h" },
      how: "94 m, 90 to 99. Flush.",
    });
    expect(aloud(fly, "us")).toBe("ninety-two, eighteen degrees, line drive, three ten");
    const bare = swing({ outcome: "miss", exit_velocity_mph: null, launch_angle_deg: null });
    expect(lines(bare, "us")).toEqual({ figure: null, where: "A miss.", how: "" });
    expect(aloud(bare, "us")).toBe("a miss");
    const low = swing({
      launch_angle_deg: -1.2,
      category: "ground ball",
      lane: "left line",
      carry_ft: 20,
      bucket: "mishit",
    });
    expect(lines(low, "us")).toMatchObject({
      where: "1° down, ground ball down the left line.",
      how: "20 ft. Mishit.",
    });
    expect(aloud(low, "us")).toBe("eighty, minus one degree, ground ball");
    expect(lines(swing({ outcome: "foul", launch_angle_deg: 0.2 }), "us").where).toBe("Level, a foul ball.");
  });

  it("call out numbers as people do", () => {
    const call = held("round.calledOut", round.calledOut);
    const said = [0, 7, 13, 20, 45, 100, 101, 110, 119, 300, 305, 310, 321, 999, 1000].map(call);
    expect(said).toEqual(
      "zero,seven,thirteen,twenty,forty-five,one hundred,one oh one,one ten,one nineteen,three hundred,three oh five,three ten,three twenty-one,nine ninety-nine,1000".split(
        ",",
      ),
    );
  });

  it("count a round's met, and those in a row from two on", () => {
    const tally = held("round.roundSentence", round.roundSentence);
    expect(tally({ met: 12, judged: 12, inARow: 12, by: "target" })).toBe("of 12 in the window, 12 in a row");
    expect(tally({ met: 1, judged: 5, inARow: 1, by: "contact" })).toBe("of 5 clean or flush");
    expect(tally({ met: 0, judged: 0, inARow: 0, by: "target" })).toBe("no swing could be judged");
  });
});

describe("what stands above a chart", () => {
  it("counts the one with the most, and names none at a tie, with nothing, or for one ball", () => {
    const spray = held("titles.sprayTitle", titles.sprayTitle);
    const lane = (name: "center" | "left line" | "foul", count: number, n: number) => ({
      lane: name,
      count,
      n,
    });
    expect(spray([lane("center", 5, 9), lane("left line", 1, 9), lane("foul", 3, 9)])).toBe(
      "Most to center: 5 of 9 balls",
    );
    for (const none of [
      [],
      [lane("center", 2, 4), lane("left line", 2, 4)],
      [lane("center", 0, 3), lane("foul", 3, 3)],
      [lane("center", 1, 1)],
      // Foul is no lane that a hitter is said to go to.
      [lane("center", 1, 9), lane("foul", 8, 9)],
    ])
      expect(spray(none)).toBe("Where the balls came down");
    const contact = held("titles.contactTitle", titles.contactTitle);
    const of = (...names: ("bloop" | "pop-up" | null)[]) => names.map((category) => ({ category }));
    expect(contact(of("bloop", "bloop", "pop-up", null))).toBe("Most were bloops: 2 of 4");
    for (const none of [of(), of("bloop"), of("bloop", "pop-up"), of(null, null)])
      expect(contact(none)).toBe("How hard, how high");
    const strip = held("titles.stripTitle", titles.stripTitle);
    expect(strip({ count: 0, n: 3 })).toBe("Swing by swing: 0 of 3 clean or flush");
    expect(strip({ count: 0, n: 0 })).toBe("Swing by swing");
    const why = held("titles.unratedReason", titles.unratedReason);
    expect(
      new Set([[], [{ flags: "no_ceiling" }], [{ flags: "no_pitch_speed" }], [{ flags: null }]].map(why))
        .size,
    ).toBe(4);
    const aimed = held("titles.targetTitle", titles.targetTitle);
    expect(aimed({ drill: "High tee", count: 0, n: 1 })).toBe("High tee: 0 of 1 in the window");
  });
});

afterAll(() => {
  // One ball's sentences have a file of their own: tests/views/ball.test.ts.
  const all = Object.entries(sentences).flatMap(([room, own]) =>
    room === "ball" ? [] : Object.keys(own).map((name) => `${room}.${name}`),
  );
  expect(all.length).toBeGreaterThan(25);
  expect(all.filter((name) => !known.has(name))).toEqual([]);
});
