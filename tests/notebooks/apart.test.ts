/** Work beside the page: what travels is the same library and the same answer, and a newer question ends an older one. */
import { readdirSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { JSDOM } from "jsdom";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { received, sending } from "../../notebooks/components/apartRows.ts";
import type { Asked, Told, Work } from "../../notebooks/components/apart.ts";
import { pageLibrary, type LibraryFile, type PageLibrary } from "../../notebooks/components/library.ts";
import { asksOf, comparisonsOf, type Ask } from "../../notebooks/components/comparison.ts";
import { every } from "../../notebooks/components/pick.ts";
import type { Scope } from "../../notebooks/components/scope.ts";
import * as liveRounds from "../../notebooks/components/works/liveRounds.ts";
import * as comparisons from "../../notebooks/components/works/comparisons.ts";
import * as drillReport from "../../notebooks/components/works/drillReport.ts";
import * as field from "../../notebooks/components/works/field.ts";
import * as group from "../../notebooks/components/works/group.ts";
import * as season from "../../notebooks/components/works/season.ts";
import * as setup from "../../notebooks/components/works/setup.ts";
import { allSteps } from "../../src/swing/lists.ts";
import { noFilter } from "../../src/views/filter.ts";
import { LibrarySource } from "../../notebooks/plugins/library-file.ts";

async function opened(name: string): Promise<PageLibrary> {
  const source = new LibrarySource(fileURLToPath(new URL(`../../data/${name}`, import.meta.url)));
  return pageLibrary(JSON.parse(await source.text()) as LibraryFile);
}

const sentOver = (library: PageLibrary): PageLibrary => received(structuredClone(allSteps(sending(library))));

const of = (swings: object[]): PageLibrary =>
  ({ ...pageLibrary({ trouble: "" }), trouble: null, swings }) as PageLibrary;

describe("a library that travels", () => {
  it.each(["demo", "season"])("is the same on the other side: %s", async (name) => {
    const library = await opened(name);
    expect(library.swings.length).toBeGreaterThan(3000);
    expect(sentOver(library)).toEqual(library);
  });

  it("keeps what is neither all numbers nor all words", () => {
    const rows = sentOver(
      of([
        { note: "a", carry_ft: 0 },
        { note: 3, carry_ft: null },
      ]),
    ).swings;
    expect(rows.map(({ note, carry_ft, time }) => [note, carry_ft, time])).toEqual([
      ["a", 0, null],
      [3, null, null],
    ]);
  });
});

function answerOf(
  work: Work<readonly unknown[], unknown>,
  library: PageLibrary,
  args: readonly unknown[],
): unknown {
  return "run" in work ? work.run(library, ...args) : allSteps(work.steps(library, ...args));
}

const works = { ...drillReport, ...field, ...group, ...liveRounds, ...season, ...setup };
const some: group.GroupAsked = {
  scope: { since: "2025-09-01", until: "2025-09-28" },
  needSpan: { since: null, until: null },
  withoutFlagged: false,
};

/** A question of each work, as a page asks it of the season's library. */
const questions: Record<keyof typeof works, readonly unknown[]> = {
  livePitches: [noFilter, { chart: "contact", x: { low: 60, high: null }, y: { low: null, high: 30 } }],
  flownOn: [
    { ...noFilter, hitter: "hitter" },
    { field: "46/60", air: { temperature_f: 45 } },
  ],
  flownAhead: [noFilter, {}],
  groupSpan: [some],
  groupNeeds: [{ ...some, withoutFlagged: true }],
  groupSeasons: [{}],
  plans: ["hitter", {}],
  trialSpreads: [[], {}],
  withinSessions: ["hitter", {}],
  drillsShown: ["hitter", {}],
  trials: [],
  pairsMet: [{}],
  hitterTables: ["hitter", {}],
  pitcherTables: ["pitcher", {}],
  sessionsCompared: [],
};

describe("the works of the thread beside the page", () => {
  it("are all asked here, and have names of their own", () => {
    const files = readdirSync(new URL("../../notebooks/components/works/", import.meta.url));
    expect(files.toSorted()).toEqual([
      "comparisons.ts",
      "drillReport.ts",
      "field.ts",
      "group.ts",
      "liveRounds.ts",
      "season.ts",
      "setup.ts",
    ]);
    const names = Object.values({ ...works, ...comparisons }).map(({ name }) => name);
    expect(new Set(names).size).toBe(names.length);
  });

  it.each(Object.keys(questions) as (keyof typeof works)[])(
    "give an answer that survives its journey, and isn’t empty: %s",
    { timeout: 60_000 },
    async (key) => {
      const library = await opened("season");
      const [first] = library.swings;
      const { pitcher } = library.swings.find((swing) => swing.pitcher !== null)!;
      const names: Record<string, unknown> = { hitter: first!.hitter, pitcher };
      const args = questions[key].map((arg) => (typeof arg === "string" ? names[arg] : arg));
      const work = works[key] as unknown as Work<readonly unknown[], unknown>;
      const answer = answerOf(work, library, args);
      expect(JSON.stringify(answer).length).toBeGreaterThan(2);
      expect(structuredClone(answer)).toStrictEqual(answer);
    },
  );
});

describe("a comparison made beside the page", () => {
  const scope: Scope = { from: "tee", to: "live", since: "2000-01-01" };

  it("is what the page would have made itself, kept under what was asked", { timeout: 120_000 }, async () => {
    const library = await opened("season");
    const { hitter } = library.swings[0]!;
    const asks: Ask[] = [
      ["parts", hitter, scope],
      ["table", hitter, scope],
      ...asksOf.measures(hitter, scope),
      ["across", "exit_velocity", scope],
      ["stabilizing", "live", scope],
      ["timing", hitter, "flip", scope],
      asksOf.cells(hitter, "tee", scope),
      asksOf.cells(hitter, "live", scope),
      ["flip", hitter, scope],
      ["live", hitter, scope],
      ["live", every, scope],
    ];
    const answers = structuredClone(
      answerOf(comparisons.compared as Work<readonly unknown[], unknown>, sentOver(library), [false, asks]),
    ) as unknown[];
    expect(answers.length).toBe(asks.length);
    const [mine, theirs] = [comparisonsOf(library)(false), comparisonsOf(library)(false)];
    asks.forEach((ask, i) => {
      expect(theirs.has(ask)).toBe(false);
      theirs.put(ask, answers[i]);
      expect(theirs.has(ask)).toBe(true);
    });
    const figures = (compare: typeof mine) => [
      compare.parts(hitter, scope),
      compare.table(hitter, scope),
      compare.measures(hitter, scope),
      compare.across("exit_velocity", scope),
      compare.stabilizing("live", scope),
      compare.timing(hitter, "flip", scope),
      compare.cells(hitter, "tee", scope),
      compare.cells(hitter, "live", scope),
      compare.flip(hitter, scope),
      compare.live(hitter, scope),
      compare.live(every, scope),
    ];
    expect(JSON.stringify(figures(theirs))).toBe(JSON.stringify(figures(mine)));
    // Where the pair makes no difference, another pair has the same answer.
    expect(theirs.has(["tee", hitter, { ...scope, to: "flip" }])).toBe(true);
    expect(theirs.has(["parts", hitter, { ...scope, to: "flip" }])).toBe(false);
  });
});

/** A thread that answers when it is told to. */
class Thread extends EventTarget {
  static all: Thread[] = [];
  readonly heard: Asked[] = [];
  ended = false;
  constructor() {
    super();
    Thread.all.push(this);
  }
  postMessage(word: Asked): void {
    this.heard.push(word);
  }
  terminate(): void {
    this.ended = true;
  }
  /** Answers the latest work. */
  answer(answer: unknown): void {
    this.tell({ kind: "done", n: this.#n(), answer });
  }
  fail(message: string): void {
    this.tell({ kind: "failed", n: this.#n(), message });
  }
  #n(): number {
    return this.heard.flatMap((word) => (word.kind === "work" ? [word.n] : [])).at(-1)!;
  }
  tell(word: Told): void {
    this.dispatchEvent(Object.assign(new Event("message"), { data: word }));
  }
  get works(): unknown[] {
    return this.heard.flatMap((word) => (word.kind === "work" ? [[word.name, ...word.args]] : []));
  }
}

describe("a question to the thread beside the page", () => {
  const add: Work<[number], number> = { name: "add", what: "a sum", run: (_, n) => n + 1 };
  const other: Work<[number], number> = { ...add, name: "other" };
  const many = of(Array.from({ length: 5000 }, () => ({ hitter: "A" })));
  let apart: (typeof import("../../notebooks/components/apart.ts"))["apart"];
  const shown: HTMLElement[] = [];
  const display = (element: HTMLElement): void => void shown.push(element);

  beforeEach(async () => {
    vi.resetModules();
    shown.length = 0;
    Thread.all.length = 0;
    vi.stubGlobal("Worker", Thread);
    vi.stubGlobal("document", new JSDOM("<p>", { url: "http://127.0.0.1/" }).window.document);
    ({ apart } = await import("../../notebooks/components/apart.ts"));
  });
  afterEach(() => vi.unstubAllGlobals());

  const asked = (works: unknown[]): Promise<void> =>
    vi.waitFor(() => expect(Thread.all.at(-1)?.works).toEqual(works));

  it("is answered in the page where the library is small", async () => {
    expect(await apart(display, add, of([{ hitter: "A" }]), 1)).toBe(2);
    expect(Thread.all).toEqual([]);
  });

  it("is asked once, of a thread that has the library first, and says meanwhile what it is about", async () => {
    const first = apart(display, add, many, 1);
    const second = apart(display, add, many, 1);
    await asked([["add", 1]]);
    expect(Thread.all[0]!.heard[0]!.kind).toBe("library");
    await vi.waitFor(() => expect(shown.map((line) => line.textContent)).toContain("Working out a sum…"));
    Thread.all[0]!.answer(7);
    expect(await Promise.all([first, second])).toEqual([7, 7]);
    expect(await apart(display, add, many, 1)).toBe(7);
    expect(Thread.all[0]!.works).toEqual([["add", 1]]);
    expect(shown.every((line) => line.parentNode === null)).toBe(true);
  });

  it("ends an older one of its kind that is being worked on, and leaves other kinds", async () => {
    void apart(display, add, many, 1);
    await asked([["add", 1]]);
    const others = apart(display, other, many, 5);
    const newer = apart(display, add, many, 2);
    await asked([["other", 5]]);
    const [before, after] = Thread.all as [Thread, Thread];
    expect([before.ended, after.ended]).toEqual([true, false]);
    // What the ended thread may still have sent is for nobody.
    before.answer(-1);
    after.answer(6);
    expect(await others).toBe(6);
    await asked([
      ["other", 5],
      ["add", 2],
    ]);
    after.answer(3);
    expect(await newer).toBe(3);
    // The one that was ended is asked for again when it is wanted again.
    const again = apart(display, add, many, 1);
    await asked([
      ["other", 5],
      ["add", 2],
      ["add", 1],
    ]);
    after.answer(2);
    expect(await again).toBe(2);
  });

  it("drops what waits of its kind, and everything of an older library", async () => {
    void apart(display, other, many, 1);
    await asked([["other", 1]]);
    void apart(display, add, many, 1);
    void apart(display, add, many, 2);
    Thread.all[0]!.answer(0);
    await asked([
      ["other", 1],
      ["add", 2],
    ]);
    const grown = { ...many };
    const newer = apart(display, other, grown, 1);
    await asked([["other", 1]]);
    expect(Thread.all.map(({ ended }) => ended)).toEqual([true, false]);
    Thread.all[1]!.answer(9);
    expect(await newer).toBe(9);
  });

  it("passes on why it can't be answered, and can be asked again", async () => {
    const failing = apart(display, add, many, 1);
    await asked([["add", 1]]);
    Thread.all[0]!.fail("the file thresholds.json can't be used");
    await expect(failing).rejects.toThrow("the file thresholds.json can't be used");
    const again = apart(display, add, many, 1);
    await asked([
      ["add", 1],
      ["add", 1],
    ]);
    Thread.all[0]!.answer(2);
    expect(await again).toBe(2);
  });

  it("is dropped by a word where its work is done step by step, and what comes of it is for nobody", async () => {
    const stepwise: Work<[number], number> = {
      name: "stepwise",
      what: "steps",
      *steps(_, n) {
        yield;
        return n + 1;
      },
    };
    void apart(display, stepwise, many, 1);
    await asked([["stepwise", 1]]);
    const [thread] = Thread.all as [Thread];
    const newer = apart(display, stepwise, many, 2);
    await asked([
      ["stepwise", 1],
      ["stepwise", 2],
    ]);
    const numbers = thread.heard.flatMap((word) => ("n" in word ? [[word.kind, word.n]] : []));
    expect(numbers).toEqual([
      ["work", 1],
      ["drop", 1],
      ["work", 2],
    ]);
    thread.tell({ kind: "done", n: 1, answer: -1 });
    thread.answer(3);
    expect(await newer).toBe(3);
    expect(Thread.all.length).toBe(1);
  });

  it("of two slots is two questions, though the work is one", async () => {
    const first = apart(display, { ...add, slot: "first" }, many, 1);
    const second = apart(display, { ...add, slot: "second" }, many, 2);
    await asked([["add", 1]]);
    Thread.all[0]!.answer(2);
    await asked([
      ["add", 1],
      ["add", 2],
    ]);
    Thread.all[0]!.answer(3);
    expect(await Promise.all([first, second])).toEqual([2, 3]);
  });

  it("waits until nothing else is wanted where it is idle, and makes room", async () => {
    const idle: Work<[number], number> = { name: "idle", what: "later", isIdle: true, *steps() {} } as never;
    const ahead = apart(display, idle, many, 1);
    await asked([["idle", 1]]);
    const wanted = apart(display, add, many, 1);
    await asked([
      ["idle", 1],
      ["add", 1],
    ]);
    const [thread] = Thread.all as [Thread];
    const also = apart(display, other, many, 2);
    thread.answer(2);
    expect(await wanted).toBe(2);
    await asked([
      ["idle", 1],
      ["add", 1],
      ["other", 2],
    ]);
    thread.answer(3);
    expect(await also).toBe(3);
    await asked([
      ["idle", 1],
      ["add", 1],
      ["other", 2],
      ["idle", 1],
    ]);
    const numbers = thread.heard.flatMap((word) => (word.kind === "work" ? [word.n] : []));
    expect(new Set(numbers).size).toBe(4);
    thread.answer(9);
    expect(await ahead).toBe(9);
    expect(Thread.all.length).toBe(1);
  });

  it("is done in the page in slices, a newer one ending an older one", async () => {
    let steps = 0;
    const slow: Work<[string], string> = {
      name: "slow",
      what: "steps",
      *steps(_, name) {
        for (; name === "endless" || steps < 5; steps++) {
          const until = performance.now() + 5;
          while (performance.now() < until);
          yield;
        }
        return name;
      },
    };
    const few = of([{ hitter: "A" }]);
    let isAnswered = false;
    void apart(display, slow, few, "endless").then(() => (isAnswered = true));
    await vi.waitFor(() => expect(steps).toBeGreaterThan(3));
    expect(await apart(display, slow, few, "short")).toBe("short");
    const before = steps;
    await new Promise((done) => setTimeout(done, 30));
    expect([steps, isAnswered]).toEqual([before, false]);
  });

  it("is answered in the page where the browser allows no thread", async () => {
    const one = apart(display, add, many, 1);
    const two = apart(display, other, many, 4);
    await asked([["add", 1]]);
    Thread.all[0]!.dispatchEvent(new Event("error"));
    expect(await Promise.all([one, two])).toEqual([2, 5]);
    expect(await apart(display, add, many, 8)).toBe(9);
    expect(Thread.all.length).toBe(1);
  });
});
