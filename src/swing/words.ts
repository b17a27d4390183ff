/** How every room writes a count, a sign, a list and a text inside HTML. */

/**
 * So many of a thing.
 * @param write how the number is written
 * @example counted(1, "swing") // "1 swing"
 * @example counted(0, "tee ball") // "0 tee balls"
 * @example counted(2, "copy", "copies") // "2 copies"
 */
export function counted(
  n: number,
  one: string,
  many = `${one}s`,
  write: (n: number) => string = String,
): string {
  return `${write(n)} ${n === 1 ? one : many}`;
}

/**
 * Names as a sentence lists them.
 * @example listed(["place", "bat speed", "contact"]) // "place, bat speed and contact"
 * @example listed(["place"]) // "place"
 */
export function listed(names: readonly string[]): string {
  return names.length < 2 ? names.join("") : `${names.slice(0, -1).join(", ")} and ${names.at(-1)}`;
}

/**
 * A text that begins a sentence.
 * @example capital("off the tee") // "Off the tee"
 */
export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/**
 * A number with a minus as a minus, and none before a zero.
 * @example fixedNumber(-3.14, 1) // "−3.1"
 * @example fixedNumber(-0.04, 1) // "0.0"
 */
export function fixedNumber(value: number, digits: number): string {
  const text = Math.abs(value).toFixed(digits);
  return value < 0 && Number(text) !== 0 ? `−${text}` : text;
}

/**
 * A number with its sign, a minus as a minus; nothing before a zero.
 * @example signedNumber(-0.26, 1) // "−0.3"
 * @example signedNumber(0.01, 1) // "0.0"
 */
export function signedNumber(value: number, digits: number): string {
  const text = fixedNumber(value, digits);
  return value > 0 && Number(text) !== 0 ? `+${text}` : text;
}

const entities: Record<string, string> = {
  "&": "&amp;",
  "<": "&lt;",
  ">": "&gt;",
  '"': "&quot;",
  "'": "&#39;",
};

/**
 * Text as HTML, safe between tags and inside a quoted attribute. Control characters, which HTML can't hold,
 * become the replacement character.
 * @example escapeHtml("<b a='1'>") // "&lt;b a=&#39;1&#39;&gt;"
 */
export function escapeHtml(text: string): string {
  return text
    .replace(/[&<>"']/g, (c) => entities[c]!)
    .replace(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f-\u009f]|\p{Surrogate}/gu, "\ufffd");
}

/**
 * The text that was written as HTML by `escapeHtml`.
 * @example unescapeHtml("&lt;b a=&#39;1&#39;&gt;") // "<b a='1'>"
 */
export function unescapeHtml(text: string): string {
  const named = new Map(Object.entries(entities).map(([character, entity]) => [entity, character]));
  return text.replace(/&(?:amp|lt|gt|quot|#39);/g, (entity) => named.get(entity)!);
}
