/** Short labels in a picture: each where it touches nothing that is there already. */
import { textWidth } from "./text.ts";

/** A box, px, y downward. */
export interface Box {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** The box of a line of text about its middle, px, with a little air. */
export function textBox(text: string, size: number, [x, y]: readonly [number, number], bold = false): Box {
  const [half, high] = [textWidth(text, size, bold) / 2 + 2, size * 0.55];
  return { left: x - half, right: x + half, top: y - high, bottom: y + high };
}

/** The box of a round mark, px. */
export const markBox = ([x, y]: readonly [number, number], radius: number): Box => ({
  left: x - radius,
  right: x + radius,
  top: y - radius,
  bottom: y + radius,
});

/**
 * Whether two boxes share any place.
 * @example touches({ left: 0, right: 2, top: 0, bottom: 2 }, { left: 1, right: 3, top: 1, bottom: 3 }) // true
 */
export const touches = (a: Box, b: Box): boolean =>
  a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;

/** A line as small boxes, no farther apart than a label is high, px. */
export function lineBoxes(points: readonly (readonly [number, number])[], radius: number): Box[] {
  const step = 3;
  return points.flatMap(([x, y], i) => {
    const [px, py] = points[i - 1] ?? [x, y];
    const pieces = Math.max(1, Math.ceil(Math.hypot(x - px, y - py) / step));
    return Array.from({ length: pieces }, (_, k) => {
      const part = (k + 1) / pieces;
      return markBox([px + (x - px) * part, py + (y - py) * part], radius);
    });
  });
}

/** The first of some places, best first, that lies inside a frame and touches nothing; null for none. */
export function firstFree(places: readonly Box[], taken: readonly Box[], inside: Box): Box | null {
  return (
    places.find(
      (box) =>
        box.left >= inside.left &&
        box.right <= inside.right &&
        box.top >= inside.top &&
        box.bottom <= inside.bottom &&
        !taken.some((other) => touches(box, other)),
    ) ?? null
  );
}

/** The middle of a box. */
export const middleOf = (box: Box): [number, number] => [
  (box.left + box.right) / 2,
  (box.top + box.bottom) / 2,
];
