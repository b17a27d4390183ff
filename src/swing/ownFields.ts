/**
 * A facility's own playing fields, as fields.csv gives them. They are known by name like those of the field table,
 * wherever a field is named: so they stand in one place, which opening a library fills.
 */

/** A row of fields.csv, in feet; see `ownFieldFields`. */
export interface OwnField {
  readonly field: string;
  readonly base_path_ft: number;
  readonly pitching_ft: number;
  readonly dirt_radius_ft: number;
  readonly left_ft: number;
  readonly left_center_ft: number;
  readonly center_ft: number;
  readonly right_center_ft: number;
  readonly right_ft: number;
  readonly fence_ft: number;
}

let own: readonly OwnField[] = [];

/** The fields of the library that was opened last. */
export const ownFields = (): readonly OwnField[] => own;

/** Makes a library's own fields known, in place of those known before. */
export function knowFields(fields: readonly OwnField[]): void {
  own = fields;
}
