/** The tables of a library, by name: file, fields, keys. */
import {
  hitterFields,
  nameFields,
  ownFieldFields,
  sessionFields,
  swingFields,
  targetFields,
  type Field,
} from "./fields.ts";

export interface Table {
  readonly name: "swings" | "sessions" | "hitters" | "targets" | "names" | "fields";
  readonly title: string;
  readonly fields: readonly Field[];
  /** The field no two rows may share. */
  readonly key: string;
  /** Whether every row has its key as it arrives; a swing's is made from the row when it has none. */
  readonly keyGiven: boolean;
  /** Fields that name a row of another table. */
  readonly references: readonly { readonly field: string; readonly table: Table["name"] }[];
}

export const tables: readonly Table[] = [
  {
    name: "swings",
    title: "Swings",
    fields: swingFields,
    key: "swing_id",
    keyGiven: false,
    references: [
      { field: "session", table: "sessions" },
      { field: "hitter", table: "hitters" },
    ],
  },
  {
    name: "sessions",
    title: "Sessions",
    fields: sessionFields,
    key: "session",
    keyGiven: true,
    references: [],
  },
  { name: "hitters", title: "Hitters", fields: hitterFields, key: "hitter", keyGiven: true, references: [] },
  { name: "targets", title: "Targets", fields: targetFields, key: "drill", keyGiven: true, references: [] },
];

/** Tables that a library may have besides: the answers to what was asked about names, and a facility's own fields. */
export const furtherTables: readonly Table[] = [
  { name: "names", title: "Names", fields: nameFields, key: "spelled", keyGiven: true, references: [] },
  { name: "fields", title: "Fields", fields: ownFieldFields, key: "field", keyGiven: true, references: [] },
];

/** A table by its name. */
export const tableOf = (name: Table["name"]): Table =>
  [...tables, ...furtherTables].find((table) => table.name === name)!;
