/**
 * The regions of a grid of names, as polygons that fit together.
 *
 * The grid's nodes stand in the middle of squares; squares of one name make a region. Where two regions meet they
 * share one and the same border, its steps straightened, so that no gap or overlap shows between them.
 */
import { append } from "../swing/lists.ts";

/** A point in grid steps: a node (i, j) is the middle of the square from i to i + 1, j to j + 1. */
export type GridPoint = readonly [number, number];

export interface Regions<Name> {
  /** Closed rings, each with its region on its left. */
  readonly rings: ReadonlyMap<Name, GridPoint[][]>;
  /** Borders between two regions, each once; the grid's own edge is no border. */
  readonly borders: readonly (readonly GridPoint[])[];
}

interface Edge {
  readonly from: number;
  readonly to: number;
}

/** A slanting border steps half a square to either side of the straight line; its fixed ends may lie off it as well. */
const tolerance = 0.75;

/**
 * @param names row-major: node (i, j) is `names[j * columns + i]`
 * @example regionsOf(["a", "b"], 2).borders.length // 1
 */
export function regionsOf<Name>(names: readonly Name[], columns: number): Regions<Name> {
  const grid = gridOf(columns, names.length / columns);
  const { edges, meeting } = edgesOf(names, grid);
  /** Where three borders meet, or a border meets the grid's edge, it stays as it is. */
  const fixed = (v: number): boolean => meeting.get(v) !== 4 || grid.corners.has(v);
  const { straight, borders } = straightener(grid);
  const rings = new Map<Name, GridPoint[][]>();
  for (const [name, mine] of edges)
    rings.set(
      name,
      walksOf(mine).map((walk) => ringOf(walk, fixed, straight)),
    );
  return { rings, borders };
}

/** The corners of a grid's squares, numbered along its rows. */
function gridOf(columns: number, rows: number) {
  const width = columns + 1;
  const vertex = (i: number, j: number): number => j * width + i;
  const point = (v: number): GridPoint => [v % width, Math.floor(v / width)];
  return {
    columns,
    rows,
    vertex,
    point,
    corners: new Set([vertex(0, 0), vertex(columns, 0), vertex(0, rows), vertex(columns, rows)]),
    /** Whether a step from corner to corner runs along the grid's own edge. */
    rim: (v: number, w: number): boolean => {
      const [[a, b], [c, d]] = [point(v), point(w)];
      return (a === c && (a === 0 || a === columns)) || (b === d && (b === 0 || b === rows));
    },
  };
}

type Grid = ReturnType<typeof gridOf>;
/** A region's edges, by the corner that each leaves from. */
type Edges = Map<number, Edge[]>;

/** Each region's edges, and how many edges meet at each corner. */
function edgesOf<Name>(names: readonly Name[], { columns, rows, vertex }: Grid) {
  const at = (i: number, j: number): Name | null =>
    i < 0 || j < 0 || i >= columns || j >= rows ? null : names[j * columns + i]!;
  const edges = new Map<Name, Edges>();
  const meeting = new Map<number, number>();
  for (let j = 0; j < rows; j++)
    for (let i = 0; i < columns; i++) {
      const name = at(i, j)!;
      const sides: [Name | null, number, number][] = [
        [at(i, j - 1), vertex(i, j), vertex(i + 1, j)],
        [at(i + 1, j), vertex(i + 1, j), vertex(i + 1, j + 1)],
        [at(i, j + 1), vertex(i + 1, j + 1), vertex(i, j + 1)],
        [at(i - 1, j), vertex(i, j + 1), vertex(i, j)],
      ];
      for (const [beside, from, to] of sides) {
        if (beside === name) continue;
        let mine = edges.get(name);
        if (!mine) edges.set(name, (mine = new Map()));
        const leaving = mine.get(from);
        if (leaving) leaving.push({ from, to });
        else mine.set(from, [{ from, to }]);
        // Both regions beside an inner edge walk it; the grid's own edge is walked once and counts as much.
        const weight = beside === null ? 2 : 1;
        for (const end of [from, to]) meeting.set(end, (meeting.get(end) ?? 0) + weight);
      }
    }
  return { edges, meeting };
}

/** Straightens borders from fixed point to fixed point, each the same whichever region walks it. */
function straightener({ point, rim }: Grid) {
  const arcs = new Map<string, GridPoint[]>();
  const borders: GridPoint[][] = [];
  const straight = (walk: readonly number[]): GridPoint[] => {
    const backward = walk[0]! > walk.at(-1)! || (walk[0] === walk.at(-1) && walk[1]! > walk.at(-2)!);
    const path = backward ? walk.toReversed() : walk;
    const key = `${path[0]} ${path[1]} ${path.at(-1)}`;
    let line = arcs.get(key);
    if (!line) {
      const [first, last] = [point(path[0]!), point(path.at(-1)!)];
      const middles = path.slice(1).map((to, k): GridPoint => {
        const [[a, b], [c, d]] = [point(path[k]!), point(to)];
        return [(a + c) / 2, (b + d) / 2];
      });
      line = simplify([first, ...middles, last]);
      arcs.set(key, line);
      // Where a border meets the rim it ends, so a path's first step tells for all.
      if (!rim(path[0]!, path[1]!)) borders.push(line);
    }
    return backward ? line.toReversed() : line;
  };
  return { straight, borders };
}

/** A region's edges end to end, as closed walks from corner to corner; takes the edges. */
function walksOf(edges: Edges): number[][] {
  const walks: number[][] = [];
  for (const start of edges.keys())
    for (let first = edges.get(start)!.pop(); first; first = edges.get(start)!.pop()) {
      const walk = [first.from, first.to];
      while (walk.at(-1) !== start) walk.push(edges.get(walk.at(-1)!)!.pop()!.to);
      walk.pop();
      walks.push(walk);
    }
  return walks;
}

/** A walk as a ring, its borders straightened. */
function ringOf(
  walk: readonly number[],
  fixed: (v: number) => boolean,
  straight: (walk: readonly number[]) => GridPoint[],
): GridPoint[] {
  // Begin at a fixed point; a ring without one begins at its least, whoever walks it.
  const anchor = walk.findIndex(fixed);
  const begin = anchor >= 0 ? anchor : walk.indexOf(walk.reduce((a, b) => Math.min(a, b)));
  const around = [...walk.slice(begin), ...walk.slice(0, begin + 1)];
  const ring: GridPoint[] = [];
  let from = 0;
  for (let k = 1; k < around.length; k++)
    if (k === around.length - 1 || fixed(around[k]!)) {
      append(ring, straight(around.slice(from, k + 1)).slice(0, -1));
      from = k;
    }
  ring.push(ring[0]!);
  return ring;
}

/** Douglas & Peucker, Cartographica 10, 1973, 112: drops points that the line passes within the tolerance. */
function simplify(points: readonly GridPoint[]): GridPoint[] {
  if (points.length < 3) return [...points];
  const [first, last] = [points[0]!, points.at(-1)!];
  let [farthest, at] = [0, 0];
  points.forEach((p, k) => {
    const d = fromSegment(p, first, last);
    if (d > farthest) [farthest, at] = [d, k];
  });
  if (farthest <= tolerance) return [first, last];
  return [...simplify(points.slice(0, at + 1)).slice(0, -1), ...simplify(points.slice(at))];
}

function fromSegment([x, y]: GridPoint, [x1, y1]: GridPoint, [x2, y2]: GridPoint): number {
  const [dx, dy] = [x2 - x1, y2 - y1];
  const long = dx * dx + dy * dy;
  const t = long === 0 ? 0 : Math.max(0, Math.min(1, ((x - x1) * dx + (y - y1) * dy) / long));
  return Math.hypot(x - x1 - t * dx, y - y1 - t * dy);
}
