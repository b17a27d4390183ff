/** Which way a column's numbers count, as a list to choose from. */
import { signAnswers } from "../../src/reading/guessSigns.ts";
import type { MappedColumn, Sign } from "../../src/reading/maps.ts";
import type { Field } from "../../src/swing/fields.ts";
import type { Pick } from "./bringSay.ts";

/** Which way a field's numbers count, in words: the answers that the guess's questions have, and what each does. */
const signTexts: Readonly<Record<string, readonly (readonly [key: string, text: string])[]>> = {
  launch_angle_deg: [
    ["up", "+ is up"],
    ["down", "+ is down"],
    ["vertical", "0 is straight up"],
  ],
  spray_angle_deg: [
    ["right", "+ is right field"],
    ["left", "+ is left field"],
    ["line", "0 is the left line, 90 the right"],
    ["pull", "+ is the pull side"],
    ["opposite", "+ is the opposite field"],
  ],
  spin_axis_deg: [
    ["back0right", "0 is backspin, 90 curves right"],
    ["back0left", "0 is backspin, 90 curves left"],
    ["back180right", "180 is backspin, 90 curves right"],
    ["back180left", "180 is backspin, 90 curves left"],
  ],
  sidespin_rpm: [
    ["right", "+ curves right"],
    ["left", "+ curves left"],
  ],
  backspin_rpm: [
    ["up", "+ lifts"],
    ["down", "+ dives"],
  ],
  contact_side_ft: [
    ["right", "+ is first base’s side"],
    ["left", "+ is third base’s side"],
  ],
  contact_depth_ft: [
    ["rear", "from the plate’s rear point, + toward the pitcher"],
    ["front", "from the plate’s front edge, + toward the pitcher"],
    ["down", "from the plate’s rear point, + toward the catcher"],
  ],
};
const anySign = [
  ["up", "signs as they stand"],
  ["down", "signs turned round"],
] as const;
/** What stands in a map, and is none of the answers. */
const asMapped = "as the map has it";

/** Which way a column's numbers can count, and which of these it is; null for a field that has no other side. */
export function signPicks(
  { name, min }: Field,
  { sign = 1, offset = 0 }: Partial<MappedColumn>,
): { readonly picks: readonly Pick[]; readonly now: string } | null {
  if (min === undefined || min >= 0) return null;
  const picks = (signTexts[name] ?? anySign).map(([value, text]) => ({ value, text }));
  const isIt = ({ value }: Pick): boolean =>
    signAnswers[value]!.sign === sign && Math.abs(signAnswers[value]!.offset - offset) < 1e-6;
  const now = picks.find(isIt)?.value;
  return now === undefined
    ? { picks: [...picks, { value: asMapped, text: asMapped }], now: asMapped }
    : { picks, now };
}

/** A column that counts as one of the answers says; as it does already where that is none of them. */
export function signed(column: MappedColumn, answer: string): MappedColumn {
  if (answer === asMapped) return column;
  const { sign: _, offset: __, ...rest } = column;
  const { sign, offset } = signAnswers[answer]!;
  return { ...rest, ...(sign === 1 ? {} : { sign }), ...(offset === 0 ? {} : { offset }) };
}

/** The same counted the other way round. */
export const turned = (sign: Sign): Sign =>
  sign === "pull" ? "opposite" : sign === "opposite" ? "pull" : sign === 1 ? -1 : 1;
