/** How often the intervals cover the truth, where it is known. */
import { describe, expect, it } from "vitest";
import published from "../../data/gap-coverage.json" with { type: "json" };
import { asked, coverageNotes, outside } from "../../notebooks/components/coverageSay.ts";
import { coverage, judged, otherSettings, otherTeams, settings, team } from "../../src/gap/simulate.ts";

/** What the share of 95 % varies by among so many hitters, either way: two standard errors and a half. */
const chance = (hitters: number): number => 2.5 * Math.sqrt((0.95 * 0.05) / hitters);
const hitters = 8 * published.teams;

describe("the published figures", () => {
  it("are those of the settings in the code, as many teams each as the file says", () => {
    expect(published.teams).toBeGreaterThanOrEqual(8);
    expect(published.about).toContain(`${published.teams} simulated teams of eight hitters`);
    const asSetting = ({ swings, sessions, day_sd_mph }: (typeof settings)[number]) => ({
      swings,
      sessions,
      day_sd_mph,
    });
    expect(published.rows.map(asSetting)).toEqual(settings);
    expect(published.others.map((row) => ({ team: row.team, ...asSetting(row) }))).toEqual(
      otherTeams.flatMap((made) => otherSettings(made).map((setting) => ({ team: made.name, ...setting }))),
    );
    for (const row of [...published.rows, ...published.others]) expect(row.hitters).toBe(hitters);
  });

  it("hold the gap and every part 92 times in 100 or more, and 97 or fewer but where two or three sessions can't tell", () => {
    expect(published.rows).toHaveLength(36);
    for (const { held, ...setting } of published.rows)
      for (const name of judged) {
        const { share, n } = held[name];
        const where = `${name} at ${setting.swings}, ${setting.sessions}, ${setting.day_sd_mph}`;
        if (name === "place" && setting.swings === 5) {
          // No nine cells, and no two groups of them, have five balls each.
          expect(n, where).toBe(0);
          continue;
        }
        if (name === "place") expect(n, where).toBeGreaterThan(0.4 * hitters);
        else expect(n, where).toBe(hitters);
        expect(share!, where).toBeGreaterThan(asked.low - chance(n));
        if (setting.sessions === 1 || setting.sessions > 3)
          expect(share!, where).toBeLessThan(asked.high + chance(n));
      }
  });

  it("hold as well in teams of another kind, but place where in truth it is nothing", () => {
    const nothing = ["place costs nothing", "tee and live in the same places"];
    for (const { row, figure, share } of outside(published.others)) {
      if (row.sessions === 3 && share > asked.high) continue;
      expect(figure).toBe("place");
      expect(nothing).toContain((row as (typeof published.others)[number]).team);
    }
    for (const { held, team: of } of published.others)
      expect(held.place.share!, of).toBeGreaterThan(asked.low - chance(held.place.n));
  });

  it("are wide at 5 swings a side, and widest over two sessions", () => {
    const of = (sessions: number): number[] =>
      published.rows
        .filter((row) => row.swings === 5 && row.sessions === sessions)
        .map(({ width_mph }) => width_mph!);
    for (const sessions of [1, 3, 5]) {
      for (const width of of(sessions)) expect(width).toBeGreaterThan(20);
      expect(Math.min(...of(2))).toBeGreaterThan(Math.max(...of(sessions)));
    }
  });

  it("say what one session leaves out: the hitter's own gap is held less often the more days differ", () => {
    const one = published.rows.filter((row) => row.sessions === 1 && row.swings === 30);
    const shares = one.map((row) => row.heldAcrossDays!.share!);
    expect(shares[0]!).toBeGreaterThan(asked.low - chance(hitters));
    expect(shares[1]!).toBeLessThan(shares[0]!);
    // Two standard errors over 65 %, whichever number of hitters.
    expect(shares[2]!).toBeLessThan(0.65 + 2 * Math.sqrt((0.65 * 0.35) / hitters));
  });
});

describe("the page", () => {
  it("says what lies outside, and what can't be told", () => {
    const said = coverageNotes(published).join(" ");
    expect(said).toMatch(/With 5 swings a side place can't be told/);
    expect(said).toMatch(/One session a side tells of those two days\..* held [\d.]+ to [\d.]+% of the time/);
    expect(said).toMatch(
      /Place is held [\d.]+( to [\d.]+)?% of the time where in truth it is nothing at all/,
    );
    expect(said).toMatch(/Not reached where a side has two or three sessions: so few can't show/);
    expect(said).not.toMatch(/counted before/);
    for (const name of ["place costs nothing", "tee and live in the same places"])
      expect(said).toContain(name);
    expect(said).not.toMatch(/NaN|undefined|null|Infinity/);
  });

  it("names each figure that would lie outside", () => {
    const [first, ...rest] = published.rows;
    const short = { count: 1408, n: 1600, share: 0.88, low: 0.8632, high: 0.895 };
    const row = { ...first!, held: { ...first!.held, "bat speed": short } };
    expect(outside([row])).toEqual([{ row, figure: "bat speed", share: 0.88 }]);
    expect(coverageNotes({ ...published, rows: [row, ...rest] }).join(" ")).toContain(
      "by more than that chance: bat speed at 5 swings a side, 1 session, days differing by 0 mph: 88.0%.",
    );
  });
});

it("come back from a few teams made anew", { timeout: 120_000 }, () => {
  const much = otherTeams[0]!;
  for (const [setting, teams, made] of [
    [{ swings: 15, sessions: 3, day_sd_mph: 1.5 }, 40, team],
    [{ swings: 15, sessions: 1, day_sd_mph: 0 }, 40, team],
    [{ swings: 5, sessions: 2, day_sd_mph: 3 }, 40, team],
    [{ swings: 30, sessions: 3, day_sd_mph: 1.5 }, 30, much],
  ] as const) {
    const { held, hitters } = coverage(setting, teams, 9, made);
    expect(hitters).toBe(8 * teams);
    // 240 to 320 intervals: 95 % give or take 2.4 to 2.8.
    for (const name of judged) {
      if (held[name].n < 100) continue;
      expect(held[name].share!, `${name} at ${JSON.stringify(setting)}`).toBeGreaterThan(0.89);
      // Two or three sessions can't tell that days are alike, and hold it more often than asked.
      if (setting.sessions === 1)
        expect(held[name].share!, `${name} at ${JSON.stringify(setting)}`).toBeLessThan(0.995);
    }
  }
});
