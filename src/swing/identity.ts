/** A swing's own name, made from what it says. */
import type { Field } from "./fields.ts";
import { sha256Of } from "./sha256.ts";

/**
 * A short fingerprint of a row's values: the first 64 bits of the SHA-256 of its known fields, each as name, type
 * and value in the fields' order, whatever the layout they were read from. The field `except` is left out, and so
 * is everything unknown, so that a field added to the definition later changes no name.
 */
export function fingerprint(row: object, fields: readonly Field[], except: string): string {
  const values = row as Readonly<Record<string, unknown>>;
  let text = "";
  for (const { name } of fields) {
    const value = values[name];
    // A record separator can't come from a number, and text that holds one is still told apart by the length.
    if (value !== null && name !== except) {
      text +=
        typeof value === "string"
          ? `${name}\u001f${value.length}\u001f${value}\u001e`
          : `${name}\u001f${String(value)}\u001e`;
    }
  }
  return sha256Of(text).slice(0, 16);
}
