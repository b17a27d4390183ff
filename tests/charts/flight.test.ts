/** The two pictures of one flight put things where they are. */
import { describe, expect, it } from "vitest";
import { flightSide, flightTop } from "../../src/charts/index.ts";
import { markBox, textBox, touches } from "../../src/charts/labels.ts";
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

describe("the labels of a flight from the side", () => {
  const balls = [
    ...Object.values(flights),
    ...[60, 80, 95, 103, 112].flatMap((speed) =>
      [-5, 4, 12, 22, 28, 38, 55, 75, 85].map(
        (angle) => oneBall(swing(speed, angle, { spray_angle_deg: 5 }), 10).ball!,
      ),
    ),
  ];
  const boxes = (svg: SVGSVGElement) =>
    ["seconds", "fence's name", "apex in words", "range in words"].flatMap((name) =>
      marks(svg, name).map((text) => {
        const group = text.parentElement!;
        const moved = shift(text);
        const [dx, dy] = shift(group).map((v) => v || 0) as [number, number];
        const size = Number(group.getAttribute("font-size"));
        const bold = group.getAttribute("font-weight") === "bold";
        return {
          text: text.textContent!,
          ...textBox(text.textContent!, size, [moved[0] + dx, moved[1] + dy], bold),
        };
      }),
    );

  it.each([350, 390, 720])("touch neither one another, the path, nor the edge at %i px", (width) => {
    let fences = 0;
    for (const ball of balls) {
      const svg = flightSide(ball, { document, width });
      const all = boxes(svg);
      expect(all.length).toBeGreaterThan(0);
      fences += marks(svg, "fence's name").length;
      const way = marks(svg, "path")[0]!
        .getAttribute("d")!
        .slice(1)
        .split(/[LC]/)
        .map((p) => p.split(",").slice(-2).map(Number) as [number, number]);
      for (const [i, a] of all.entries()) {
        expect(Number.isFinite(a.left + a.top)).toBe(true);
        expect(a.left).toBeGreaterThanOrEqual(0);
        expect(a.right).toBeLessThanOrEqual(width + 1);
        for (const b of all.slice(i + 1))
          expect(touches(a, b), `${a.text} and ${b.text}, carry ${ball.flight.carry}`).toBe(false);
        if (/ s$|fence/.test(a.text))
          for (const point of way)
            expect(touches(a, markBox(point, 0.5)), `${a.text} on the path, carry ${ball.flight.carry}`).toBe(
              false,
            );
      }
    }
    expect(fences).toBeGreaterThan(3);
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
