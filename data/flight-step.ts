/**
 * Writes one step of the flight out, stage by stage, as TypeScript: `npm run flight-step` puts it into
 * src/flight/step.ts, and a test fails when the two don't agree.
 *
 * The scheme is the one of order 8 in 11 stages by Cooper and Verner (SIAM J. Numer. Anal. 9, 1972, 389); its nodes
 * are Lobatto's. It is written out because a loop over stages and weights spends most of its time on finding its
 * numbers.
 */
import { fileURLToPath, pathToFileURL } from "node:url";
import { format, resolveConfig } from "prettier";
import { writeWhole } from "../src/library/write.ts";
import * as room from "../src/flight/room.ts";

const r21 = Math.sqrt(21);

/** What each stage, and last the step itself, takes of the accelerations of the stages before it. */
export const rows: readonly (readonly number[])[] = [
  [],
  [1 / 2],
  [1 / 4, 1 / 4],
  [1 / 7, (-7 - 3 * r21) / 98, (21 + 5 * r21) / 49],
  [(11 + r21) / 84, 0, (18 + 4 * r21) / 63, (21 - r21) / 252],
  [(5 + r21) / 48, 0, (9 + r21) / 36, (-231 + 14 * r21) / 360, (63 - 7 * r21) / 80],
  [
    (10 - r21) / 42,
    0,
    (-432 + 92 * r21) / 315,
    (633 - 145 * r21) / 90,
    (-504 + 115 * r21) / 70,
    (63 - 13 * r21) / 35,
  ],
  [1 / 14, 0, 0, 0, (14 - 3 * r21) / 126, (13 - 3 * r21) / 63, 1 / 9],
  [1 / 32, 0, 0, 0, (91 - 21 * r21) / 576, 11 / 72, (-385 - 75 * r21) / 1152, (63 + 13 * r21) / 128],
  [
    1 / 14,
    0,
    0,
    0,
    1 / 9,
    (-733 - 147 * r21) / 2205,
    (515 + 111 * r21) / 504,
    (-51 - 11 * r21) / 56,
    (132 + 28 * r21) / 245,
  ],
  [
    0,
    0,
    0,
    0,
    (-42 + 7 * r21) / 18,
    (-18 + 28 * r21) / 45,
    (-273 - 53 * r21) / 72,
    (301 + 53 * r21) / 72,
    (28 - 28 * r21) / 45,
    (49 - 7 * r21) / 18,
  ],
  [1 / 20, 0, 0, 0, 0, 0, 0, 49 / 180, 16 / 45, 49 / 180, 1 / 20],
];

/** The node of each stage: 0 the start, 1 and 3 Lobatto's inner ones, 2 the middle, 4 the end. */
export const nodeOf: readonly number[] = [0, 2, 2, 3, 3, 2, 1, 1, 2, 3, 4, 4];

const { atEnd, atMiddle } = room;
const last = rows.length - 1;
const axes = ["x", "y", "z"] as const;

/** A sum of products, without those by 0. */
function sum(weights: readonly number[], of: (j: number) => string): string {
  return weights
    .flatMap((w, j) => (w === 0 ? [] : [`${w < 0 ? "-" : "+"} ${Math.abs(w)} * ${of(j)}`]))
    .join(" ")
    .replace(/^\+ /, "");
}

/**
 * The acceleration of stage `s` at its velocity, `left` being what it has of the spin: gravity, drag, and lift along
 * ω × u, Cl·v²/(ω⊥ v) with S = Rω⊥/v put in.
 */
const acceleration = (s: number | "", left: string): string => `
  const ux${s} = vx${s} - wx;
  const uy${s} = vy${s} - wy;
  const uu${s} = ux${s} * ux${s} + uy${s} * uy${s} + vz${s} * vz${s};
  const cx${s} = oy * vz${s} - oz * uy${s};
  const cy${s} = oz * ux${s} - ox * vz${s};
  const cz${s} = ox * uy${s} - oy * ux${s};
  const D${s} = (drag + spinDrag * ${left}) * Math.sqrt(uu${s});
  const L${s} = (lift * ${left} * uu${s}) / (liftOffset * uu${s}
    + saturation * ${left} * Math.sqrt(cx${s} * cx${s} + cy${s} * cy${s} + cz${s} * cz${s}) + tiny);
  const ax${s} = L${s} * cx${s} - D${s} * ux${s};
  const ay${s} = L${s} * cy${s} - D${s} * uy${s};
  const az${s} = L${s} * cz${s} - D${s} * vz${s} - gravity;`;

/** What the ball is given, as constants. */
const givens = ["ox", "oy", "oz", "drag", "spinDrag", "lift", "saturation", "wx", "wy"]
  .map((name, i) => `const ${name} = given[${6 + i}]!;`)
  .join("\n");

/** Stage `s`: the velocity there, and its acceleration. */
const stage = (s: number): string =>
  axes.map((x) => `const v${x}${s} = v${x}0 + h * (${sum(rows[s]!, (j) => `a${x}${j}`)});`).join("\n") +
  acceleration(s, `left${nodeOf[s]!}`);

/** What a step begins with: its numbers as constants, and what is left of the spin at each node. */
const begin = `
  const h = plan[0]!;
  ${axes.map((x, i) => `const v${x}0 = here[${4 + i}]!;`).join("\n")}
  ${axes.map((x, i) => `const a${x}0 = acceleration[${i}]!;`).join("\n")}
  ${givens}
  // exp by its series, even and odd terms apart: the exponents are under 0.05 even for the longest step.
  const q = h * (0.5 / spinDecay_s);
  const qq = q * q;
  const half = 1 - q * (1 + qq * (1 / 6 + qq * (1 / 120))) + qq * (1 / 2 + qq * (1 / 24));
  const i = q * ${Math.sqrt(3 / 7)};
  const ii = i * i;
  const even = 1 + ii * (1 / 2 + ii * (1 / 24));
  const odd = i * (1 + ii * (1 / 6 + ii * (1 / 120)));
  const left2 = decay[0]! * half;
  const left1 = left2 * (even + odd);
  const left3 = left2 * (even - odd);
  const left4 = left2 * half;
  decay[1] = left2;
  decay[2] = left4;`;

/** What it ends with: the state at its end, and how far its own two values of the acceleration there are apart. */
const end = (): string => {
  const places = axes.map(
    (x, i) => `
    next[${1 + i}] = here[${1 + i}]! + h * (${sum(rows[last]!, (j) => `v${x}${j}`)});
    next[${4 + i}] = v${x}${last};
    acceleration[${atMiddle + i}] = a${x}8;
    acceleration[${atEnd + i}] = a${x}${last};`,
  );
  const apart = axes.map((x) => `Math.abs(a${x}${last} - a${x}${last - 1})`);
  return `
    next[0] = here[0]! + h;${places.join("")}
    plan[1] = h * h * (${apart.join(" + ")});`;
};

/** The text of step.ts, before it is formatted. */
function unformatted(): string {
  return `/**
 * The step of the flight, stage by stage. Written by data/flight-step.ts, which says why: \`npm run
 * flight-step\` writes it anew.
 */
import * as air from "./air.ts";
import * as coefficients from "./coefficients.ts";
import * as room from "./room.ts";

// Bound anew, as the engine takes a module's own constants for constants, and imported ones not.
const { gravity } = air;
const { liftOffset, spinDecay_s } = coefficients;
const { acceleration, decay, given, here, next, plan } = room;

/** Nothing to divide by but still air itself. */
const tiny = 1e-300;

/** Puts the acceleration at \`here\`, with all of the spin, into \`acceleration\`. */
export function start(): void {
  const left = 1;
  ${axes.map((x, i) => `const v${x} = here[${4 + i}]!;`).join("\n")}
  ${givens}${acceleration("", "left")}
  acceleration[0] = ax;
  acceleration[1] = ay;
  acceleration[2] = az;
}

/** One step of \`plan[0]\` seconds, from \`here\` to \`next\`. */
export function step(): void {${[begin, ...rows.slice(1).map((_, i) => stage(i + 1)), end()].join("\n")}
}
`;
}

/** The file the text goes into. */
export const stepFile = fileURLToPath(new URL("../src/flight/step.ts", import.meta.url));

/** The step of the flight as TypeScript: the text of step.ts. */
export async function stepSource(): Promise<string> {
  return format(unformatted(), { ...(await resolveConfig(stepFile)), filepath: stepFile });
}

const started = process.argv[1];
if (started !== undefined && import.meta.url === pathToFileURL(started).href)
  await writeWhole(stepFile, [await stepSource()]);
