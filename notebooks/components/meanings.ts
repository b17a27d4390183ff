/** What the words on the player's page mean, a sentence each, with the limits that this library goes by. */
import { thresholdsFrom } from "../../src/contact/thresholds.ts";
import type { PageLibrary } from "./library.ts";

const percent = (share: number): string => `${Math.round(100 * share)}%`;

/** The words and their sentences, as a list. */
export function meanings(library: Pick<PageLibrary, "thresholds">): HTMLElement {
  const t = thresholdsFrom(library.thresholds);
  const between = (low: number, high: number): string =>
    `between ${Math.abs(low)}° ${low < 0 ? "down" : "up"} and ${high}° up`;
  const said: readonly (readonly [string, string])[] = [
    [
      "Power kept",
      "how much of the speed that your swing can give a ball at this angle, your ceiling, the ball got; what a pitch adds is taken out.",
    ],
    [
      "Flush",
      `at least ${percent(t.flush_power_kept)} of your power, ${between(t.flush_from_deg, t.flush_to_deg)}.`,
    ],
    [
      "Clean",
      `at least ${percent(t.clean_power_kept)} of it, ${between(t.clean_from_deg, t.clean_to_deg)}, and not flush.`,
    ],
    ["Partial", `at least ${percent(t.partial_power_kept)} of it, and neither of these.`],
    ["Mishit", "less than that, or hit so far up or down that there was no power to keep."],
    [
      "Carry",
      "how far the ball flies before it first comes down; the range is where eight of ten such balls do.",
    ],
    [
      "Pull, middle, opposite",
      "thirds of the field: your own side, left for a right-handed hitter, the middle, and the other.",
    ],
  ];
  const list = document.createElement("dl");
  list.className = "meanings";
  for (const [word, sentence] of said) {
    const item = list.appendChild(document.createElement("div"));
    item.appendChild(document.createElement("dt")).textContent = word;
    item.appendChild(document.createElement("dd")).textContent = sentence;
  }
  return list;
}
