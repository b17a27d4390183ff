/** The balls: mass and size from the rule books, and what drag and lift are known from. */
import { inch, oz } from "../units/index.ts";

/** A ball, in kg and m. */
export interface Ball {
  readonly name: string;
  /** As people say it: "a 12-inch softball". */
  readonly title: string;
  readonly mass: number;
  readonly radius: number;
  /** Where its mass and size come from. */
  readonly source: string;
  /** Where its drag and lift come from. */
  readonly aerodynamics: string;
  /** One phrase for each thing that is assumed of it. */
  readonly assumed: readonly string[];
}

const measured = "Drag and lift fitted to measured flights of baseballs.";
const borrowed =
  "Assumption: drag and lift coefficients are the baseball's, as no measurement of a softball stands behind them.";

/** A ball in the middle of its rule book's limits, oz and inches around. */
function ball(
  name: string,
  title: string,
  weight_oz: readonly [number, number],
  circumference_in: readonly [number, number],
  source: string,
  aerodynamics: string,
): Ball {
  const middle = ([low, high]: readonly [number, number]): number => (low + high) / 2;
  return {
    name,
    title,
    mass: middle(weight_oz) * oz,
    radius: (middle(circumference_in) * inch) / (2 * Math.PI),
    source,
    aerodynamics,
    assumed: aerodynamics === borrowed ? ["a softball's drag and lift taken as a baseball's"] : [],
  };
}

/** The ball table, the first one used where none is named. */
export const balls = [
  ball(
    "baseball",
    "a baseball",
    [5, 5.25],
    [9, 9.25],
    "Official Baseball Rules, 3.01: 5 to 5¼ oz, 9 to 9¼ in around; the middle of both.",
    measured,
  ),
  ball(
    "softball",
    "a 12-inch softball",
    [6.25, 7],
    [11.875, 12.125],
    "12-inch ball: 6¼ to 7 oz, 11⅞ to 12⅛ in around (Official Rules of Softball, 2001, as quoted in a handbook " +
      "table of ball masses); the middle of both.",
    borrowed,
  ),
  ball(
    "11-inch softball",
    "an 11-inch softball",
    [5.875, 6.125],
    [10.875, 11.125],
    "11-inch ball: 10⅞ to 11⅛ in around (Official Rules of Softball, 2001, as quoted in a handbook table of ball " +
      "masses), 5⅞ to 6⅛ oz (softball rule book, from memory); the middle of both.",
    borrowed,
  ),
] as const satisfies readonly Ball[];

/** Other names of the same balls. */
const alsoCalled: Readonly<Record<string, string>> = { "12-inch softball": "softball" };

/** The names of the ball table. */
export const ballNames: readonly string[] = balls.map((b) => b.name);

/** The ball of that name, whatever the case; null when the table has none. */
export function findBall(name: string): Ball | null {
  const plain = name.trim().toLowerCase();
  const wanted = alsoCalled[plain] ?? plain;
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
  if (found === null) throw new RangeError(`the ball table has no "${name}", only ${ballNames.join(", ")}`);
  return found;
}
