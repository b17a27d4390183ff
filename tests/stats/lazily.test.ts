/** Figures computed when they are read, and once. */
import { expect, it } from "vitest";
import { lazily } from "../../src/stats/lazily.ts";

it("computes a figure when it is first read, once, and no other", () => {
  const asked: string[] = [];
  const figure = (name: string, value: number) => () => {
    asked.push(name);
    return value;
  };
  const view = lazily({ mean: figure("mean", 5), spread: figure("spread", 2) });
  expect(asked).toEqual([]);
  expect([view.mean, view.mean]).toEqual([5, 5]);
  expect(asked).toEqual(["mean"]);
  expect(JSON.stringify(view)).toBe('{"mean":5,"spread":2}');
  expect(asked).toEqual(["mean", "spread"]);
});
