/** JSON as a command prints it. */

/**
 * A value as JSON in which letters that a terminal would act on, or that turn the direction of reading, are written
 * as their numbers: it may be read by eye as well, and says the same to a machine.
 * @example jsonText(["a\u202eb"], 0) // '["a\\u202eb"]'
 */
export function jsonText(value: unknown, indent = 2): string {
  return JSON.stringify(value, null, indent).replace(
    /[\p{Cf}\p{Co}\p{Cs}\u007f-\u009f\u2028\u2029]/gu,
    (letters) =>
      Array.from({ length: letters.length }, (_, i) => {
        const code = letters.charCodeAt(i).toString(16).padStart(4, "0");
        return `\\u${code}`;
      }).join(""),
  );
}
