/** One ball in the words of a coach: how far, how sure, over the fence or not, and what was taken for granted. */
import type { OneBall } from "../../contact/oneBall.ts";
import { spinSpreads } from "../../flight/spreads.ts";
import { deg, ft, mph, rpm } from "../../units/index.ts";
import { phraseIn, shownNumber, shownUnit, unitSign, type UnitSystem } from "../../units/system.ts";
import { valueWords } from "../words.ts";

/** A length in whole feet or metres, without the unit, and with it. */
const whole = (metres: number, system: UnitSystem): string =>
  Math.round(shownNumber(metres / ft, "ft", system)).toLocaleString("en");
const far = (metres: number, system: UnitSystem): string =>
  `${whole(metres, system)} ${unitSign(shownUnit("ft", system))}`;

/** Where a ball comes down, in words. */
function placeWords(bearing: number): string {
  const off = Math.round(Math.abs(bearing / deg));
  if (off === 0) return "in dead center";
  const side = bearing < 0 ? "left" : "right";
  return off > 45 ? `foul, on the ${side} side` : `${off}° to the ${side} of center`;
}

/**
 * A chance as people say it.
 * @example chanceWords(0.62) // "about 6 in 10"
 * @example chanceWords(0.004) // "fewer than 1 in 100"
 * @example chanceWords(0.03) // "about 3 in 100"
 * @example chanceWords(0.98) // "about 98 in 100"
 * @example chanceWords(1) // "more than 99 in 100"
 */
export function chanceWords(chance: number): string {
  if (chance < 0.005) return "fewer than 1 in 100";
  if (chance > 0.995) return "more than 99 in 100";
  if (chance < 0.095 || chance > 0.945) return `about ${Math.round(100 * chance)} in 100`;
  return `about ${Math.round(10 * chance)} in 10`;
}

/** Whether it would clear the fence, in words; null when the direction is unknown. */
function fenceSentence({ fence, field }: OneBall, system: UnitSystem): string | null {
  if (fence === null) return null;
  const chance = `${chanceWords(fence.chance)} such balls would clear it`;
  if (fence.result === "foul") {
    return fence.chance < 0.005
      ? "Over the fence? It goes foul."
      : `Over the fence? This one goes foul; ${chanceWords(fence.chance)} hit like it would stay fair and clear it.`;
  }
  const there = `${far(fence.distance!, system)} away and ${far(fence.fence!, system)} high`;
  if (fence.draws === 0) return `Over the fence? No: it is ${there}, ${far(fence.missing!, system)} too far.`;
  if (fence.result === "short") {
    return `Over the fence? This one falls ${far(fence.missing!, system)} short of it (${there}, ${field.name}); ${chance}.`;
  }
  return `Over the fence? It gets there ${far(fence.height!, system)} up, and the fence is ${there}: ${chance}.`;
}

/** Where the spin came from, and how far it may be off. */
function spinSentence({ launch, spinSource }: OneBall): string {
  const { words, spread } = spinSpreads[spinSource];
  const back = Math.round(launch.backspin / rpm);
  const side = Math.round(launch.sidespin / rpm);
  const backWords = `${Math.abs(back).toLocaleString("en")} rpm of ${back < 0 ? "topspin" : "backspin"}`;
  const sideWords =
    side === 0
      ? "no sidespin"
      : `${Math.abs(side).toLocaleString("en")} rpm curving it to the ${side < 0 ? "left" : "right"}`;
  return `Spin, ${words}: ${backWords} and ${sideWords} (${spread}, one standard deviation).`;
}

/** The air in words, the wind with it. */
function airSentence({ air }: OneBall, system: UnitSystem): string {
  const speed = Math.hypot(...air.wind) / mph;
  const toward = Math.round(Math.atan2(air.wind[0], air.wind[1]) / deg);
  const wind = speed === 0 ? "no wind" : `wind of ${valueWords(speed, "mph", system)} toward ${toward}°`;
  return `Air: ${air.density.toFixed(3)} kg/m³, ${wind}.`;
}

/**
 * A ball in plain sentences: carry with the range that eight of ten such balls fall in, hang time and apex, the
 * fence, the spin with its spread, the air, and everything that was assumed.
 */
export function ballWords(
  one: OneBall,
  system: UnitSystem = "us",
): { headline: string; sentences: string[] } {
  const { flight, range, assumed } = one;
  const fence = fenceSentence(one, system);
  return {
    headline:
      `About ${far(flight.carry, system)}. Of ten balls hit like this, eight come down between ` +
      `${whole(range.low, system)} and ${far(range.high, system)}.`,
    sentences: [
      `It is ${flight.hang.toFixed(1)} s in the air, ${far(flight.apex, system)} up at its highest, and lands ${placeWords(flight.bearing)}.`,
      ...(fence === null ? [] : [fence]),
      spinSentence(one),
      airSentence(one, system),
      ...(range.method === "draws" ? ["So short a ball has its range drawn at random, seeded."] : []),
      assumed.length === 0
        ? "Nothing was assumed."
        : `Assumed, as nothing was given: ${phraseIn(assumed.join("; "), system)}.`,
    ],
  };
}
