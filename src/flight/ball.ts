/** The balls: mass and size from the rule books, and what drag and lift are known from. */
import { inch, oz } from "../units/index.ts";

/** A ball, in kg and m. */
export interface Ball {
  readonly name: string;
  readonly mass: number;
  readonly radius: number;
  /** Where its mass and size come from, and what of its aerodynamics is borrowed. */
  readonly source: string;
}

function ball(name: string, weight_oz: number, circumference_in: number, source: string): Ball {
  return { name, mass: weight_oz * oz, radius: (circumference_in * inch) / (2 * Math.PI), source };
}

/** The ball table, the first one used where none is named. */
export const balls = [
  ball(
    "baseball",
    5.125,
    9.125,
    "Official Baseball Rules, 3.01: 5 to 5¼ oz, 9 to 9¼ in around; the middle of both.",
  ),
  ball(
    "softball",
    6.625,
    12,
    "12-inch ball: 6¼ to 7 oz, 11⅞ to 12⅛ in around, the middle of both (softball rule book, from memory). " +
      "Drag and lift coefficients are the baseball's.",
  ),
] as const satisfies readonly Ball[];

/** The names of the ball table. */
export const ballNames: readonly string[] = balls.map((b) => b.name);

/** The ball of that name, whatever the case; null when the table has none. */
export function findBall(name: string): Ball | null {
  const wanted = name.trim().toLowerCase();
  return balls.find((b) => b.name === wanted) ?? null;
}

/**
 * The ball of that name, the baseball for null.
 * @throws RangeError for a name the table doesn't have.
 * @example ballFor(null).mass // 0.14529
 */
export function ballFor(name: string | null): Ball {
  if (name === null) return balls[0];
  const found = findBall(name);
  if (found === null)
    throw new RangeError(`the ball table has no "${name}", only ${ballNames.join(" and ")}`);
  return found;
}
