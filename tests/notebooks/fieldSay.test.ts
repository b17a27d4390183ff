/** The table of balls on a field: its sessions by date, whatever the order of the file. */
import { expect, it } from "vitest";
import { fieldSheet } from "../../notebooks/components/fieldSay.ts";
import { onField } from "../../src/defence/onField.ts";
import { swing } from "../views/rows.ts";

const hit = (name: string | null, time: string | null = null) =>
  swing({ session: name, time, exit_velocity_mph: 90, launch_angle_deg: 15, spray_angle_deg: 10 });

it("lists sessions latest first, those without a date and a name after them, then all together", () => {
  const balls = [
    hit("by its swings", "2025-03-09T10:00:00"),
    hit(null),
    hit("undated"),
    hit("last", "2025-03-01T10:00:00"),
    hit("first"),
    hit("last"),
  ];
  const sessions = [
    { session: "last", date: "2025-03-17" },
    { session: "first", date: "2025-03-03" },
  ];
  const { rows, records } = fieldSheet(onField(balls), sessions);
  expect(rows.map(([name, n]) => `${name}: ${n}`)).toEqual([
    "last: 2",
    "by its swings: 1",
    "first: 1",
    "undated: 1",
    "not named: 1",
    "All together: 6",
  ]);
  // What is saved has them in the same order.
  expect(records.map(({ n }) => n)).toEqual([2, 1, 1, 1, 1, 6]);
});

it("has no line of all together beside a single session", () => {
  expect(fieldSheet(onField([hit("only"), hit("only")]), []).rows.map(([name]) => name)).toEqual(["only"]);
  expect(fieldSheet(onField([]), []).rows).toEqual([]);
});
