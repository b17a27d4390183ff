/** The two pictures of one flight put things where they are. */
import { describe, expect, it } from "vitest";
import { flightSide, flightTop } from "../../src/charts/index.ts";
import { timeDots } from "../../src/charts/flown.ts";
import { oneBall } from "../../src/contact/oneBall.ts";
import { ft } from "../../src/units/index.ts";
import { ball as swing } from "../contact/swings.ts";
import { flights } from "./figures.ts";
import { newDocument } from "./node.ts";

const document = newDocument();
const marks = (svg: SVGSVGElement, name: string): Element[] => [
  ...svg.querySelectorAll(`[aria-description="${name}"] > *, path[aria-description="${name}"]`),
];
const shift = (element: Element): [number, number] => {
  const found = /translate\((-?[\d.]+),(-?[\d.]+)\)/.exec(element.getAttribute("transform") ?? "");
  return [Number(found?.[1]), Number(found?.[2])];
};
const center = (element: Element): [number, number] => {
  const moved = shift(element);
  if (!Number.isNaN(moved[0])) return moved;
  return [Number(element.getAttribute("cx")), Number(element.getAttribute("cy"))];
};
const words = (svg: SVGSVGElement): string =>
  [...svg.querySelectorAll("text")].map((t) => t.textContent).join(" ");

describe("a flight from the side", () => {
  const svg = flightSide(flights.far, { document, width: 720 });
  const { flight, path } = flights.far;

  it("is drawn to one scale both ways: the apex is as far up as it is high", () => {
    const [ax, ay] = center(marks(svg, "apex")[0]!);
    const [lx, ly] = center(marks(svg, "landing")[0]!);
    const top = path.reduce((a, b) => (b.z > a.z ? b : a));
    const perFoot = (lx - ax) / ((flight.carry - Math.hypot(top.x, top.y)) / ft);
    expect((ly - ay) / perFoot).toBeCloseTo(flight.apex / ft, 0);
  });

  it("has a dot each half second, larger ones and their number at the whole", () => {
    const dots = marks(svg, "times");
    expect(dots).toHaveLength(Math.floor(flight.hang * 2));
    expect(dots.filter((d) => Number(d.getAttribute("r")) > 3)).toHaveLength(Math.floor(flight.hang));
    expect(marks(svg, "seconds").map((t) => t.textContent)).toEqual(["1 s", "2 s", "3 s", "4 s"]);
    const ts = timeDots(path).map(({ t }) => t);
    ts.forEach((t, i) => expect(t).toBeCloseTo((i + 1) / 2, 9));
  });

  it("says range, hang time, apex, fence, spin with its spread, and what was assumed", () => {
    const said = words(svg).replace(/\s+/g, " ");
    expect(said).toContain("4.5 s in the air");
    expect(said).toContain("(80%:");
    expect(said).toContain("71 of 100 clear it");
    expect(said).toContain("estimated from the launch (each ±500 rpm)");
    expect(said).toContain("Assumed: spin estimated from the launch; no wind.");
    expect(words(flightSide(flights.low, { document }))).toContain("rate and axis measured");
  });
});

describe("a flight from above", () => {
  it("lands where the flight says, within its ellipse, on its field", () => {
    const svg = flightTop(flights.far, { document, width: 720 });
    const [lx, ly] = center(marks(svg, "landing")[0]!);
    const outline = marks(svg, "landing ellipse")[0]!
      .getAttribute("d")!
      .slice(1)
      .split(/[LZ]/)
      .filter(Boolean)
      .map((p) => p.split(",").map(Number)) as [number, number][];
    const xs = outline.map(([x]) => x);
    const ys = outline.map(([, y]) => y);
    expect(lx).toBeCloseTo((Math.min(...xs) + Math.max(...xs)) / 2, 0);
    expect(ly).toBeCloseTo((Math.min(...ys) + Math.max(...ys)) / 2, 0);
    const [home] = marks(svg, "foul lines and fence")[0]!.getAttribute("d")!.slice(1).split("L");
    const [hx, hy] = home!.split(",").map(Number) as [number, number];
    const bearing = Math.atan2(lx - hx, hy - ly);
    expect(bearing).toBeCloseTo(flights.far.flight.bearing, 2);
  });

  it("shows the wind as an arrow the way it blows, and none without one", () => {
    expect(marks(flightTop(flights.far, { document }), "wind")).toHaveLength(1);
    expect(marks(flightTop(flights.low, { document }), "wind")).toHaveLength(0);
    expect(words(flightTop(flights.far, { document }))).toMatch(/wind 8 mph/);
  });

  it("keeps the whole of any flight inside the picture", () => {
    for (const spray of [-170, -90, -40, 0, 44, 120]) {
      for (const angle of [-80, -5, 10, 35, 89]) {
        const { ball } = oneBall(swing(105, angle, { spray_angle_deg: spray }), 10);
        for (const width of [350, 720]) {
          for (const svg of [flightTop(ball!, { document, width }), flightSide(ball!, { document, width })]) {
            const [x, y] = center(marks(svg, "landing")[0]!);
            expect(x).toBeGreaterThan(0);
            expect(x).toBeLessThan(width);
            expect(y).toBeGreaterThan(0);
            expect(y).toBeLessThan(Number(svg.getAttribute("height")));
            expect(svg.outerHTML).not.toMatch(/NaN|undefined|Infinity/);
          }
        }
      }
    }
  });
});
