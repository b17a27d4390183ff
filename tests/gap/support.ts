/** The demo made ready once, and swings for small cases. */
import { enrich } from "../../src/contact/enrich.ts";
import { makeReady, type Ready, type ReadySwing } from "../../src/gap/rows.ts";
import { openLibrary, type Library } from "../../src/library/library.ts";
import { swing } from "../views/rows.ts";
import { fileURLToPath } from "node:url";

let opened: Promise<{ library: Library; ready: Ready }> | null = null;

/** The demo's library, and its swings ready to be compared. */
export function demo(): Promise<{ library: Library; ready: Ready }> {
  return (opened ??= openLibrary(fileURLToPath(new URL("../../data/demo", import.meta.url))).then(
    (library) => ({
      library,
      ready: makeReady({ ...library, swings: enrich(library) }),
    }),
  ));
}

/** A ball in play, ready: everything unknown but what a test gives. */
export function ball(given: Partial<ReadySwing> = {}): ReadySwing {
  const plate_speed_mph = given.input === "live" || given.input === "flip" ? null : 0;
  return { ...swing(given), plate_speed_mph, cell: null, date: null, ...given };
}

/** Each number in a result, NaN and infinities told. */
export function badNumbers(value: unknown, path = ""): string[] {
  if (typeof value === "number") return Number.isFinite(value) ? [] : [path];
  if (value === null || typeof value !== "object") return [];
  return Object.entries(value).flatMap(([key, inner]) => badNumbers(inner, `${path}.${key}`));
}
