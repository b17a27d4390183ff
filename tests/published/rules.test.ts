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
  it.each(rows.filter(({ rule }) => rule !== null))("$step", ({ here, rule }) => {
    const { low, high } = rule!;
    const about = Math.max(1, 0.1 * Math.max(Math.abs(low), Math.abs(high)));
    expect(here).toBeGreaterThan(low - about);
    expect(here).toBeLessThan(high + about);
  });

  it("in metres for a metric step, the same slope and the same rule", () => {
    const metric = carryChangesOf(ruleBall(), "metric");
    // A metric step over the one in print: 5 °C are 9 °F, by definition; the others by the yard's and the pound's.
    const parts: Readonly<Record<string, number>> = {
      "1 km/h more exit velocity": 1 / 1.609344,
      "5 °C warmer": 0.9,
      "300 m higher": 300 / 304.8,
      "30 hPa lower pressure": 3000 / 3386.389,
      "15 km/h of tail wind": 1.5 / 1.609344,
      "15 km/h of head wind": 1.5 / 1.609344,
    };
    metric.forEach(({ step, here, rule, unit }, i) => {
      const [us, part] = [rows[i]!, parts[step] ?? 1];
      expect(unit).toBe("m");
      expect(here).toBeCloseTo(us.here * part * 0.3048, 9);
      if (rule !== null) expect(rule.low).toBeCloseTo(us.rule!.low * part * 0.3048, 9);
    });
    expect(metric.map(({ step }) => step)).toEqual(expect.arrayContaining(Object.keys(parts)));
  });

  it("and each rule says where it is from", () => {
    for (const { rule } of carryChanges)
      if (rule !== null) expect(rule.source).toMatch(/Adair|common practice/);
  });
});
