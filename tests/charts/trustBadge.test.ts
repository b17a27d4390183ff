import { describe, expect, it } from "vitest";
import { badgeWords, trustBadge, type BadgeTrust } from "../../src/charts/trustBadge.ts";
import { verdictCodes } from "../../src/charts/theme.ts";
import { textWidth } from "../../src/charts/text.ts";
import { newDocument } from "./node.ts";

const trust: BadgeTrust = {
  session: "May <2>",
  verdict: "hold back",
  compared: true,
  turnedBack: false,
  reasons: ["The tracker looks turned 3.0°."],
};
const drawn = (changes: Partial<BadgeTrust> = {}): SVGSVGElement =>
  trustBadge({ ...trust, ...changes }, { document: newDocument() });

describe("the badge", () => {
  it("is an image with the verdict as title and the reasons as description", () => {
    const svg = drawn();
    expect(svg.getAttribute("role")).toBe("img");
    expect(svg.querySelector("title")!.textContent).toBe("Trust in May <2>: hold back");
    expect(svg.querySelector("desc")!.textContent).toBe("The tracker looks turned 3.0°.");
    expect(drawn({ reasons: [] }).querySelector("desc")!.textContent).toMatch(/nothing against/);
    expect(svg.outerHTML).toContain("May &lt;2&gt;");
  });

  it("shows the word in sight, in letters of 12 px, and is wide enough for them", () => {
    const svg = drawn({ compared: false, turnedBack: true });
    const text = svg.querySelector("text")!;
    expect(text.textContent).toBe("hold back, not compared, corrected");
    expect(Number(text.getAttribute("font-size"))).toBe(12);
    expect(Number(svg.getAttribute("width"))).toBeGreaterThan(
      25 + textWidth(badgeWords({ verdict: "hold back", compared: false, turnedBack: true })),
    );
  });

  it("tells verdicts apart by shape as well as colour", () => {
    const verdicts = Object.keys(verdictCodes) as BadgeTrust["verdict"][];
    const paths = verdicts.map((verdict) => drawn({ verdict }).querySelector("path")!);
    expect(new Set(paths.map((p) => p.getAttribute("d"))).size).toBe(3);
    expect(new Set(paths.map((p) => p.getAttribute("fill"))).size).toBe(3);
    expect(verdicts).toHaveLength(3);
  });

  it("draws the same every time, without a document says so", () => {
    expect(drawn().outerHTML).toBe(drawn().outerHTML);
    expect(() => trustBadge(trust)).toThrow("a chart needs a document");
  });
});
