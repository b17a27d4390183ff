/** The rules of thumb in print, as the pages show them, against a ball of the carry they are about. */
import { describe, expect, it } from "vitest";
import { oneBall } from "../../src/contact/oneBall.ts";
import { ft } from "../../src/units/index.ts";
import { carryChanges, carryChangesOf, ruleCarry_ft } from "../../src/views/rules.ts";
import { ball as swing } from "../contact/swings.ts";

/** A ball at 30° with the rule's carry. */
function ruleBall() {
  let [low, high] = [80, 120];
  for (let i = 0; i < 40; i++) {
    const middle = (low + high) / 2;
    const { ball } = oneBall(swing(middle, 30, { spray_angle_deg: 0, bats: "R" }), 1);
    if (ball!.flight.carry / ft < ruleCarry_ft) low = middle;
    else high = middle;
  }
  return oneBall(swing(low, 30, { spray_angle_deg: 0, bats: "R" }), 1).ball!;
}

describe("a ball of 400 ft changes by what the rules say, or nearly", () => {
  const rows = carryChangesOf(ruleBall());

  it("for every rule there is", () => {
    expect(rows.map(({ of }) => of)).toEqual(carryChanges.map(({ of }) => of));
    expect(rows.filter(({ rule }) => rule !== null).length).toBeGreaterThanOrEqual(6);
  });

  // "About", all of them: a foot on either side, or a tenth of the rule where that is more.
  it.each(rows.filter(({ rule }) => rule !== null))("$step", ({ here_ft, rule }) => {
    const { low_ft, high_ft } = rule!;
    const about = Math.max(1, 0.1 * Math.max(Math.abs(low_ft), Math.abs(high_ft)));
    expect(here_ft).toBeGreaterThan(low_ft - about);
    expect(here_ft).toBeLessThan(high_ft + about);
  });

  it("and each rule says where it is from", () => {
    for (const { rule } of carryChanges)
      if (rule !== null) expect(rule.source).toMatch(/Adair|common practice/);
  });
});
