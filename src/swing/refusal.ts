/** What reading one cell comes to: a value, or the reason why it is none. */

/** The texts that stand for "unknown" in any table. */
export const missingValues: readonly string[] = ["", "-", "--", "NA"];

/** Why a cell can't be used; goes on from the field's name and the cell. */
export class Refusal {
  readonly reason: string;
  constructor(reason: string) {
    this.reason = reason;
  }
}

export type Value = string | number | boolean | null;
export type CellReader = (cell: string) => Value | Refusal;
