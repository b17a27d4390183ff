/** The report: what it says, that it holds nothing but itself, and that no name can change what it is. */
import { JSDOM, VirtualConsole } from "jsdom";
import { describe, expect, it } from "vitest";
import { estimateFigure } from "../../src/report/figures.ts";
import { fontFaces } from "../../src/report/fonts.ts";
import { indexPage, reportPage, reportsTogether } from "../../src/report/page.ts";
import { sourceOf } from "./source.ts";

const { document } = new JSDOM("").window;
const options = { document, version: "9.8.7", letters: fontFaces() };
// Its parser of style sheets knows no margin boxes of printed pages, and says so at length.
const parse = (text: string): Document =>
  new JSDOM(text, { virtualConsole: new VirtualConsole() }).window.document;
const words = (text: string): string => parse(text).body.textContent!.replace(/\s+/g, " ");

describe("a report", () => {
  const page = reportPage(sourceOf("Robin Test"), options);
  const said = words(page);

  it("says who, when, how many of each input, and the air", () => {
    expect(said).toContain("Drill report: Robin Test");
    expect(said).toContain("2024-05-06 to 2024-05-10, 2 sessions; bats right, under 16.");
    expect(said).toContain("144 rows: tee 48, flip 48, live 48; 134 balls in play.");
    expect(said).toContain(
      "Air: 1.194 kg/m³, 70 °F, no wind. The sessions gave none: the default air, an assumption.",
    );
  });

  it("counts one of a thing as one", () => {
    const whole = sourceOf("Robin Test");
    const one = { ...whole, rows: whole.rows.slice(0, 1), sessions: whole.sessions.slice(0, 1) };
    const alone = words(reportPage(one, options));
    expect(alone).toContain("1 row: tee 1; 1 ball in play.");
    expect(alone).toContain("1 of 1 swing");
    expect(alone).not.toMatch(/\b1 (?:rows|balls|swings|sessions)\b/);
  });

  it("writes no sign before a slope of nothing", () => {
    const slope = { n: 30, low: -0.2, high: 0.3, reason: null };
    const written = (value: number): string =>
      estimateFigure({ ...slope, value }, "mph", "us", { digits: 1, signed: true }).text;
    expect(written(0.04)).toMatch(/^0\.0 mph /);
    expect(written(-0.04)).toMatch(/^0\.0 mph /);
    expect(written(0.16)).toMatch(/^\+0\.2 mph /);
  });

  it("has every part", () => {
    const headings = [...parse(page).querySelectorAll("h1, h2, h3")].map((h) => h.textContent);
    expect(headings).toEqual([
      "Drill report: Robin Test",
      "In short",
      "Drill targets",
      "Off the tee",
      "Off flips",
      "Live",
      "Since the session before",
      "Before anyone swings",
      "Trust, session by session",
    ]);
    const charts = [...parse(page).querySelectorAll("figure svg, .views svg")].map(
      (s) => s.querySelector("title")?.textContent,
    );
    // Two of them are drawn twice, for a desk and for a phone.
    expect(charts).toHaveLength(9);
    expect(new Set(charts).size).toBe(7);
    for (const title of charts) expect(title).toBeTruthy();
  });

  it("answers first: a sentence with its figure, three figures with their intervals, one picture, what next", () => {
    const first = parse(page).querySelector("main > .first")!;
    expect(first.previousElementSibling!.tagName).toBe("HEADER");
    const plain = (e: Element): string => e.textContent!.replace(/\s+/g, " ").trim();
    // Launch angles run through 13·i mod 40 − 8: of 48 swings so many lie from 5 to 25.
    const met =
      2 * Array.from({ length: 24 }, (_, i) => ((i * 13) % 40) - 8).filter((a) => a >= 5 && a <= 25).length;
    expect(plain(first.querySelector(".answer")!)).toBe(
      `Robin Test met the target of “tee drill” on ${met} of 48 swings.`,
    );
    expect(plain(first.querySelector(".answer em")!)).toBe(`${met} of 48`);
    const tiles = [...first.querySelectorAll(".tile")].map(plain);
    expect(tiles).toHaveLength(3);
    expect(tiles[0]).toMatch(new RegExp(`^${met} of 48 target met, tee drill ?\\d+ to \\d+%$`));
    expect(tiles[1]).toMatch(/^\d+ of 38 clean or flush, live ?\d+ to \d+%$/);
    expect(tiles[2]).toMatch(
      /^\d+ mph exit velocity, live ?\d+ to \d+ · n 38 · slowest \d+, fastest \d+ mph$/,
    );
    expect(first.querySelectorAll(".tile .iv .range")).toHaveLength(3);
    expect(plain(first.querySelector(".next")!)).not.toBe("");
    expect(first.querySelector("figure.pic svg desc")!.textContent).toContain("134 landing points");
  });

  it("draws the target's window on the contact map, of that drill's balls alone", () => {
    const map = [...parse(page).querySelectorAll("figure svg")].find((s) =>
      s.querySelector("title")!.textContent!.includes("in the window"),
    )!;
    expect(map.querySelector('[aria-description="target"]')).not.toBeNull();
    expect(map.querySelector("desc")!.textContent).toContain("The target is launch angle 5 to 25°.");
    expect(map.querySelectorAll('[aria-description="swings"] > *')).toHaveLength(48);
    expect(map.textContent).toContain("86 of other work are not here");
  });

  it("says instead of drawing a field where no ball has a direction", () => {
    const source = sourceOf("Robin Test");
    const rows = source.rows.map((row) => ({ ...row, bearing_deg: null, lane: null }));
    const bare = reportPage({ ...source, rows }, options);
    expect(words(bare)).toContain("No field is drawn: none of 134 swings has a direction and a carry.");
    expect(parse(bare).querySelector('[aria-description="fence"]')).toBeNull();
    expect(parse(page).querySelector('[aria-description="fence"]')).not.toBeNull();
  });

  it("has the hitter's name at the head of every printed page, whatever it holds", () => {
    const head = (name: string): string =>
      /@top-left \{ content: (.*?); font/.exec(reportPage(sourceOf(name, undefined, 2), options))![1]!;
    expect(head("Robin Test")).toBe(String.raw`"Drill report\3a  Robin Test"`);
    expect(head(`a"}</style><b>`)).toBe(String.raw`"Drill report\3a  a\22 \7d \3c \2f style\3e \3c b\3e "`);
  });

  it("carries its letters, its colours in light and in the dark, and white paper in print", () => {
    const style = parse(page).querySelector("style")!.textContent!;
    expect(style.match(/@font-face/g)).toHaveLength(2);
    expect(style).toMatch(/prefers-color-scheme: dark/);
    expect(style).toMatch(/@media print \{ :root \{ --paper: #ffffff/);
  });

  it("draws no chart of places where none was measured, and says so once", () => {
    const source = sourceOf("Robin Test");
    const rows = source.rows.map((row) => ({
      ...row,
      contact_side_ft: null,
      contact_height_ft: null,
      contact_depth_ft: null,
    }));
    const bare = reportPage({ ...source, rows }, options);
    expect(parse(bare).querySelectorAll("figure svg, .views svg")).toHaveLength(6);
    expect(words(bare)).toContain("No contact point was measured: there is no map of the zone.");
    expect(words(bare)).toContain("48 in play without a measured place.");
    expect(words(bare)).not.toMatch(/not measured \(n 0\)|no swings to draw|farther out front/);
    expect(words(page)).toContain("1 ft farther out front");
  });

  it("gives the drill's target, its attempts, its interval and the longest run", () => {
    const row = [...parse(page).querySelectorAll("tbody tr")].find((r) =>
      r.textContent!.includes("tee drill"),
    )!;
    const cells = [...row.children].map((c) => c.textContent!.replace(/\s+/g, " ").trim());
    // Launch angles run through 13·i mod 40 − 8; of 24 swings a day 12 lie from 5 to 25.
    const met = Array.from({ length: 24 }, (_, i) => ((i * 13) % 40) - 8).filter(
      (a) => a >= 5 && a <= 25,
    ).length;
    expect(cells[1]).toBe("launch angle 5 to 25°");
    expect(cells[2]).toMatch(new RegExp(`^${2 * met} of 48 \\d+ to \\d+%$`));
    expect(Number(cells[3])).toBeGreaterThan(0);
  });

  it("tells the contact of live work, pitch type by pitch type", () => {
    const tables = [...parse(page).querySelectorAll(".views table")].filter(
      (t) => t.querySelector("th")!.textContent === "Contact",
    );
    expect(tables).toHaveLength(1);
    const read = [...tables[0]!.querySelectorAll("tr")].map((r) =>
      [...r.children].map((c) => c.textContent!.replace(/\s+/g, " ").trim()),
    );
    expect(read[0]).toEqual(["Contact", "mishit", "partial", "clean", "flush"]);
    // Of 48 live pitches each fifth is missed: 38 balls in play, each in one bucket.
    const counts = read
      .slice(1)
      .map((cells) => cells.slice(1).map((c) => /^(\d+) of (\d+) \d+ to \d+%$/.exec(c)!));
    expect(
      read
        .slice(1)
        .map(([name]) => name)
        .sort(),
    ).toEqual(["curve", "fastball"]);
    for (const row of counts) expect(row.reduce((sum, [, n]) => sum + Number(n), 0)).toBe(Number(row[0]![2]));
    expect(counts.reduce((sum, [first]) => sum + Number(first![2]), 0)).toBe(38);
  });

  it("calls nothing a change where days can't be counted, and says by how much these swings differ", () => {
    const rows = [...parse(page).querySelectorAll("section table.stack tbody tr")];
    const velocity = rows.find((r) => r.children[0]!.textContent === "Exit velocity, mean")!;
    const [tee, flip] = [...velocity.children].slice(1).map((c) => c.textContent!.replace(/\s+/g, " "));
    expect(tee).toMatch(/^\+\d\.\d mph \(\d\.\d to \d\.\d\), days not counted n 24, 24$/);
    expect(flip).toMatch(/^[+−]?\d\.\d mph \(−\d\.\d to \d\.\d\), days not counted n 24, 24$/);
    expect(velocity.querySelectorAll(".clear")).toHaveLength(0);
  });

  it("carries cautions, hashes, version and constants", () => {
    for (const part of ["nothing here is medical advice", "screen", "pain", "facility", "Swings add up"])
      expect(said).toContain(part);
    expect(said).toContain("0123456789abcdef");
    expect(said).toContain("batted-ball-notebooks 9.8.7");
    expect(said).toContain("2 rows were refused");
    expect(said).toContain("g 9.80665 m/s²");
    expect(said).toContain("flush power kept 0.92");
    expect(said).not.toMatch(/NaN|undefined|Infinity|\[object/);
  });

  it("follows the session asked for and the reader's units", () => {
    const monday = words(
      reportPage(sourceOf("Robin Test"), { ...options, session: "monday", system: "metric" }),
    );
    expect(monday).toContain("2024-05-06, session monday");
    expect(monday).toContain("There is no earlier session of the same work");
    expect(monday).toContain("km/h");
    // Thresholds go by their own names.
    expect(monday.replace(/All in use: .*/, "")).not.toMatch(/\bmph\b|\d ft\b|°F/);
    // What was assumed of the air, too: the monday's session gave its altitude alone.
    const source = sourceOf("Robin Test");
    const sessions = source.sessions.map((s) => ({ ...s, altitude_ft: 5280 }));
    const high = (system: "us" | "metric") =>
      words(reportPage({ ...source, sessions }, { ...options, system }));
    expect(high("metric")).toContain("Assumed where a session was silent: 21 °C; the standard atmosphere");
    expect(high("metric")).not.toMatch(/°F/);
    expect(high("us")).toContain("Assumed where a session was silent: 70 °F; the standard atmosphere");
  });

  it("says little of nothing", () => {
    const none = words(reportPage({ ...sourceOf("Robin Test"), rows: [] }, options));
    expect(none).toContain("There are no swings to say anything about.");
    expect(none).not.toMatch(/NaN|undefined|Infinity/);
  });
});

describe("whatever names hold", () => {
  const hostile = [
    `<script>alert(1)</script>`,
    `<img src=x onerror=alert(1)>`,
    `"><svg onload=alert(1)>`,
    `' onmouseover='alert(1)`,
    `</style><script>alert(1)</script>`,
    `</title><iframe src=https://example.org>`,
    `--><b>x</b><!--`,
    `&lt;script&gt;`,
    `\u202egnp.exe\u0000\u0008`,
    `{{x}} \${y} javascript:alert(1)`,
  ];
  const plain = parse(reportPage(sourceOf("Robin Test", undefined, 6), options));
  const known = new Set([...plain.querySelectorAll("*")].map((e) => e.tagName));

  it.each(hostile)("%j stays text", (text) => {
    const page = reportPage(
      sourceOf(text, (name) => `${text}${name}`, 6),
      options,
    );
    const read = parse(page);
    expect(
      read.querySelectorAll("script, iframe, object, embed, link, img, b:not(p b), form, base"),
    ).toHaveLength(0);
    for (const element of read.querySelectorAll("*")) {
      expect([...known], element.outerHTML.slice(0, 80)).toContain(element.tagName);
      for (const { name, value } of element.attributes) {
        expect(name).not.toMatch(/^on|^srcdoc$|^formaction$/i);
        if (/^(href|src|xlink:href)$/i.test(name)) expect(value).toMatch(/^#/);
      }
    }
    expect(read.querySelector("h1")!.textContent).toBe(
      `Drill report: ${text.replace(/[\u0000\u0008]/g, "\ufffd")}`,
    );
    // A chart's own words take as many lines as a name needs; all else is the same.
    const elements = "*:not(svg text)";
    expect(read.querySelectorAll(elements)).toHaveLength(plain.querySelectorAll(elements).length);
  });

  it("the list of reports holds", () => {
    const list = parse(
      indexPage(hostile.map((hitter, i) => ({ hitter, file: `report-${i}.html`, swings: 1, latest: null }))),
    );
    expect(list.querySelectorAll("a")).toHaveLength(hostile.length);
    expect(list.querySelectorAll("script, img, iframe, svg, b")).toHaveLength(0);
    expect([...list.querySelectorAll("a")].map((a) => a.getAttribute("href"))).toEqual(
      hostile.map((_, i) => `report-${i}.html`),
    );
  });
});

it("asks for nothing and lets nothing run", () => {
  const read = parse(reportPage(sourceOf("Robin Test"), options));
  const policy = read.querySelector('meta[http-equiv="Content-Security-Policy"]')!.getAttribute("content");
  expect(policy).toBe("default-src 'none'; style-src 'unsafe-inline'; font-src data:; img-src data:");
  const text = read.documentElement.outerHTML;
  expect(
    text.replaceAll("http://www.w3.org/2000/svg", "").replaceAll("http://www.w3.org/1999/xlink", ""),
  ).not.toMatch(/https?:\/\/|url\((?!#|data:font\/woff2;base64,)|@import/);
});

describe("a report's size", () => {
  const source = sourceOf("Robin Test");
  const made = (more: object): Document => parse(reportPage(source, { ...options, ...more }));
  const charts = (page: Document): number => page.querySelectorAll("svg[role=img]:not(.badge svg)").length;

  it("is a sentence with its interval and a picture, a page, or everything; cautions and the foot stand on each", () => {
    const [sentence, page, everything] = (["sentence", "page", "everything"] as const).map((size) =>
      made({ size }),
    );
    for (const one of [sentence!, page!, everything!]) {
      expect(one.querySelector(".care")!.textContent).toContain("Stop at pain");
      expect(one.querySelector("footer")!.textContent).toContain("batted-ball-notebooks 9.8.7");
    }
    expect(sentence!.querySelectorAll(".tile, .strip, .next, table")).toHaveLength(0);
    expect(sentence!.querySelector(".first .sub")!.textContent).toMatch(/^95% interval \d+ to \d+%, n 48\.$/);
    // The picture is drawn for a desk and for a phone.
    expect(charts(sentence!)).toBe(2);
    expect(page!.querySelectorAll(".tile")).toHaveLength(3);
    expect(page!.querySelectorAll(".views, .trusted")).toHaveLength(0);
    expect(charts(page!)).toBeGreaterThan(charts(sentence!));
    expect(charts(everything!)).toBeGreaterThan(charts(page!));
  });

  it("carries the facility, its colour and the coach's note, and no text of theirs becomes more than text", () => {
    const bad = `</style><script>1</script>"; } body { display: none }`;
    const text = reportPage(source, { ...options, size: "page", facility: bad, color: "#1F5F8B", note: bad });
    const page = parse(text);
    expect(page.querySelector("header .house")!.textContent).toBe(bad);
    expect(page.querySelector(".coach span")!.textContent).toBe(bad);
    expect(page.querySelectorAll("script")).toHaveLength(0);
    expect(page.head.querySelectorAll("style")).toHaveLength(1);
    expect(text).toContain("border-top: 6px solid #1f5f8b");
    // What is no colour is left out of the style sheet.
    const odd = parse(reportPage(source, { ...options, color: "red; } body { display: none" }));
    expect(odd.head.textContent!.includes("body { display: none")).toBe(false);
  });

  it("is of a span's days alone, and compared with nothing that came after", () => {
    const page = made({ until: "2024-05-06" });
    expect(page.querySelector("header p")!.textContent).toContain("2024-05-06, 1 session");
    expect(page.body.textContent).toContain("72 rows");
    expect(page.querySelector(".first .sub")).toBeNull();
    expect(made({ since: "2024-05-10" }).querySelector(".first .sub")!.textContent).toContain("since");
  });

  it("comes with others in one document, each under its own name at the head of its printed pages", () => {
    const text = reportsTogether([
      [source, { ...options, facility: "North" }],
      [sourceOf("Ada; }"), options],
    ]);
    expect(parse(text).querySelectorAll(".sheet > main")).toHaveLength(2);
    expect(text).toContain(
      '@page sheet-1 { @top-left { content: "Drill report\\3a  Robin Test \\b7  North"; }',
    );
    expect(text).toContain('@page sheet-2 { @top-left { content: "Drill report\\3a  Ada\\3b  \\7d "; }');
  });
});
