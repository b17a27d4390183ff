/** A facility's own playing fields, for calls that read no library. */
import type { Reading } from "../reading/read.ts";
import type { OwnField } from "../swing/fields.ts";
import { knowFields } from "../swing/ownFields.ts";

/** The option that names their file, and what `--help` says of it. */
export const fieldsOption = [
  "--fields <csv>",
  "your own playing fields, as a library's fields.csv has them; known by name beside the field table's",
] as const;

/**
 * Reads a file of own fields and makes them known by name, before any session that names one is read; without a file, none
 * are known.
 * @throws UnusableFile when nothing of the file can be used: one plain sentence
 */
export async function knowFieldsOf(path: string | undefined): Promise<Reading<OwnField> | null> {
  const reading = path === undefined ? null : await (await import("../library/files.ts")).readFields(path);
  knowFields(reading?.rows ?? []);
  return reading;
}
