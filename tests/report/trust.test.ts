/** Trust in a report: every session with its badge and reasons, and a session corrected marked wherever it is used. */
import { JSDOM, VirtualConsole } from "jsdom";
import { describe, expect, it } from "vitest";
import { enrich } from "../../src/contact/enrich.ts";
import { defaultThresholds } from "../../src/contact/thresholds.ts";
import { reportPage } from "../../src/report/page.ts";
import { turnedNote } from "../../src/report/trust.ts";
import { openLibrary } from "../../src/library/library.ts";
import { trustBySession } from "../../src/setup/trust.ts";
import { sourceOf } from "./source.ts";

const { document } = new JSDOM("").window;
const options = { document, version: "1.2.3" };
const parse = (text: string): Document =>
  new JSDOM(text, { virtualConsole: new VirtualConsole() }).window.document;
const said = (element: Element): string => element.textContent!.replace(/\s+/g, " ").trim();

/** The source with the friday's readings corrected by 3°. */
function turnedSource(): ReturnType<typeof sourceOf> {
  const plain = sourceOf("Robin Test");
  const sessions = plain.sessions.map((s) =>
    s.session === "friday"
      ? {
          ...s,
          // Places of contact turn about the tracker: without its distance they would be unknown.
          tracker_distance_ft: 16.4,
          turned_back_yaw_deg: 3,
          turned_back_why: "the tracker was knocked",
        }
      : s,
  );
  return { ...plain, sessions, rows: enrich({ swings: plain.rows, sessions, hitters: [] }) };
}

describe("a report of a session that is corrected", () => {
  const page = parse(reportPage(turnedSource(), options));

  it("says so at its head and gives the amount and the reason in its foot", () => {
    // Of 72 rows that day five are misses, without a reading to turn.
    expect(said(page.querySelector("header")!)).toContain("67 of 144 rows corrected, as sessions.csv says.");
    expect(said(page.querySelector(".trusted")!)).toMatch(
      /friday: .*corrected by yaw 3°, as sessions.csv says \(the tracker was knocked\)/,
    );
  });

  it("marks every chart that draws its angles or places, each view, the targets and the change", () => {
    const unmarked = [...page.querySelectorAll("figure svg, .views svg")]
      .filter((svg) => !said(svg).includes("corrected"))
      .map((svg) => svg.querySelector("title")!.textContent);
    // What came of each kind of pitch is counted: no angle and no place is in it.
    expect(unmarked).toEqual(["What came of each pitch"]);
    for (const view of page.querySelectorAll(".views > section"))
      expect(said(view)).toMatch(/(24|19) of 48 rows corrected/);
    const sections = [...page.querySelectorAll("section")].map(said);
    expect(sections.find((s) => s.startsWith("Drill targets"))).toContain("24 of 48 rows corrected");
    expect(sections.find((s) => s.startsWith("Since the session before"))).toContain(
      "2024-05-10 (corrected)",
    );
  });

  it("has no such mark where nothing is corrected", () => {
    expect(reportPage(sourceOf("Robin Test"), options)).not.toContain("corrected");
    expect(turnedNote([])).toBeNull();
  });
});

describe("trust in the demo's reports", () => {
  it("names each session once, with its verdict, and why", async () => {
    const library = await openLibrary("data/demo");
    const all = enrich(library);
    const trust = trustBySession(all, library.sessions);
    const rows = all.filter((r) => r.hitter === "Ada K.");
    const source = { ...library, hitter: "Ada K.", listed: null, rows, trust, thresholds: defaultThresholds };
    const page = parse(reportPage(source, options));
    const listed = [...page.querySelectorAll(".trusted li bdi")].map((b) => b.textContent!);
    expect(listed.toSorted()).toEqual([...new Set(rows.map((r) => r.session!))].toSorted());
    expect(listed.length).toBeGreaterThan(10);
    for (const item of page.querySelectorAll(".trusted li:has(bdi)"))
      for (const name of item.querySelectorAll("bdi"))
        expect(said(item.querySelector("svg text")!)).toMatch(
          new RegExp(`^${trust.get(name.textContent!)!.verdict}`),
        );
    expect(said(page.querySelector("header .trust")!)).toMatch(
      /hold back 2025-03-25 open tee; .*look again 2025-04-05 clinic;/,
    );
    expect(said(page.querySelector(".trusted")!)).toContain("The tracker looks turned 3.0°");
  });
});
