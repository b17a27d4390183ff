/** What every chart promises, whatever it draws. */
import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { bucketStrip, contactMap, contactPlace, lastFlight, sprayChart } from "../../src/charts/index.ts";
import { fieldFor } from "../../src/field/fields.ts";
import { field, lanes } from "./figures.ts";
import { oddities, row, surface, swings } from "./fixture.ts";
import { textWidth } from "../../src/charts/text.ts";
import { markBox, textBox, touches } from "../../src/charts/labels.ts";
import { fontSize, paper } from "../../src/charts/theme.ts";
import { emptyGallery, gallery } from "./gallery.ts";
import { drawn, newDocument } from "./node.ts";

const everything = Object.entries({ ...gallery, ...emptyGallery });
const widths = [300, 350, 390, 720, 1280];
const texts = (svg: SVGSVGElement): string[] =>
  [...svg.querySelectorAll("text")].map((t) => t.textContent ?? "");
const description = (svg: SVGSVGElement): string => svg.querySelector(":scope > desc")?.textContent ?? "";

describe("a field that nobody named", () => {
  const said = "No field is recorded for these swings: the full one, 60/90, is taken.";

  it("is said to be assumed wherever it is drawn, and one that somebody named is not", () => {
    const document = newDocument();
    for (const [name, says] of [
      [null, true],
      ["a barn", true],
      ["60/90", false],
    ] as const) {
      const field = fieldFor(name);
      for (const svg of [
        sprayChart(swings, { document, field }),
        contactMap(swings, { document, surface: { ...surface, field } }),
        lastFlight(null, { document, field }),
      ])
        expect(texts(svg).join(" ").includes(said), `${name}`).toBe(says);
    }
  });
});

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
      if (!name.endsWith("-empty")) expect(description(svg)).toMatch(/\d/);
      else expect(description(svg)).toMatch(/\b(no|nobody)\b.* to draw/i);
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

  it("takes every colour from the theme, so that the dark and print have theirs", () => {
    for (const svg of all) {
      const theirs = svg.outerHTML.replace(/var\(--[a-z0-9-]+, [^()]*\)/g, "");
      expect(theirs.match(/#[0-9a-f]{3,8}\b|rgba?\(|hsla?\(/gi)).toBeNull();
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

  it("are drawn one mark each, filled where clean or flush, ringed where the reading is flagged", () => {
    const svg = contactMap(swings, { document, surface });
    const marks = onMark(svg, "swings");
    expect(marks).toHaveLength(64);
    const well = swings.filter((r) => r.bucket === "clean" || r.bucket === "flush").length;
    expect(well).toBeGreaterThan(20);
    expect(marks.filter((m) => m.getAttribute("fill") === paper)).toHaveLength(64 - well);
    expect(onMark(svg, "in doubt")).toHaveLength(4);
    expect(texts(svg).join(" ")).toContain("64 swings in play · 4 flagged (ringed)");
    expect(texts(svg).join(" ")).toContain("filled: clean or flush");
  });

  it("without a bucket are neither filled nor hollow, and the key says so", () => {
    const svg = contactMap(
      swings.map((r) => ({ ...r, bucket: null })),
      { document, surface },
    );
    const marks = onMark(svg, "swings");
    expect(marks.filter((m) => m.getAttribute("fill-opacity") === "0.3")).toHaveLength(64);
    expect(texts(svg).join(" ")).toContain("pale: no bucket");
    expect(texts(svg).join(" ")).not.toContain("filled: clean or flush");
  });

  it("with a flag that only tells what was assumed are not ringed", () => {
    const rows = swings.map((r) => ({ ...r, flags: "few_swings;no_spray" }));
    expect(onMark(contactMap(swings, { document, surface }), "in doubt")).toHaveLength(4);
    expect(onMark(contactMap(rows, { document, surface }), "in doubt")).toHaveLength(0);
  });

  it("differ in shape by category and by bucket", () => {
    const outlines = (svg: SVGSVGElement): number =>
      new Set(onMark(svg, "swings").map((m) => m.getAttribute("d"))).size;
    expect(outlines(contactMap(swings, { document, surface }))).toBe(
      new Set(swings.map((r) => r.category)).size,
    );
    expect(outlines(contactPlace(swings, { document }))).toBe(new Set(swings.map((r) => r.bucket)).size);
  });

  it("hide no carry's number", () => {
    const at = (e: Element): [number, number] => {
      const [, x, y] = /translate\((-?[\d.]+),(-?[\d.]+)\)/.exec(e.getAttribute("transform") ?? "")!;
      return [Number(x), Number(y)];
    };
    let numbers = 0;
    for (const width of [300, 350, 720])
      for (const units of ["us", "metric"] as const) {
        const svg = contactMap(swings, { document, surface, width, units });
        const marks = onMark(svg, "swings").map((mark) => markBox(at(mark), 4));
        for (const text of svg.querySelectorAll("text")) {
          if (!/^\d+ (ft|m)$/.test(text.textContent ?? "")) continue;
          numbers++;
          const box = textBox(text.textContent!, fontSize.small, at(text));
          expect(
            marks.filter((mark) => touches(box, mark)),
            `${width}: ${text.textContent}`,
          ).toEqual([]);
        }
      }
    expect(numbers).toBeGreaterThan(12);
  });

  it("have each lane's share at its end, clear of every ball and of each other", () => {
    for (const width of [300, 350, 720]) {
      const svg = sprayChart(swings, { document, width, field, lanes });
      const said = texts(svg).join(" ");
      expect(said.match(/of 100/g)!.length).toBeGreaterThanOrEqual(5);
      for (const { lane, count, n } of lanes) if (lane !== "foul") expect(said).toContain(`${count} of ${n}`);
    }
  });

  it("that came down nowhere known are told, on no field", () => {
    const nowhere = swings.map((r) => ({ ...r, bearing_deg: null }));
    const svg = sprayChart(nowhere, { document, field, lanes: [] });
    expect(texts(svg).join(" ")).toContain("none of 64 swings has a direction and a carry");
    expect(svg.querySelector('[aria-description="fence"]')).toBeNull();
    expect(
      sprayChart(swings, { document, field }).querySelector('[aria-description="fence"]'),
    ).not.toBeNull();
  });

  it("are held against the drill's window on the field", () => {
    const target = { spray_angle_deg_low: -15, spray_angle_deg_high: 15 };
    const svg = sprayChart(swings, { document, field, target });
    expect(svg.querySelector('[aria-description="target"]')).not.toBeNull();
    expect(description(svg)).toContain("The target is spray −15 to 15°.");
    const open = { spray_angle_deg_low: null, spray_angle_deg_high: null };
    expect(
      sprayChart(swings, { document, field, target: open }).querySelector('[aria-description="target"]'),
    ).toBeNull();
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
      expect(words).toContain(`${Math.round(lane.share! * 100)}`);
      expect(words).toContain(`${lane.count} of ${lane.n}`);
      expect(words).toContain(`(${Math.round(lane.low! * 100)}–${Math.round(lane.high! * 100)})`);
    }
    expect(words.filter((text) => text === "of 100")).toHaveLength(5);
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
    const boxes = ["share of the lane", "of 100", "count", "interval"].map((name) =>
      [...svg.querySelectorAll(`[aria-description="${name}"] text`)].map((e) => {
        const [x, y] = at(e);
        const size = Number(e.closest("[font-size]")!.getAttribute("font-size"));
        const wide = textWidth(e.textContent!, size, e.closest("[font-weight]") !== null);
        const left = e.closest('[text-anchor="start"]:not(svg)') ? x : x - wide / 2;
        return { left, right: left + wide, top: y - size / 2, bottom: y + size / 2 };
      }),
    );
    // Where there is room the count and its interval share a line.
    expect(boxes.map((line) => line.length)).toEqual([5, 5, 5, width < 480 ? 5 : 0]);
    const balls = onMark(svg, "swings");
    expect(balls).toHaveLength(far.length);
    for (const ball of balls)
      for (const box of boxes.flat()) expect(touches(markBox(at(ball), 4), box)).toBe(false);
    // Nor do the words of two lanes touch one another, or the edge.
    for (const [i, a] of boxes.flat().entries()) {
      expect(a.left).toBeGreaterThan(-1);
      expect(a.right).toBeLessThan(width + 1);
      expect(a.top).toBeGreaterThan(0);
      for (const [j, b] of boxes.flat().entries())
        if (i < j && i % 5 !== j % 5) expect(touches(a, b)).toBe(false);
    }
  });

  it("draws the base paths as long as the field has them", () => {
    const svg = sprayChart(swings, { document: newDocument(), field, width: 720 });
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

  it("has one bar a swing in the order given: power kept as height, the bucket as colour, well hit as filled", () => {
    const svg = bucketStrip(swings, { document, width: 720 });
    const bars = onMark(svg, "swings");
    expect(bars.map((b) => b.textContent?.split(": ")[0])).toEqual([
      ...Array.from({ length: 30 }, (_, i) => `${i + 1}`),
      ...Array.from({ length: 10 }, (_, i) => `${i + 1}`),
      ...Array.from({ length: 10 }, (_, i) => `${i + 1}`),
      ...Array.from({ length: 14 }, (_, i) => `${i + 1}`),
    ]);
    const colours = new Map<string, Set<string>>();
    bars.forEach((bar, i) => {
      const { bucket, power_kept: power } = swings[i]!;
      colours.set(bucket!, (colours.get(bucket!) ?? new Set()).add(bar.getAttribute("stroke")!));
      // 40 px stand for 1.06 of the ceiling, less half a pixel at either end.
      expect(Number(bar.getAttribute("height"))).toBeCloseTo((40 * power!) / 1.06 - 1, 1);
      const well = bucket === "clean" || bucket === "flush";
      expect(bar.getAttribute("fill") === paper).toBe(!well);
    });
    expect([...colours.values()].map((set) => set.size)).toEqual(Array(colours.size).fill(1));
    expect(new Set([...colours.values()].flatMap((set) => [...set])).size).toBe(colours.size);
  });

  it("gives a miss and a foul a foot on the line, and a ball without a bucket a dot", () => {
    const unrated = { ...swings[0]!, bucket: null, power_kept: null };
    const svg = bucketStrip([...swings.slice(0, 3), ...oddities.slice(2), unrated], { document });
    expect(onMark(svg, "swings")).toHaveLength(3);
    const feet = onMark(svg, "missed or foul");
    expect(feet.map((f) => f.getAttribute("fill") === paper)).toEqual([true, false]);
    expect(onMark(svg, "no bucket")).toHaveLength(1);
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
