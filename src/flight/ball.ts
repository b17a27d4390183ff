/** The balls of data/balls.json: mass and size from the rule books, and what drag and lift are known from. */
import table from "../../data/balls.json" with { type: "json" };
import { ballNames, nameIn } from "../swing/fields.ts";
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

const middle = (limits: readonly number[]): number => (limits[0]! + limits[1]!) / 2;

/** Every ball of the table, each in the middle of its rule book's limits. */
export const balls: readonly Ball[] = table.balls.map((entry) => ({
  name: entry.name,
  title: entry.title,
  mass: middle(entry.weight_oz) * oz,
  radius: (middle(entry.circumference_in) * inch) / (2 * Math.PI),
  source: entry.source,
  aerodynamics: entry.aerodynamics === "measured" ? measured : borrowed,
  assumed: entry.aerodynamics === "measured" ? [] : ["a softball's drag and lift taken as a baseball's"],
}));

const byName = new Map(balls.map((ball) => [ball.name, ball]));

/** The ball used where none is named. */
const defaultBall: Ball = byName.get(table.default)!;

/** The ball of that name, whatever the case; null when the table has none. */
export function findBall(name: string): Ball | null {
  return byName.get(nameIn(ballNames, name) ?? "") ?? null;
}

/**
 * The ball of that name, the baseball for null.
 * @throws RangeError for a name the table doesn't have.
 * @example ballFor(null).mass // 0.14529
 */
export function ballFor(name: string | null): Ball {
  if (name === null) return defaultBall;
  const found = findBall(name);
  if (found === null)
    throw new RangeError(`the ball table has no "${name}", only ${ballNames.names.join(", ")}`);
  return found;
}
