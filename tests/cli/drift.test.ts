import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import type { Drift } from "../../src/setup/drift.ts";
import truths from "../../data/demo/truths.json" with { type: "json" };
import { run } from "./run.ts";

const dir = mkdtempSync(join(tmpdir(), "batted-drift-"));
afterAll(() => rmSync(dir, { recursive: true, force: true }));
const demo = (name: string): string => readFileSync(`data/demo/${name}`, "utf8");

describe("batted drift", () => {
  it("names the demo's two moved sessions and no other, and ends with 1 as one is held back", async () => {
    const { status, out } = await run("drift", "--library", "data/demo");
    expect(status).toBe(1);
    const rows = out
      .split("\n")
      .filter((line) => /^2025.*(sound|look again|hold back|not judged)$/.test(line));
    expect(rows).toHaveLength(13);
    expect(rows.filter((r) => !r.endsWith("sound")).map((r) => r.slice(0, 18).trim())).toEqual([
      truths.turned.session.slice(0, 18),
      truths.tilted.session.slice(0, 18),
    ]);
    expect(out).toMatch(/looks turned 3\.\d° toward right field/);
    expect(out).toMatch(/9 readings in doubt were left out/);
  });

  it("is the same as JSON", async () => {
    const { out } = await run("drift", "--json");
    const found = JSON.parse(out) as Drift & { left_out: number };
    expect(found.sessions).toHaveLength(13);
    expect(found.left_out).toBeGreaterThan(5);
  });

  it("compares a session as it is corrected, and ends with 0", async () => {
    const [head, ...lines] = demo("sessions.csv").trim().split("\n");
    const columns = head!.split(",");
    const turned = lines.map((line) => {
      const cells = line.split(",");
      if (cells[0] === truths.turned.session) cells[columns.indexOf("turned_back_yaw_deg")] = "3";
      return cells.join(",");
    });
    const sessions = join(dir, "sessions.csv");
    writeFileSync(sessions, [head, ...turned].join("\n") + "\n");
    const { out } = await run("drift", "data/demo/swings.csv", "--sessions", sessions, "--json");
    const { sessions: judged } = JSON.parse(out) as Drift;
    expect(judged.find((s) => s.session === truths.turned.session)!.verdict).toBe("sound");
    expect(judged.filter((s) => s.verdict === "hold back")).toEqual([]);
  });

  it("with one hitter, or one session, says what can't be told, and ends with 0", async () => {
    const [head, ...lines] = demo("swings.csv").trim().split("\n");
    const write = (name: string, keep: (line: string) => boolean): string => {
      const file = join(dir, name);
      writeFileSync(file, [head, ...lines.filter(keep)].join("\n") + "\n");
      return file;
    };
    const one = await run(
      "drift",
      write("one.csv", (l) => l.includes(",Eve S.,") && !l.includes("err")),
    );
    expect(one.out).toMatch(/^One hitter alone took tee or flip swings/);
    expect(one.out).toMatch(/not judged/);
    const session = await run(
      "drift",
      write("day.csv", (l) => l.includes(",2025-04-08 tee,")),
    );
    expect(session.out).toMatch(/^There is one session with tee or flip work/);
    expect(session.status).toBe(0);
  });

  it("shows a hitter's sessions and own changes alone, compared with everybody's", async () => {
    const all = JSON.parse((await run("drift", "--json")).out) as Drift;
    const { out, status } = await run("drift", "--json", "--hitter", "cal r");
    const own = JSON.parse(out) as Drift;
    const his = all.sessions.filter(({ hitters }) => hitters.includes("Cal R."));
    expect(his.length).toBeGreaterThan(2);
    expect(his.length).toBeLessThan(all.sessions.length);
    expect(own.sessions).toEqual(his);
    expect(own.changes).toEqual(all.changes.filter(({ hitter }) => hitter === "Cal R."));
    // None of these is held back.
    expect(status).toBe(0);
    const days = await run("drift", "--hitter", "Cal R.", "--since", "2025-04-01", "--json");
    expect((JSON.parse(days.out) as Drift).sessions).toEqual(his.filter(({ date }) => date! >= "2025-04-01"));
    const nobody = await run("drift", "--hitter", "Nobody");
    expect([nobody.status, nobody.out]).toEqual([2, ""]);
    expect(nobody.err).toMatch(/no hitter named "Nobody"/);
    const none = await run("drift", "--hitter", "Cal R.", "--since", "2030-01-01");
    expect([none.status, none.err]).toEqual([2, expect.stringMatching(/Cal R\. has no swings/)]);
    const live = await run("drift", "--hitter", "Cal R.", "--since", "2025-04-12");
    expect([live.status, live.out]).toEqual([0, expect.stringMatching(/^No session of tee or flip work/)]);
  });

  it("gives its reasons in the units chosen, as JSON too", async () => {
    const [head, ...lines] = demo("swings.csv").trim().split("\n");
    const [session, speed] = ["session", "exit_velocity_mph"].map((name) => head!.split(",").indexOf(name));
    const faster = lines.map((line) => {
      // A drill's name has a comma, inside quotation marks.
      const cells = line.split(/,(?=(?:[^"]*"[^"]*")*[^"]*$)/);
      const isFast = cells[session!] === "2025-03-18 tee" && Number(cells[speed!]) > 0;
      if (isFast) cells[speed!] = String(Number(cells[speed!]) + 9);
      return cells.join(",");
    });
    const file = join(dir, "faster.csv");
    writeFileSync(file, [head, ...faster].join("\n") + "\n");
    const reasons = async (...more: string[]): Promise<string> => {
      const { out } = await run("drift", file, "--sessions", "data/demo/sessions.csv", "--json", ...more);
      return (JSON.parse(out) as Drift).sessions.flatMap((one) => one.reasons).join(" ");
    };
    expect(await reasons()).toMatch(/\d mph/);
    const metric = await reasons("--units", "metric");
    expect(metric).toMatch(/\d km\/h/);
    expect(metric).not.toMatch(/\bmph\b/);
  });
});
