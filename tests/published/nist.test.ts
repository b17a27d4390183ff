/**
 * Mean and standard deviation against certified digits: NIST Statistical Reference Datasets, univariate summary
 * statistics (Mavro, Michelso, NumAcc1 to NumAcc4). The NumAcc sets are made by their definition; the other values
 * and the certified digits are from memory, and each bears the other out.
 */
import { describe, expect, it } from "vitest";
import { mean, spread } from "../../src/stats/bootstrap.ts";

/** Mavro: a filter's transmittance, hundred-thousandths above 2. */
const mavro = [
  180, 170, 180, 190, 180, 170, 150, 140, 150, 150, 170, 180, 180, 190, 190, 210, 200, 160, 140, 130, 130,
  150, 150, 160, 150, 140, 130, 140, 150, 140, 150, 160, 150, 160, 190, 200, 200, 210, 220, 230, 240, 250,
  270, 260, 260, 260, 270, 260, 250, 240,
].map((v) => Number(`2.${String(v).padStart(5, "0")}`));

/** Speed of light in air: thousandths of 10⁶ m/s above 299, Michelson, 1879. */
const michelson = [
  850, 740, 900, 1070, 930, 850, 950, 980, 980, 880, 1000, 980, 930, 650, 760, 810, 1000, 1000, 960, 960, 960,
  940, 960, 940, 880, 800, 850, 880, 900, 840, 830, 790, 810, 880, 880, 830, 800, 790, 760, 800, 880, 880,
  880, 860, 720, 720, 620, 860, 970, 950, 880, 910, 850, 870, 840, 840, 850, 840, 840, 840, 890, 810, 810,
  820, 800, 770, 760, 740, 750, 760, 910, 920, 890, 860, 880, 720, 840, 850, 850, 780, 890, 840, 780, 810,
  760, 810, 790, 810, 820, 850, 870, 870, 810, 740, 810, 940, 950, 800, 810, 870,
].map((v) => Number(`${299 + Math.floor(v / 1000)}.${String(v % 1000).padStart(3, "0")}`));

/** A value, and the two about it over and over. */
const about = (middle: number, low: number, high: number): number[] => [
  middle,
  ...Array.from({ length: 1000 }, (_, i) => (i % 2 === 0 ? low : high)),
];

/** Decimal digits that agree: the logarithm of the relative error. */
const digits = (computed: number, certified: number): number =>
  computed === certified ? 15 : -Math.log10(Math.abs(computed - certified) / Math.abs(certified));

describe("certified digits", () => {
  it.each([
    ["Mavro", mavro, 2.001856, 0.000429123454003053, 11],
    ["Michelso", michelson, 299.8524, 0.0790105478190518, 13],
    ["NumAcc1", [10000001, 10000003, 10000002], 10000002, 1, 15],
    ["NumAcc2", about(1.2, 1.1, 1.3), 1.2, 0.1, 13],
    // Written in binary, tenths beside a million or ten million are themselves off in the ninth and eighth digit of the spread.
    ["NumAcc3", about(1000000.2, 1000000.1, 1000000.3), 1000000.2, 0.1, 9],
    ["NumAcc4", about(10000000.2, 10000000.1, 10000000.3), 10000000.2, 0.1, 8],
  ])("%s", (_, values, certifiedMean, certifiedSpread, wanted) => {
    const list = Float64Array.from(values);
    expect(digits(mean(list, list.length), certifiedMean)).toBeGreaterThanOrEqual(13);
    expect(digits(spread(list, list.length), certifiedSpread)).toBeGreaterThanOrEqual(wanted);
  });

  it("are no matter of course: the sum of squares less the square of the sum loses them", () => {
    const values = about(10000000.2, 10000000.1, 10000000.3);
    const n = values.length;
    const [sum, squares] = [values.reduce((a, b) => a + b, 0), values.reduce((a, b) => a + b * b, 0)];
    const naive = Math.sqrt(Math.max(0, (squares - (sum * sum) / n) / (n - 1)));
    expect(digits(naive, 0.1)).toBeLessThan(3);
  });
});
