/** What every chart promises, whatever it draws. */
import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { bucketStrip, contactMap, contactPlace, sprayChart } from "../../src/charts/index.ts";
import { field, lanes } from "./figures.ts";
import { oddities, row, surface, swings } from "./fixture.ts";
import { textWidth } from "../../src/charts/text.ts";
import { paper } from "../../src/charts/theme.ts";
import { emptyGallery, gallery } from "./gallery.ts";
import { drawn, newDocument } from "./node.ts";

const everything = Object.entries({ ...gallery, ...emptyGallery });
const widths = [300, 350, 390, 720, 1280];
const texts = (svg: SVGSVGElement): string[] =>
  [...svg.querySelectorAll("text")].map((t) => t.textContent ?? "");
const description = (svg: SVGSVGElement): string => svg.querySelector(":scope > desc")?.textContent ?? "";

describe.each(everything)("%s", (name, draw) => {
  const all = widths.map((width) => drawn(draw, width));

  it("is an image with a title and a text alternative", () => {
    for (const svg of all) {
      expect(svg.tagName.toLowerCase()).toBe("svg");
      expect(svg.getAttribute("role")).toBe("img");
      const [title, desc] = svg.children;
      expect(title?.tagName).toBe("title");
      expect(title?.textContent).not.toBe("");
      expect(desc?.tagName).toBe("desc");
      // The title is seen as well, not only spoken.
      expect(texts(svg).join(" ").replace(/\s+/g, " ")).toContain(title!.textContent);
      if (name in gallery) expect(description(svg)).toMatch(/\d/);
      else expect(description(svg)).toContain("no swings to draw");
      expect(description(svg)).not.toMatch(/NaN|undefined|null|Infinity/);
    }
  });

  it("is laid out for each width, with letters of 11 px and more", () => {
    all.forEach((svg, i) => {
      expect(svg.getAttribute("width")).toBe(String(widths[i]));
      const [, , wide, high] = svg.getAttribute("viewBox")!.split(" ").map(Number);
      expect(wide).toBe(widths[i]);
      expect(high).toBe(Number(svg.getAttribute("height")));
      // What Plot writes on the root holds only where no style does, and the style is ours.
      expect(svg.style.fontSize).toBe("12px");
      const sizes = [...svg.querySelectorAll("[font-size]")].map((e) =>
        Number.parseFloat(e.getAttribute("font-size")!),
      );
      expect(sizes.length).toBeGreaterThan(0);
      expect(Math.min(...sizes)).toBeGreaterThanOrEqual(11);
    });
  });

  it("has numbers no finer than 0.01 and none that is no number", () => {
    for (const svg of all) {
      const inside = svg.outerHTML.replace(/<(title|desc|style)>[^]*?<\/\1>/g, "");
      expect(inside).not.toMatch(/NaN|undefined|Infinity/);
      expect(inside.match(/\d\.\d{3,}/g)).toBeNull();
    }
  });

  it("names its clips and patterns after itself, and only those it has", () => {
    for (const svg of all) {
      const ids = [...svg.querySelectorAll("[id]")].map((e) => e.id);
      expect(new Set(ids).size).toBe(ids.length);
      for (const id of ids) expect(id).toMatch(/^batted-[a-z-]+-[a-z0-9]+-(clip-\d+|hatch|dots)$/);
      const used = [...svg.outerHTML.matchAll(/url\(#([^)]+)\)/g)].map((m) => m[1]!);
      for (const id of used) expect(ids).toContain(id);
    }
  });

  it("draws its own paper under everything", () => {
    for (const svg of all) {
      const shapes = [...svg.querySelectorAll("rect, path, text, circle, line")];
      expect(shapes[0]?.tagName).toBe("rect");
      expect(shapes[0]?.getAttribute("width")).toBe(svg.getAttribute("width"));
      expect(shapes[0]?.getAttribute("height")).toBe(svg.getAttribute("height"));
    }
  });
});

describe("drawings", () => {
  it("don't depend on what was drawn before", () => {
    const forward = everything.map(([name, draw]) => [name, drawn(draw, 350).outerHTML] as const);
    const backward = everything
      .toReversed()
      .map(([name, draw]) => [name, drawn(draw, 350).outerHTML] as const);
    expect(Object.fromEntries(backward)).toEqual(Object.fromEntries(forward));
  });

  it("share no id with one another on a page", () => {
    const ids = everything.flatMap(([, draw]) =>
      [350, 720].flatMap((width) => [...drawn(draw, width).querySelectorAll("[id]")].map((e) => e.id)),
    );
    expect(ids.length).toBeGreaterThan(10);
    expect(new Set(ids).size).toBe(ids.length);
  });

  it("need a document, and say so", () => {
    expect(() => contactMap([], { surface })).toThrow("a chart needs a document");
  });
});

const onMark = (svg: SVGSVGElement, group: string): Element[] => [
  ...svg.querySelectorAll(`[aria-description="${group}"] > *`),
];

describe("swings", () => {
  const document = newDocument();

  it("are drawn one mark each, hollow where the reading is flagged", () => {
    const svg = contactMap(swings, { document, surface });
    const marks = onMark(svg, "swings");
    expect(marks).toHaveLength(64);
    expect(marks.filter((m) => m.getAttribute("fill") === paper)).toHaveLength(4);
    expect(texts(svg).join(" ")).toContain("64 swings in play · 4 flagged (hollow)");
  });

  it("with a flag that only tells what was assumed are solid", () => {
    const rows = swings.map((r) => ({ ...r, flags: "few_swings;no_spray" }));
    const svg = contactMap(rows, { document, surface });
    expect(onMark(svg, "swings").filter((m) => m.getAttribute("fill") === paper)).toHaveLength(0);
  });

  it("differ in shape by category and by bucket", () => {
    const outlines = (svg: SVGSVGElement): number =>
      new Set(onMark(svg, "swings").map((m) => m.getAttribute("d"))).size;
    expect(outlines(contactMap(swings, { document, surface }))).toBe(
      new Set(swings.map((r) => r.category)).size,
    );
    expect(outlines(contactPlace(swings, { document }))).toBe(new Set(swings.map((r) => r.bucket)).size);
  });

  it("beyond the frame stand at its edge with an arrow, and are counted", () => {
    const svg = contactMap([...swings, ...oddities], { document, surface });
    expect(onMark(svg, "swings")).toHaveLength(66);
    expect(onMark(svg, "beyond the frame")).toHaveLength(2);
    expect(description(svg)).toContain("2 beyond the frame");
    expect(description(svg)).toContain("2 without exit velocity or launch angle left out");
  });

  it("far beyond the fence keep their bearing at the frame's edge", () => {
    const far = row({ carry_ft: 5000, bearing_deg: 20, category: "fly ball" });
    const near = row({ carry_ft: 100, bearing_deg: 20, category: "fly ball" });
    const svg = sprayChart([far, near], { document, field, width: 720 });
    const [p, q] = onMark(svg, "swings").map((m) =>
      /translate\(([\d.]+),([\d.]+)\)/.exec(m.getAttribute("transform")!)!.slice(1).map(Number),
    ) as [number[], number[]];
    const home = onMark(svg, "foul lines and fence")[0]!
      .getAttribute("d")!
      .match(/[\d.]+/g)!
      .slice(0, 2)
      .map(Number) as [number, number];
    const bearing = ([x, y]: number[]): number => (Math.atan2(x! - home[0], home[1] - y!) * 180) / Math.PI;
    expect(bearing(q)).toBeCloseTo(20, 1);
    expect(Math.abs(bearing(p) - 20)).toBeLessThan(1);
    expect(p[1]).toBeGreaterThan(0);
    expect(onMark(svg, "beyond the frame")).toHaveLength(1);
  });

  it("in great number share marks, and none is lost", () => {
    const many = Array.from({ length: 50_000 }, (_, i) => ({
      ...swings[i % 64]!,
      exit_velocity_mph: 60 + ((i * 7919) % 4000) / 100,
      launch_angle_deg: -20 + ((i * 104_729) % 6000) / 100,
    }));
    const svg = contactMap(many, { document, surface, width: 720 });
    const marks = onMark(svg, "swings");
    expect(marks.length).toBeLessThan(20_000);
    const said = marks.map(
      (m) => /^([\d,]+) swings here$/.exec(m.textContent ?? "")?.[1]?.replace(",", "") ?? "1",
    );
    expect(said.reduce((sum, n) => sum + Number(n), 0)).toBe(50_000);
    expect(texts(svg).join(" ")).toContain("share one larger mark");
  });

  it("in metric units stand where they stood", () => {
    const places = (units: "us" | "metric") =>
      onMark(sprayChart(swings, { document, field, units }), "swings").map((m) =>
        m.getAttribute("transform"),
      );
    expect(places("metric")).toEqual(places("us"));
    expect(texts(sprayChart(swings, { document, field, units: "metric" })).join(" ")).toContain("90 m");
  });
});

describe("spray chart", () => {
  it("writes share, count and interval for each of the five lanes", () => {
    const svg = sprayChart(swings, { document: newDocument(), field, lanes, width: 350 });
    const words = texts(svg);
    for (const lane of lanes.filter((l) => l.lane !== "foul")) {
      expect(words).toContain(`${Math.round(lane.share! * 100)}%`);
      expect(words).toContain(`${lane.count} of ${lane.n}`);
      expect(words).toContain(`${Math.round(lane.low! * 100)}–${Math.round(lane.high! * 100)}%`);
    }
    expect(words.join(" ")).toContain("Foul: 6% (4 of 64;");
  });

  it.each([300, 390, 720])("keeps every ball, however far, clear of the lanes' words at %i px", (width) => {
    // Into each lane's end, at the fence and far past it.
    const far = [300, 330, 380, 420, 460, 700].flatMap((carry_ft) =>
      [-36, -18, 0, 18, 36].map((bearing_deg) => row({ carry_ft, bearing_deg, category: "fly ball" })),
    );
    const svg = sprayChart(far, { document: newDocument(), field, lanes, width });
    const at = (e: Element): [number, number] => {
      const [, x, y] = /translate\(([\d.]+),([\d.]+)\)/.exec(e.getAttribute("transform")!)!;
      return [Number(x), Number(y)];
    };
    const words = ["lane", "share of the lane", "count", "interval"].map((name) => [
      ...svg.querySelectorAll(`[aria-description="${name}"] text`),
    ]);
    expect(words.map((line) => line.length)).toEqual([5, 5, 5, 5]);
    const lowest = Math.max(...words.flat().map((e) => at(e)[1]));
    const balls = onMark(svg, "swings");
    expect(balls).toHaveLength(far.length);
    for (const ball of balls) expect(at(ball)[1]).toBeGreaterThan(lowest + 10);
    // Nor do the words touch one another, or the edge.
    for (const line of words) {
      const ends = line.map((e) => {
        const half =
          textWidth(e.textContent!, Number(e.closest("[font-size]")!.getAttribute("font-size"))) / 2;
        return [at(e)[0] - half, at(e)[0] + half] as const;
      });
      ends.forEach(([left, right], i) => {
        expect(left).toBeGreaterThan(ends[i - 1]?.[1] ?? 0);
        expect(right).toBeLessThan(width);
      });
    }
  });

  it("draws the base paths as long as the field has them", () => {
    const svg = sprayChart([], { document: newDocument(), field, width: 720 });
    const d = onMark(svg, "base paths")[0]!.getAttribute("d")!;
    const [home, first, second] = d
      .slice(1)
      .split("L")
      .map((p) => p.split(",").map(Number)) as [number[], number[], number[]];
    const long = (a: number[], b: number[]): number => Math.hypot(a[0]! - b[0]!, a[1]! - b[1]!);
    // Home to second on 90 ft bases: 127 ft 3⅜ in (Official Baseball Rules, 2.01).
    expect(long(home, second) / long(home, first)).toBeCloseTo(127.28 / 90, 3);
  });
});

describe("bucket strip", () => {
  const document = newDocument();

  it("has one bar a swing in the order given, the bucket as height and colour", () => {
    const svg = bucketStrip(swings, { document, width: 720 });
    const bars = onMark(svg, "swings");
    expect(bars.map((b) => b.textContent?.split(": ")[0])).toEqual([
      ...Array.from({ length: 30 }, (_, i) => `${i + 1}`),
      ...Array.from({ length: 10 }, (_, i) => `${i + 1}`),
      ...Array.from({ length: 10 }, (_, i) => `${i + 1}`),
      ...Array.from({ length: 14 }, (_, i) => `${i + 1}`),
    ]);
    const heights = new Map<string, Set<string>>();
    bars.forEach((bar, i) => {
      const bucket = swings[i]!.bucket!;
      heights.set(bucket, (heights.get(bucket) ?? new Set()).add(bar.getAttribute("height")!));
    });
    expect(heights.size).toBe(new Set(swings.map((r) => r.bucket)).size);
    for (const each of heights.values()) expect(each.size).toBe(1);
    const tall = ["mishit", "partial", "clean", "flush"]
      .filter((b) => heights.has(b))
      .map((b) => Number([...heights.get(b)!][0]));
    expect(tall).toEqual([...tall].sort((a, b) => a - b));
  });

  it("draws the last swings of very many and counts the others", () => {
    const svg = bucketStrip(swings, { document, most: 10 });
    expect(onMark(svg, "swings")).toHaveLength(10);
    expect(description(svg)).toContain("54 earlier swings left out");
  });
});

describe("the folder", () => {
  it("imports nothing that computes statistics", () => {
    const folder = new URL("../../src/charts/", import.meta.url);
    const files = readdirSync(folder);
    expect(files.length).toBeGreaterThan(8);
    for (const file of files) {
      const imports = [...readFileSync(new URL(file, folder), "utf8").matchAll(/from "([^"]+)"/g)].map(
        (m) => m[1]!,
      );
      for (const name of imports)
        expect(`${file}: ${name}`).not.toMatch(/simple-statistics|stdlib|\/stats\/|\/gap\/|d3-array/);
    }
  });
});
