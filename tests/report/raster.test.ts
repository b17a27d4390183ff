import { describe, expect, it } from "vitest";
import { chartKind, standAlone } from "../../src/charts/standalone.ts";
import { fontFamily, serifFamily } from "../../src/charts/theme.ts";
import { pngOf } from "../../src/report/raster.ts";

const text = (family: string, weight = "normal", words = "Hamburg 123"): string =>
  `<svg xmlns="http://www.w3.org/2000/svg" width="200" height="40"><text x="5" y="25" font-size="16" font-weight="${weight}" font-family="${family}">${words}</text></svg>`;
const drawn = async (svg: string): Promise<string> =>
  Buffer.from(await pngOf(standAlone(svg))).toString("base64");

describe("a chart as a picture", { timeout: 60_000 }, () => {
  it("is a PNG, twice as large as the drawing", async () => {
    const png = Buffer.from(await pngOf(standAlone(text(fontFamily))));
    expect(png.subarray(0, 8)).toEqual(Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]));
    expect([png.readUInt32BE(16), png.readUInt32BE(20)]).toEqual([400, 80]);
  });

  it("has the theme's own letters: the serif's, the others, those in bold, and letters beyond English", async () => {
    const pictures = await Promise.all([
      drawn(text(serifFamily, "500")),
      drawn(text(fontFamily)),
      drawn(text(fontFamily, "bold")),
      drawn(text(fontFamily, "normal", "")),
      drawn(text(fontFamily, "normal", "Żaneta Łoś")),
      // None of ours has these: nothing is drawn for them, whatever the machine has.
      drawn(text(fontFamily, "normal", "野球")),
    ]);
    expect(new Set(pictures.slice(0, 5)).size).toBe(5);
    // A family that is not there is drawn in the one for everything.
    expect(await drawn(text("No Such Letters"))).toBe(pictures[1]);
    expect(await drawn(text(fontFamily))).toBe(pictures[1]);
  });
});

describe("a chart that stands alone", () => {
  it("knows no custom property, in light and in dark", () => {
    const chart =
      '<svg class="batted-zone-map" style="color:var(--ink, #1f1b16)"><g fill="var(--paper)" font-family="var(--serif)"/></svg>';
    expect(standAlone(chart)).toContain('style="color:#1f1b16"');
    expect(standAlone(chart)).toContain('fill="#faf7ef" font-family="Newsreader,');
    expect(standAlone(chart, "dark")).toContain('fill="#171512"');
    expect(standAlone(chart, "dark")).not.toContain("var(");
    expect(chartKind(chart)).toBe("zone-map");
  });
});
