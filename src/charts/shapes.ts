/** The shapes that swings and verdicts are drawn with: a second code beside the colour. */
import type { SymbolType } from "d3";

/** A shape of a given area about the origin; y runs downward. */
export interface Shape extends SymbolType {
  readonly name: string;
}

const polygon = (name: string, points: readonly (readonly [number, number])[]): Shape => {
  // Points are given in any size; every shape is drawn at the same area, so that none looks like more.
  let twice = 0;
  points.forEach(([x, y], i) => {
    const [nx, ny] = points[(i + 1) % points.length]!;
    twice += x * ny - nx * y;
  });
  const area = Math.abs(twice) / 2;
  return {
    name,
    draw(context, size) {
      const k = Math.sqrt(size / area);
      points.forEach(([x, y], i) => (i === 0 ? context.moveTo(x * k, y * k) : context.lineTo(x * k, y * k)));
      context.closePath();
    },
  };
};

const turned = (points: readonly (readonly [number, number])[], degrees: number) => {
  const [c, s] = [Math.cos((degrees * Math.PI) / 180), Math.sin((degrees * Math.PI) / 180)];
  return points.map(([x, y]) => [x * c - y * s, x * s + y * c] as const);
};

const plusPoints = [
  [-1, -3],
  [1, -3],
  [1, -1],
  [3, -1],
  [3, 1],
  [1, 1],
  [1, 3],
  [-1, 3],
  [-1, 1],
  [-3, 1],
  [-3, -1],
  [-1, -1],
] as const;
const up = [
  [0, -1.15],
  [1, 0.6],
  [-1, 0.6],
] as const;
const starPoints = Array.from({ length: 10 }, (_, i) => {
  const r = i % 2 === 0 ? 1 : 0.45;
  return [r * Math.sin((i * Math.PI) / 5), -r * Math.cos((i * Math.PI) / 5)] as const;
});

export const circle: Shape = {
  name: "circle",
  draw(context, size) {
    const r = Math.sqrt(size / Math.PI);
    context.moveTo(r, 0);
    context.arc(0, 0, r, 0, 2 * Math.PI);
    context.closePath();
  },
};
export const halfDisc: Shape = {
  name: "half disc",
  draw(context, size) {
    const r = Math.sqrt((2 * size) / Math.PI);
    // Shifted up by a part of the radius, so that the shape sits on its point and not beside it.
    context.moveTo(-r, -0.4 * r);
    context.arc(0, -0.4 * r, r, Math.PI, 0, true);
    context.closePath();
  },
};
export const down = polygon("triangle down", turned(up, 180));
export const upTriangle = polygon("triangle up", up);
export const diamond = polygon("diamond", [
  [0, -1],
  [1, 0],
  [0, 1],
  [-1, 0],
]);
export const square = polygon("square", [
  [-1, -1],
  [1, -1],
  [1, 1],
  [-1, 1],
]);
export const plus = polygon("plus", plusPoints);
export const times = polygon("cross", turned(plusPoints, 45));
export const star = polygon("star", starPoints);

/** Points outward where a swing lies beyond the frame: up, turned as needed. */
export const beyondShape = polygon("beyond", [
  [0, -1],
  [1.2, 0.5],
  [-1.2, 0.5],
]);
