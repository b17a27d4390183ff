/**
 * A drill's window drawn where the balls are: a box over exit velocity and launch angle, and a wedge of the field. Its
 * edges are dragged, or a new window is drawn with a mouse; the numbers beside say the same, and are what a keyboard uses.
 */
import { scaleLinear } from "d3";
import type { EnrichedSwing } from "../../src/swing/fields.ts";

/** The ends of a window by their field's name; null where it is open. */
export type WindowEnds = Readonly<Record<string, number | null>>;

/** A ball, and whether it would have met the target; null where it can't be judged. */
export interface Judged {
  readonly row: EnrichedSwing;
  readonly met: boolean | null;
}

const width = 360;
const height = 250;
const margin = { left: 38, right: 8, top: 8, bottom: 34 };

const svgOf = (tag: string, given: Readonly<Record<string, string | number>>, text = ""): SVGElement => {
  const element = document.createElementNS("http://www.w3.org/2000/svg", tag);
  for (const [name, value] of Object.entries(given)) element.setAttribute(name, String(value));
  if (text !== "") element.textContent = text;
  return element;
};

const pad = (label: string): SVGSVGElement => {
  const svg = svgOf("svg", {
    viewBox: `0 0 ${width} ${height}`,
    role: "img",
    "aria-label": label,
    class: "pad",
  });
  return svg as SVGSVGElement;
};

/** Where a pointer is, in the drawing's own units, by where the drawing is. */
function placeOf(svg: Pick<Element, "getBoundingClientRect">, event: PointerEvent): [number, number] {
  const { left, top, width: wide, height: tall } = svg.getBoundingClientRect();
  return [((event.clientX - left) / wide) * width, ((event.clientY - top) / tall) * height];
}

/** Follows a pointer from where it went down until it is let go. */
function follow(svg: SVGSVGElement, event: PointerEvent, moved: (at: [number, number]) => void): void {
  event.preventDefault();
  // Every move draws anew: the one that was taken hold of is gone by then.
  const there = svg.getBoundingClientRect();
  const still = { getBoundingClientRect: () => there };
  const move = (next: PointerEvent): void => {
    if (next.pointerId === event.pointerId) moved(placeOf(still, next));
  };
  const end = (next: PointerEvent): void => {
    if (next.pointerId !== event.pointerId) return;
    for (const [name, heard] of listeners) removeEventListener(name, heard);
  };
  const listeners = [
    ["pointermove", move],
    ["pointerup", end],
    ["pointercancel", end],
  ] as const;
  for (const [name, heard] of listeners) addEventListener(name, heard);
}

const dot = (x: number, y: number, met: boolean | null): SVGElement =>
  svgOf("circle", { cx: x.toFixed(1), cy: y.toFixed(1), r: 3.2, class: met === true ? "met" : "not" });

const clamp = (value: number, low: number, high: number): number => Math.max(low, Math.min(high, value));

/** What the two drawings tell: ends that were moved, by their field's name. */
type Moved = (ends: Readonly<Record<string, number>>) => void;

const speed = { field: "exit_velocity_mph", low: 30, high: 115 };
const angle = { field: "launch_angle_deg", low: -30, high: 60 };
const across = scaleLinear([speed.low, speed.high], [margin.left, width - margin.right]);
const up = scaleLinear([angle.low, angle.high], [height - margin.bottom, margin.top]);

/** A window's class: one that asks for nothing is not filled. */
const shape = (window: WindowEnds, ...fields: readonly string[]): string =>
  fields.every(
    (field) => (window[`${field}_low`] ?? null) === null && (window[`${field}_high`] ?? null) === null,
  )
    ? "window open"
    : "window";

const ends = (window: WindowEnds, { field, low, high }: typeof speed): [number, number] => [
  clamp(window[`${field}_low`] ?? low, low, high),
  clamp(window[`${field}_high`] ?? high, low, high),
];

/** Exit velocity across, launch angle up. */
export function contactPad(balls: readonly Judged[], window: WindowEnds, moved: Moved): SVGSVGElement {
  const svg = pad(
    "How hard and how high, with the target’s window over the balls. The numbers beside say the same.",
  );
  const ground = svgOf("rect", {
    x: margin.left,
    y: margin.top,
    width: width - margin.left - margin.right,
    height: height - margin.top - margin.bottom,
    class: "ground",
  });
  svg.append(ground);
  for (const tick of across.ticks(6)) {
    svg.append(
      svgOf("text", { x: across(tick), y: height - margin.bottom + 15, "text-anchor": "middle" }, `${tick}`),
    );
  }
  for (const tick of up.ticks(6))
    svg.append(svgOf("text", { x: margin.left - 6, y: up(tick) + 4, "text-anchor": "end" }, `${tick}°`));
  svg.append(
    svgOf("text", { x: width - margin.right, y: height - 4, "text-anchor": "end" }, "exit velocity, mph"),
    svgOf("line", { x1: margin.left, x2: width - margin.right, y1: up(0), y2: up(0), class: "level" }),
  );
  for (const { row, met } of balls) {
    const { exit_velocity_mph: v, launch_angle_deg: a } = row;
    if (v === null || a === null || v < speed.low || v > speed.high || a < angle.low || a > angle.high)
      continue;
    svg.append(dot(across(v), up(a), met));
  }
  const [slow, fast] = ends(window, speed);
  const [down, high] = ends(window, angle);
  const [x1, x2, y1, y2] = [across(slow), across(fast), up(high), up(down)];
  svg.append(
    svgOf("rect", {
      x: x1,
      y: y1,
      width: Math.max(1, x2 - x1),
      height: Math.max(1, y2 - y1),
      class: shape(window, speed.field, angle.field),
    }),
  );
  const mph = (x: number): number => Math.round(clamp(across.invert(x), speed.low, speed.high));
  const degrees = (y: number): number => Math.round(clamp(up.invert(y), angle.low, angle.high));
  const edges: readonly [
    string,
    readonly [number, number, number, number],
    (at: [number, number]) => void,
  ][] = [
    ["ew", [x1, y1, x1, y2], ([x]) => moved({ exit_velocity_mph_low: Math.min(mph(x), fast) })],
    ["ew", [x2, y1, x2, y2], ([x]) => moved({ exit_velocity_mph_high: Math.max(mph(x), slow) })],
    ["ns", [x1, y1, x2, y1], ([, y]) => moved({ launch_angle_deg_high: Math.max(degrees(y), down) })],
    ["ns", [x1, y2, x2, y2], ([, y]) => moved({ launch_angle_deg_low: Math.min(degrees(y), high) })],
  ];
  for (const [way, [ax, ay, bx, by], drag] of edges) {
    const edge = svgOf("line", { x1: ax, y1: ay, x2: bx, y2: by, class: `edge ${way}` });
    edge.addEventListener("pointerdown", (event) => follow(svg, event as PointerEvent, drag));
    svg.append(edge, svgOf("circle", { cx: (ax + bx) / 2, cy: (ay + by) / 2, r: 5, class: "grip" }));
  }
  svg.addEventListener("pointerdown", (event) => {
    // A finger scrolls the page; a mouse draws.
    if (event.pointerType === "touch" || (event.target as Element).classList.contains("edge")) return;
    const [x0, y0] = placeOf(svg, event);
    follow(svg, event, ([x, y]) =>
      moved({
        exit_velocity_mph_low: mph(Math.min(x0, x)),
        exit_velocity_mph_high: mph(Math.max(x0, x)),
        launch_angle_deg_low: degrees(Math.max(y0, y)),
        launch_angle_deg_high: degrees(Math.min(y0, y)),
      }),
    );
  });
  return svg;
}

const home = { x: width / 2, y: height - 12 } as const;
const reach = height - 50;
/** Directions that a window on the field may have, degrees: a little beyond the lines. */
const widest = 60;
const fan = { field: "spray_angle_deg", low: -widest, high: widest };

/** The field from above: directions off the bat, and how far the balls flew. */
export function fieldPad(balls: readonly Judged[], window: WindowEnds, moved: Moved): SVGSVGElement {
  const svg = pad("The field from above, with the target’s directions. The numbers beside say the same.");
  const farthest = Math.max(150, ...balls.map(({ row }) => row.carry_ft ?? 0));
  const far = scaleLinear([0, farthest], [0, reach]);
  const at = (degrees: number, r: number): [number, number] => {
    const a = (degrees * Math.PI) / 180;
    return [home.x + r * Math.sin(a), home.y - r * Math.cos(a)];
  };
  const path = (...points: readonly [number, number][]): string =>
    `M${points.map(([x, y]) => `${x.toFixed(1)} ${y.toFixed(1)}`).join("L")}`;
  const arc = (from: number, to: number, r: number): [number, number][] =>
    Array.from({ length: 25 }, (_, i) => at(from + ((to - from) * i) / 24, r));
  svg.append(svgOf("path", { d: `${path([home.x, home.y], ...arc(-45, 45, reach))}Z`, class: "ground" }));
  for (const ring of far.ticks(3).filter((tick) => tick > 0)) {
    svg.append(svgOf("path", { d: path(...arc(-45, 45, far(ring))), class: "ring" }));
    const [x, y] = at(45, far(ring));
    svg.append(svgOf("text", { x: x + 4, y: y + 4 }, `${ring} ft`));
  }
  const [low, high] = ends(window, fan);
  svg.append(
    svgOf("path", {
      d: `${path([home.x, home.y], ...arc(low, high, reach))}Z`,
      class: shape(window, fan.field),
    }),
  );
  for (const { row, met } of balls) {
    if (row.bearing_deg === null || row.carry_ft === null || Math.abs(row.bearing_deg) > 90) continue;
    const [x, y] = at(row.bearing_deg, far(row.carry_ft));
    svg.append(dot(x, y, met));
  }
  const direction = ([x, y]: [number, number]): number =>
    Math.round(clamp((Math.atan2(x - home.x, Math.max(1, home.y - y)) * 180) / Math.PI, -widest, widest));
  for (const [angle, drag] of [
    [low, (place: [number, number]) => moved({ spray_angle_deg_low: Math.min(direction(place), high) })],
    [high, (place: [number, number]) => moved({ spray_angle_deg_high: Math.max(direction(place), low) })],
  ] as const) {
    const [x, y] = at(angle, reach);
    const edge = svgOf("line", { x1: home.x, y1: home.y, x2: x, y2: y, class: "edge ew" });
    edge.addEventListener("pointerdown", (event) => follow(svg, event as PointerEvent, drag));
    const [gx, gy] = at(angle, reach * 0.75);
    svg.append(edge, svgOf("circle", { cx: gx, cy: gy, r: 5, class: "grip" }));
  }
  svg.addEventListener("pointerdown", (event) => {
    if (event.pointerType === "touch" || (event.target as Element).classList.contains("edge")) return;
    const from = direction(placeOf(svg, event));
    follow(svg, event, (place) => {
      const to = direction(place);
      moved({ spray_angle_deg_low: Math.min(from, to), spray_angle_deg_high: Math.max(from, to) });
    });
  });
  return svg;
}
