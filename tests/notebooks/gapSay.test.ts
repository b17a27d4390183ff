/** What the tee-versus-live page says first, on the demo: beyond the pitches' part leads, and nothing contradicts it. */
import { JSDOM } from "jsdom";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { acrossHitters, beyondPitch } from "../../src/gap/across.ts";
import { gap } from "../../src/gap/gap.ts";
import type { Ready } from "../../src/gap/rows.ts";
import { answered, groupAnswered } from "../../notebooks/components/gapSay.ts";
import { demo } from "../gap/support.ts";

let ready: Ready;
const before = Object.getOwnPropertyDescriptor(globalThis, "document");
beforeAll(async () => {
  Object.assign(globalThis, { document: new JSDOM("").window.document });
  ({ ready } = await demo());
}, 60_000);
afterAll(() => {
  if (before === undefined) Reflect.deleteProperty(globalThis, "document");
  else Object.defineProperty(globalThis, "document", before);
});

const said = (element: HTMLElement): string[] =>
  [...element.querySelectorAll("p")].map((p) => p.textContent ?? "");
const scope = { from: "tee", to: "live" } as const;

describe("the answer", () => {
  it("leads with what is beyond the pitches' part, for a hitter and for the group", () => {
    for (const hitter of ready.hitters.slice(0, 3)) {
      const found = gap(ready, hitter, { measures: ["exit_velocity"] });
      const [headline, ...rest] = said(answered(found, found.measures[0]!, scope));
      expect(headline).toMatch(/: beyond the pitches' speed, /);
      expect(rest.length).toBeGreaterThan(0);
      // "no clear difference" never stands with "lower by" in one answer.
      const all = [headline, ...rest].join(" ");
      expect(/no clear difference/.test(all) && /(lower|higher) by/.test(all), all).toBe(false);
    }
    const [headline, second] = said(
      groupAnswered(acrossHitters(ready, "exit_velocity"), acrossHitters(ready, beyondPitch)),
    );
    expect(headline).toMatch(/^In the mean of 8 hitters, .*beyond the pitch's part/);
    expect(second).toMatch(/^In the mean of 8 hitters, .*mean exit velocity/);
  }, 120_000);

  it("of another measure is that measure's", () => {
    const found = gap(ready, ready.hitters[0]!, { measures: ["misses"] });
    expect(said(answered(found, found.measures[0]!, scope))[0]).toMatch(/: misses of swings: /);
  }, 60_000);
});
