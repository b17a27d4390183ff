/** What the tee-versus-live page compares: with every swing, and with the flagged ones left out. */
import { describe, expect, it } from "vitest";
import { comparisonsOf, inScope, type Comparisons } from "../../notebooks/components/comparison.ts";
import type { Scope } from "../../notebooks/components/scope.ts";
import { pageLibrary, type LibraryFile, type PageLibrary } from "../../notebooks/components/library.ts";
import { pick } from "../../notebooks/components/pick.ts";
import { LibrarySource } from "../../notebooks/plugins/library-file.ts";
import { isDoubtful } from "../../src/contact/flags.ts";
import { acrossHitters, beyondPitch } from "../../src/gap/across.ts";
import { makeReady } from "../../src/gap/rows.ts";
import { root } from "../house/files.ts";
import { join } from "node:path";

const file = JSON.parse(await new LibrarySource(join(root, "data/demo")).text()) as LibraryFile;
const demo = pageLibrary(file);
const scope: Scope = { from: "tee", to: "live" };

/** Everything the page shows of one hitter. */
const shown = (compare: Comparisons, hitter: string) => ({
  parts: compare.parts(hitter, scope),
  measures: compare.measures(hitter, scope),
  table: compare.table(hitter, scope),
  across: [compare.across("carry", scope), compare.across(beyondPitch, scope)],
  stabilizing: (["tee", "flip", "live"] as const).map((input) => compare.stabilizing(input, scope)),
  timing: (["flip", "live"] as const).map((input) => compare.timing(hitter, input, scope)),
  views: [compare.tee(hitter, scope), compare.flip(hitter, scope), compare.live(hitter, scope)],
  cells: (["tee", "flip", "live"] as const).map((input) => compare.cells(hitter, input, scope)),
  balls: (["tee", "flip", "live"] as const).map((input) => compare.balls(hitter, input, scope)),
});

describe("leaving out flagged swings", () => {
  const flagged = demo.swings.filter(isDoubtful);
  const hitter = flagged[0]!.hitter;

  it("gives every output what a library without them gives, and only when asked", () => {
    const without: PageLibrary = { ...demo, swings: demo.swings.filter((row) => !isDoubtful(row)) };
    expect(flagged.length).toBeGreaterThan(0);
    const compared = comparisonsOf(demo);
    const sure = shown(compared(true), hitter);
    expect(sure).toEqual(shown(comparisonsOf(without)(false), hitter));
    const all = shown(compared(false), hitter);
    expect(all.parts.swings.from + all.parts.swings.to).toBeGreaterThan(
      sure.parts.swings.from + sure.parts.swings.to,
    );
  });

  it("computes nothing twice where there is nothing to leave out", () => {
    const without: PageLibrary = { ...demo, swings: demo.swings.filter((row) => !isDoubtful(row)) };
    const compared = comparisonsOf(without);
    expect(compared(true)).toBe(compared(false));
  });
});

describe("what is in scope", () => {
  it("is all of a hitter's work, or what a drill narrows it to", () => {
    const hitter = demo.hitters[0]!.hitter;
    expect(inScope(demo, hitter, {})).toEqual(pick(demo, { hitter }));
    const drill = pick(demo, { hitter, input: "tee" }).find((row) => row.drill !== null)!.drill!;
    const rows = inScope(demo, hitter, { drill });
    expect(rows.filter(({ input }) => input === "tee").every((row) => row.drill === drill)).toBe(true);
    expect(rows.filter(({ input }) => input === "live")).toEqual(pick(demo, { hitter, input: "live" }));
    const { swings } = comparisonsOf(demo)(false).parts(hitter, { ...scope, drill });
    expect(swings).toEqual({
      from: rows.filter(({ input }) => input === "tee").length,
      to: rows.filter(({ input }) => input === "live").length,
    });
  });
});

describe("a list of hitters", () => {
  it("is the same from figures kept for the page as from figures computed anew", () => {
    const compare = comparisonsOf(demo)(false);
    const hitter = compare.hitters[1]!;
    compare.parts(hitter, scope);
    for (const measure of ["power_kept", beyondPitch])
      expect(compare.across(measure, scope)).toEqual(
        acrossHitters(makeReady(demo), measure, { from: "tee", to: "live" }),
      );
  });
});
