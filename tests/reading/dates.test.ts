/** Days and times: ISO 8601 and a map's format; what can be read in two ways is refused with both. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  dateReader,
  dayFrom,
  formatsOf,
  isDateFormat,
  otherForms,
  timeFrom,
} from "../../src/reading/dates.ts";
import { problemSentence } from "../../src/swing/problems.ts";
import { Refusal } from "../../src/swing/refusal.ts";
import { readFrom, swingsFrom } from "./support.ts";

describe("days and times", () => {
  it("are those that the calendar has", () => {
    // The calendar of ECMAScript's Date, which is the proleptic Gregorian one of ISO 8601.
    const part = fc.integer({ min: 0, max: 40 });
    fc.assert(
      fc.property(fc.integer({ min: 1900, max: 2400 }), part, part, (year, month, day) => {
        const text = `${year}-${String(month).padStart(2, "0")}-${String(day).padStart(2, "0")}`;
        const date = new Date(Date.UTC(year, month - 1, day));
        const real = date.getUTCMonth() === month - 1 && date.getUTCDate() === day && month > 0;
        expect(typeof dayFrom(text) === "string").toBe(real);
        expect(typeof timeFrom(`${text}T10:00`) === "string").toBe(real);
      }),
      { numRuns: 1000 },
    );
  });

  it.each([
    "2026-05-31",
    "2026-05-31T09:30",
    "2026-05-31T09:30:15",
    "2026-05-31T09:30:15.250",
    "2026-05-31T09:30:15Z",
    "2026-05-31T09:30:15+02:00",
  ])("%s is read as it stands", (text) => expect(timeFrom(text)).toBe(text));

  it.each([
    "31.5.2026",
    "2026-5-31",
    "05/31/2026",
    "2026-05-31T25:00",
    "2026-05-31T09:61",
    "2026-02-29",
    "2026",
    "now",
  ])("%s is refused", (text) => expect(timeFrom(text)).toBeInstanceOf(Refusal));

  it("are read in a layout's own form", () => {
    const read = dateReader("MM/DD/YYYY hh:mm A", "datetime");
    expect(read("5/31/2026 12:05 am")).toBe("2026-05-31T00:05:00");
    expect(read("05/31/2026 12:05 PM")).toBe("2026-05-31T12:05:00");
    expect(read("05/31/2026 1:05 PM")).toBe("2026-05-31T13:05:00");
    expect(read("05/31/2026")).toBe("2026-05-31");
    for (const text of ["13/31/2026 1:05 PM", "05/31/2026 13:05 PM", "2/29/2026 1:00 AM", "2026-05-31"]) {
      expect(read(text)).toBeInstanceOf(Refusal);
    }
  });

  it.each(["en", "en-GB", "de", "es", "fr", "it", "nl", "ja", "ko", "zh"])(
    "with a month's name are read as %s writes them, by the Unicode locale data of Intl",
    (locale) => {
      for (const month of ["long", "short"] as const)
        for (let at = 0; at < 12; at++) {
          const day = new Date(Date.UTC(2026, at, 12));
          const text = new Intl.DateTimeFormat(locale, {
            ...{ day: "numeric", month, year: "numeric", timeZone: "UTC" },
          }).format(day);
          const formats = formatsOf(text);
          expect(formats, text).toHaveLength(1);
          expect(dateReader(formats[0]!, "date")(text), text).toBe(day.toISOString().slice(0, 10));
        }
    },
  );

  it("with a month's name may be cut, bound by marks and have a clock; another word is no month", () => {
    const read = (text: string): unknown => formatsOf(text).map((f) => dateReader(f, "datetime")(text));
    expect(read("12-Apr-26")).toEqual(["2026-04-12"]);
    expect(read("2026-APR-12")).toEqual(["2026-04-12"]);
    expect(read("Sept. 3, 2026 9:05 PM")).toEqual(["2026-09-03T21:05:00"]);
    expect(read("2026年4月12日 09:30")).toEqual(["2026-04-12T09:30:00"]);
    for (const text of ["12 Foo 2026", "Lane 12, 2026", "Apr 2026", "12 Apr 126", "120 Apr 2026"])
      expect(read(text), text).toEqual([]);
    expect(dateReader("DD MMM YYYY", "date")("12 Foo 2026")).toBeInstanceOf(Refusal);
    expect(dateReader("DD MMM YYYY", "date")("31 Feb 2026")).toBeInstanceOf(Refusal);
    expect(dateReader("YYYY年MM月DD日 HH:mm", "datetime")("2026年4月12日")).toBe("2026-04-12");
    expect(isDateFormat("DD MMM YYYY")).toBe(true);
    expect(isDateFormat("DD MMM MM YYYY")).toBe(false);
  });

  it("need a year, a month and a day in their form, each once", () => {
    expect(isDateFormat("DD.MM.YYYY")).toBe(true);
    for (const format of ["MM.YYYY", "DD.DD.MM.YYYY", "DD.MM.YYYY hh:mm", "YYYY-MM-DD HH:mm A", ""]) {
      expect(isDateFormat(format)).toBe(false);
    }
  });
});

describe("a day written another way", () => {
  it.each([
    ["03/04/2025", "could be 2025-04-03 (DD/MM/YYYY) or 2025-03-04 (MM/DD/YYYY)"],
    ["3.4.2025", "could be 2025-04-03 (DD.MM.YYYY) or 2025-03-04 (MM.DD.YYYY)"],
    ["03-04-25", "could be 2025-04-03 (DD-MM-YY) or 2025-03-04 (MM-DD-YY)"],
    ["31/05/2026", "is not ISO 8601: if it is 2026-05-31 (DD/MM/YYYY)"],
    ["05/31/2026", "is not ISO 8601: if it is 2026-05-31 (MM/DD/YYYY)"],
    ["2026/5/31", "is not ISO 8601: if it is 2026-05-31 (YYYY/MM/DD)"],
    ["03/03/2025", "is 2025-03-03 both as DD/MM/YYYY and as MM/DD/YYYY, and other rows may not be"],
  ])("%s is refused with what it may mean, and what to say", (text, reason) => {
    const found = dayFrom(text);
    expect((found as Refusal).reason).toContain(reason);
    expect((found as Refusal).reason).toContain('"dates" in a column map');
  });

  it.each([
    [
      "03/04/2025 09:30",
      "could be 2025-04-03T09:30:00 (DD/MM/YYYY HH:mm) or 2025-03-04T09:30:00 (MM/DD/YYYY HH:mm)",
    ],
    ["3/4/2025 9:30:15 PM", "2025-03-04T21:30:15 (MM/DD/YYYY hh:mm:ss A)"],
    ["31.05.2026, 09:30", "if it is 2026-05-31T09:30:00 (DD.MM.YYYY, HH:mm)"],
    ["03/04/2025", "could be 2025-04-03 (DD/MM/YYYY) or 2025-03-04 (MM/DD/YYYY)"],
  ])("%s is refused as a time likewise", (text, reason) => {
    expect((timeFrom(text) as Refusal).reason).toContain(reason);
  });

  it.each([
    "32/13/2025",
    "yesterday",
    "03/04",
    "1/2/3/4",
    "03/04/2025 25:99",
    "//",
    "2025/13/13",
    "03/04/2025 x",
  ])("%s is no day at all", (text) => {
    expect(otherForms(text, "datetime")).toBeNull();
    expect((timeFrom(text) as Refusal).reason).toMatch(/^is not an ISO 8601 time/);
  });

  it("is read as each form that the refusal names, once a map says so", () => {
    const part = fc.integer({ min: 1, max: 31 });
    const mark = fc.constantFrom("/", ".", "-");
    const clock = fc.constantFrom("", " 09:30", ", 9:05:10", " 9:30 pm", "T23:59");
    fc.assert(
      fc.property(part, part, mark, fc.constantFrom("2025", "25"), clock, (a, b, m, year, time) => {
        const reason = otherForms(`${a}${m}${b}${m}${year}${time}`, "datetime");
        for (const [, value, format] of (reason ?? "").matchAll(/(\d{4}-\S+) \(([^)]+)\)/g)) {
          expect(isDateFormat(format!)).toBe(true);
          expect(dateReader(format!, "datetime")(`${a}${m}${b}${m}${year}${time}`)).toBe(value);
        }
        if (a <= 12 && b <= 12) expect(reason).toMatch(a === b ? / both as / : / or /);
        else if (a > 12 && b > 12) expect(reason).toBeNull();
      }),
    );
  });

  it("costs its row and names it, in the tables and with the map that settles it", async () => {
    const sessions = "session,date\nA,03/04/2025\nB,2025-04-03\n";
    const plain = await readFrom("sessions", sessions);
    expect(plain.rows.map((r) => r.session)).toEqual(["B"]);
    expect(problemSentence(plain.refused[0]!.problems[0]!)).toBe(
      'a.csv, row 2: date "03/04/2025" could be 2025-04-03 (DD/MM/YYYY) or 2025-03-04 (MM/DD/YYYY): say which with "dates" in a column map.',
    );
    const map = { dates: "MM/DD/YYYY HH:mm", columns: {} };
    const swings = "hitter,input,outcome,time\nAna,tee,miss,03/04/2025 18:05\nAna,tee,miss,04/03/2025\n";
    expect((await swingsFrom(swings)).refused).toHaveLength(2);
    expect((await swingsFrom(swings, { map })).rows.map((r) => r.time)).toEqual([
      "2025-03-04T18:05:00",
      "2025-04-03",
    ]);
  });
});
