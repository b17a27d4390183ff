/** Seeded swings as a CSV of any length, for the benches. */
import { createWriteStream } from "node:fs";
import { once } from "node:events";
import { randomLcg } from "d3";

const heading =
  "session,time,hitter,bats,input,drill,outcome,exit_velocity_mph,launch_angle_deg,spray_angle_deg,backspin_rpm," +
  "sidespin_rpm,pitch_speed_mph,pitch_type,contact_side_ft,contact_depth_ft,contact_height_ft,bat_speed_mph," +
  "attack_angle_deg,pitcher,note";
const inputs = ["tee", "flip", "live"] as const;
const two = (n: number): string => String(n).padStart(2, "0");

/** Writes `count` swings of 40 hitters against 12 pitchers in 28 sessions; a third of them without a measured spin. */
export async function writeSwings(path: string, count: number): Promise<void> {
  const random = randomLcg(0.7);
  const between = (low: number, high: number, digits: number): string =>
    (low + (high - low) * random()).toFixed(digits);
  const stream = createWriteStream(path);
  let text = `${heading}\n`;
  for (let i = 0; i < count; i++) {
    const day = two(1 + (i % 28));
    const clock = `${two(Math.floor(i / 3600) % 24)}:${two(Math.floor(i / 60) % 60)}:${two(i % 60)}`;
    const input = inputs[i % 3]!;
    const bats = i % 40 < 12 ? "L" : "R";
    const spin = i % 3 === 0 ? "," : `${between(-500, 3000, 0)},${between(-1000, 1000, 0)}`;
    const pitch = input === "tee" ? "," : `${between(35, 75, 1)},${input === "live" ? "fastball" : "flip"}`;
    text +=
      `2026-05-${day} cage,2026-05-${day}T${clock}.${String(i % 1000).padStart(3, "0")},Hitter ${i % 40},${bats},` +
      `${input},drill ${i % 7},${i % 9 === 0 ? "foul" : "in_play"},${between(55, 108, 1)},${between(-20, 55, 1)},` +
      `${between(-45, 45, 1)},${spin},${pitch},${between(-0.8, 0.8, 2)},${between(0, 3, 2)},${between(1, 4, 2)},` +
      `${between(50, 78, 1)},${between(0, 20, 1)},${input === "live" ? `Pitcher ${Math.floor(12 * random())}` : ""},\n`;
    if (text.length > 1 << 18) {
      if (!stream.write(text)) await once(stream, "drain");
      text = "";
    }
  }
  stream.end(text);
  await once(stream, "finish");
}
