/**
 * The fields' definition written out: as a Data Package with Table Schemas (datapackage.org, version 2) and as
 * the documentation's table.
 */
import { falseValues, missingValues, trueValues } from "./cells.ts";
import { unitLabel } from "../swing/limits.ts";
import type { Field } from "../swing/fields.ts";
import { tables, type Table } from "../swing/tables.ts";
import { largest } from "../swing/lists.ts";

interface SchemaField {
  readonly name: string;
  readonly type: Field["type"];
  readonly format?: string;
  readonly title: string;
  readonly description: string;
  readonly unit?: string;
  readonly trueValues?: readonly string[];
  readonly falseValues?: readonly string[];
  readonly constraints?: {
    readonly required?: true;
    readonly unique?: true;
    readonly minimum?: number;
    readonly maximum?: number;
    readonly enum?: readonly string[];
  };
}

interface Resource {
  readonly name: string;
  readonly type: "table";
  readonly title: string;
  readonly path: string;
  readonly format: "csv";
  readonly mediatype: "text/csv";
  readonly encoding: "utf-8";
  readonly schema: {
    readonly $schema: string;
    readonly fieldsMatch: "partial";
    readonly missingValues: readonly string[];
    readonly fields: readonly SchemaField[];
    readonly primaryKey?: readonly string[];
    readonly foreignKeys?: readonly {
      readonly fields: readonly string[];
      readonly reference: { readonly resource: string; readonly fields: readonly string[] };
    }[];
  };
}

export interface DataPackage {
  readonly $schema: string;
  readonly name: string;
  readonly title: string;
  readonly description: string;
  readonly resources: readonly Resource[];
}

function schemaField(field: Field, table: Table): SchemaField {
  const constraints = {
    ...(field.required === "always" ? { required: true as const } : {}),
    ...(field.name === table.key ? { unique: true as const } : {}),
    ...(field.min === undefined ? {} : { minimum: field.min }),
    ...(field.max === undefined ? {} : { maximum: field.max }),
    ...(field.words === undefined ? {} : { enum: field.words }),
    ...(field.names?.others === "refused" ? { enum: field.names.names } : {}),
  };
  const needed = field.required === "in_play" ? " Needed when the ball was put in play." : "";
  return {
    name: field.name,
    type: field.type,
    // A day alone, or a time with or without its zone, is good ISO 8601 too.
    ...(field.type === "datetime" ? { format: "any" } : {}),
    title: field.title,
    description: field.description + needed,
    ...(field.unit === undefined ? {} : { unit: field.unit }),
    ...(field.type === "boolean" ? { trueValues, falseValues } : {}),
    ...(Object.keys(constraints).length === 0 ? {} : { constraints }),
  };
}

function resource(table: Table): Resource {
  const keyOf = (name: Table["name"]): string => tables.find((t) => t.name === name)!.key;
  return {
    name: table.name,
    type: "table",
    title: table.title,
    path: `demo/${table.name}.csv`,
    format: "csv",
    mediatype: "text/csv",
    encoding: "utf-8",
    schema: {
      $schema: "https://datapackage.org/profiles/2.0/tableschema.json",
      fieldsMatch: "partial",
      missingValues,
      fields: table.fields.map((field) => schemaField(field, table)),
      ...(table.keyGiven ? { primaryKey: [table.key] } : {}),
      ...(table.references.length === 0
        ? {}
        : {
            foreignKeys: table.references.map(({ field, table: name }) => ({
              fields: [field],
              reference: { resource: name, fields: [keyOf(name)] },
            })),
          }),
    },
  };
}

/**
 * The Data Package that describes the four tables.
 * @example dataPackage().resources.map((r) => r.name).join(" ") // "swings sessions hitters targets"
 */
export function dataPackage(): DataPackage {
  return {
    $schema: "https://datapackage.org/profiles/2.0/datapackage.json",
    name: "batted-ball-notebooks",
    title: "Batted-ball notebooks",
    description: "The tables of a library of swings. The rows the paths name are an invented scenario.",
    resources: tables.map(resource),
  };
}

/** The Data Package as the text of data/datapackage.json. */
export function dataPackageText(): string {
  return `${JSON.stringify(dataPackage(), null, 2)}\n`;
}

/** What a field may hold, in a few words. */
export function holds(field: Field): string {
  if (field.words !== undefined) return field.words.join(", ");
  if (field.names !== undefined) return "a name below";
  if (field.type === "boolean") return "true or false";
  if (field.type === "date") return "ISO 8601 date";
  if (field.type === "datetime") return "ISO 8601 time";
  if (field.type === "string") return "text";
  const minus = (value: number): string => String(value).replace("-", "−");
  const limits =
    field.min === undefined || field.max === undefined ? "" : `, ${minus(field.min)} to ${minus(field.max)}`;
  return (field.unit === undefined ? "number" : unitLabel(field.unit).trim()) + limits;
}

const needed = { always: "yes", in_play: "in play" } as const;

/** A Markdown table with its columns aligned. */
function markdownTable(rows: readonly (readonly string[])[]): string {
  const widths = rows[0]!.map((_, i) =>
    largest(
      rows.map((row) => row[i]!.length),
      3,
    ),
  );
  const line = (cells: readonly string[]): string =>
    `| ${cells.map((c, i) => c.padEnd(widths[i]!)).join(" | ")} |`;
  const [head, ...body] = rows;
  return [line(head!), line(widths.map((w) => "-".repeat(w))), ...body.map(line)].join("\n");
}

/** The names that a table's fields take from the tables in data/, a line for each such field. */
function namesOf(table: Table, written: (name: string) => string): string[] {
  return table.fields.flatMap(({ name, names: from }) => {
    if (from === undefined) return [];
    const names = from.names.map((known) => {
      const title = from.titles[known];
      const other = Object.keys(from.also).filter((also) => from.also[also] === known);
      const about = [...(title === undefined ? [] : [title]), ...other.map((also) => `or ${written(also)}`)];
      return written(known) + (about.length === 0 ? "" : ` (${about.join(", ")})`);
    });
    return [`${written(name)} is one of ${names.join("; ")}; another is ${from.others}.`];
  });
}

/** The fields of every table as Markdown, for the README. */
export function fieldsMarkdown(): string {
  const parts = tables.map((table) => {
    const rows = table.fields.map((f) => [
      `\`${f.name}\``,
      holds(f),
      f.required === undefined ? "" : needed[f.required],
      f.description,
    ]);
    const names = namesOf(table, (name) => `\`${name}\``).map((line) => `- ${line}\n`);
    const below = names.length === 0 ? "" : `\n\n${names.join("").trimEnd()}`;
    return `\`${table.name}.csv\`\n\n${markdownTable([["field", "holds", "needed", "meaning"], ...rows])}${below}`;
  });
  return `${parts.join("\n\n")}\n`;
}

const opening = "<!-- fields -->";
const closing = "<!-- /fields -->";

/** A page with the fields' table put between its markers, or null when it has no markers. */
export function withFieldsTable(page: string): string | null {
  const start = page.indexOf(opening);
  const end = page.indexOf(closing, start);
  if (start < 0 || end < 0) return null;
  return `${page.slice(0, start + opening.length)}\n\n${fieldsMarkdown()}\n${page.slice(end)}`;
}

/** The fields of every table as plain text, within 80 columns but for the longest descriptions. */
export function fieldsText(): string {
  return tables
    .map((table) => {
      const lines = table.fields.map((f) => {
        const need =
          f.required === undefined ? "" : f.required === "always" ? ", needed" : ", needed in play";
        return `  ${f.name}: ${holds(f)}${need}\n      ${f.description}\n`;
      });
      const names = namesOf(table, (name) => name).map((line) => `  ${line}\n`);
      return `${table.name}.csv\n${lines.join("")}${names.join("")}`;
    })
    .join("\n");
}
