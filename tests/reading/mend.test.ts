import { describe, expect, it } from "vitest";
import { mended, rowLine } from "../../src/reading/mend.ts";
import { swingsFrom } from "./support.ts";

async function mend(text: string, fixes: Record<number, string>, pieceSize = text.length): Promise<string> {
  const pieces: string[] = [];
  for (let at = 0; at < text.length; at += pieceSize) pieces.push(text.slice(at, at + pieceSize));
  let out = "";
  const map = new Map(Object.entries(fixes).map(([row, line]) => [Number(row), line]));
  for await (const piece of mended(pieces, ",", map)) out += piece;
  return out;
}

describe("a row put right", () => {
  const text =
    'hitter,input,exit_velocity_mph,launch_angle_deg,note\r\nAna,tee,90,10,a\r\n\r\nBo,cage,80,5,"two\nlines"\r\nCy,live,"91,2,x\r\nDi,flip,70,4,"""q"""';

  it("is the row whose number reading gives, and no other changes", async () => {
    const { refused } = await swingsFrom(text);
    expect(refused.map(({ row }) => row)).toEqual([4, 5]);
    for (const size of [1, 7, text.length]) {
      const now = await mend(text, { 4: "Bo,tee,80,5,x", 5: "Cy,live,91.2,2,x" }, size);
      expect(now).toBe(
        'hitter,input,exit_velocity_mph,launch_angle_deg,note\nAna,tee,90,10,a\n\nBo,tee,80,5,x\nCy,live,91.2,2,x\nDi,flip,70,4,"""q"""\n',
      );
    }
    const { rows, refused: left } = await swingsFrom(await mend(text, { 4: "Bo,tee,80,5,x" }));
    expect(rows.map(({ hitter }) => hitter)).toEqual(["Ana", "Bo", "Di"]);
    expect(left.map(({ row }) => row)).toEqual([5]);
  });

  it("reads back as the cells it was made of", async () => {
    const cells = ['-Ana, the "B"', "tee", "90.5", "-3", " x"];
    const head = "hitter,input,exit_velocity_mph,launch_angle_deg,note\n";
    const { rows } = await swingsFrom(await mend(`${head}a,b,c,d,e\n`, { 2: rowLine(cells, ",") }));
    expect(rows[0]).toMatchObject({
      hitter: cells[0],
      exit_velocity_mph: 90.5,
      launch_angle_deg: -3,
      note: "x",
    });
  });
});
