/**
 * The data package against the standard: Data Package v2 (Data Package Working Group, 2024), pages "Data Package",
 * "Data Resource", "Table Schema" at datapackage.org/standard. Each rule is quoted in short beside its check.
 */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";

type Json = Record<string, unknown>;

/** Table Schema, "Field Types": the types, and "Field Constraints": the types each constraint applies to. */
const types =
  "string number integer boolean object array list datetime date time year yearmonth duration geopoint geojson any".split(
    " ",
  );
const ordered = ["integer", "number", "date", "time", "datetime", "duration", "year", "yearmonth"];
const appliesTo: Record<string, readonly string[]> = {
  required: types,
  unique: types,
  minimum: ordered,
  maximum: ordered,
  exclusiveMinimum: ordered,
  exclusiveMaximum: ordered,
  minLength: ["string", "list", "array", "object"],
  maxLength: ["string", "list", "array", "object"],
  pattern: ["string"],
  enum: types.filter((t) => t !== "boolean"),
  jsonSchema: ["array", "object"],
};

function schemaFaults(schema: Json, resources: readonly Json[]): string[] {
  const found: string[] = [];
  const fields = schema["fields"];
  // "A Table Schema descriptor MUST contain a property fields. fields MUST be an array".
  if (!Array.isArray(fields) || fields.length === 0) return ["no fields"];
  const names = (fields as Json[]).map((f) => f["name"]);
  // "MUST contain a name property and it MUST be unique amongst other field names".
  if (names.some((n) => typeof n !== "string" || n === "")) found.push("a field without a name");
  if (new Set(names).size !== names.length) found.push("a name twice");
  // fieldsMatch "MUST be a string with the following possible values".
  const match = schema["fieldsMatch"] ?? "exact";
  if (!["exact", "equal", "subset", "superset", "partial"].includes(match as string))
    found.push("fieldsMatch");
  // "missingValues MUST be an array where each entry is a unique string".
  const missing = (schema["missingValues"] ?? [""]) as unknown[];
  if (missing.some((m) => typeof m !== "string") || new Set(missing).size !== missing.length)
    found.push("missingValues");
  for (const field of fields as Json[]) {
    const type = (field["type"] ?? "any") as string;
    const at = String(field["name"]);
    if (!types.includes(type)) found.push(`${at}: type ${type}`);
    // "date", "time", "datetime": default, any, or a pattern of strptime; our other types have "default".
    const format = field["format"] ?? "default";
    const timed = ["date", "time", "datetime"].includes(type);
    if (format !== "default" && !(timed && (format === "any" || /%/.test(String(format)))))
      found.push(`${at}: format`);
    // boolean: trueValues and falseValues, arrays of strings.
    if (("trueValues" in field || "falseValues" in field) && type !== "boolean")
      found.push(`${at}: trueValues`);
    for (const [name, value] of Object.entries((field["constraints"] ?? {}) as Json)) {
      if (!(appliesTo[name] ?? []).includes(type)) found.push(`${at}: ${name} on ${type}`);
      if ((name === "required" || name === "unique") && typeof value !== "boolean")
        found.push(`${at}: ${name}`);
      if ((name === "minimum" || name === "maximum") && typeof value !== "number")
        found.push(`${at}: ${name}`);
      // "enum: the value of the field MUST exactly match one of the values": an array with values.
      if (name === "enum" && !(Array.isArray(value) && value.length > 0)) found.push(`${at}: enum`);
    }
  }
  // "each string corresponding to one of the field name values in the fields array".
  const key = (schema["primaryKey"] ?? []) as unknown[];
  if (!Array.isArray(key) || key.some((k) => !names.includes(k))) found.push("primaryKey");
  for (const foreign of (schema["foreignKeys"] ?? []) as {
    fields: string[];
    reference: { resource: string; fields: string[] };
  }[]) {
    const { fields: from, reference } = foreign;
    // "an array of strings of the same length as the outer fields", and the resource's name within the package.
    const target = resources.find((r) => r["name"] === reference.resource);
    const targetNames = ((target?.["schema"] as Json | undefined)?.["fields"] as Json[] | undefined)?.map(
      (f) => f["name"],
    );
    if (from.length !== reference.fields.length || from.some((f) => !names.includes(f)))
      found.push("foreignKeys");
    if (targetNames === undefined || reference.fields.some((f) => !targetNames.includes(f)))
      found.push("a foreign key to nowhere");
  }
  return found;
}

function packageFaults(descriptor: Json): string[] {
  const found: string[] = [];
  const resources = descriptor["resources"];
  // "resources is a required property": an array with at least one resource.
  if (!Array.isArray(resources) || resources.length === 0) return ["no resources"];
  // "The recommended value is https://datapackage.org/profiles/2.0/datapackage.json".
  if (descriptor["$schema"] !== "https://datapackage.org/profiles/2.0/datapackage.json")
    found.push("$schema");
  // Name: "SHOULD be human-readable and consist only of lowercase English alphanumeric characters plus ., - and _".
  const plain = /^[a-z0-9._-]+$/;
  if (!plain.test(String(descriptor["name"]))) found.push("name");
  const names = (resources as Json[]).map((r) => r["name"]);
  if (new Set(names).size !== names.length) found.push("a resource twice");
  for (const resource of resources as Json[]) {
    const at = String(resource["name"]);
    if (!plain.test(at)) found.push(`${at}: name`);
    // "one (and only one) of these two properties": path, data. A path is relative, without "..", or a URL.
    if ("path" in resource === "data" in resource) found.push(`${at}: path or data`);
    const path = String(resource["path"]);
    if (path.startsWith("/") || path.split("/").includes("..") || path === "") found.push(`${at}: path`);
    if ((resource["type"] ?? "table") !== "table") found.push(`${at}: type`);
    found.push(...schemaFaults(resource["schema"] as Json, resources as Json[]).map((f) => `${at}: ${f}`));
  }
  return found;
}

const read = (): Json =>
  JSON.parse(readFileSync(new URL("../../data/datapackage.json", import.meta.url), "utf8")) as Json;

describe("data/datapackage.json", () => {
  it("keeps to the standard", () => {
    expect(packageFaults(read())).toEqual([]);
    expect((read()["resources"] as Json[]).map((r) => r["name"])).toEqual([
      "swings",
      "sessions",
      "hitters",
      "targets",
    ]);
  });

  it("would be caught if it didn't", () => {
    const spoilt = (spoil: (swings: Json, fields: Json[], schema: Json) => void): string[] => {
      const descriptor = read();
      const swings = (descriptor["resources"] as Json[])[0]!;
      const schema = swings["schema"] as Json;
      spoil(swings, schema["fields"] as Json[], schema);
      return packageFaults(descriptor);
    };
    expect(spoilt((swings) => void (swings["path"] = "../swings.csv"))).toHaveLength(1);
    expect(spoilt((swings) => void (swings["name"] = "Swings!"))).toHaveLength(1);
    expect(spoilt((_, fields) => void (fields[0]!["type"] = "text"))).not.toEqual([]);
    expect(spoilt((_, fields) => void (fields[0]!["name"] = "hitter"))).toHaveLength(1);
    expect(spoilt((_, fields) => void (fields[3]!["constraints"] = { minimum: 1 }))).toHaveLength(1);
    expect(spoilt((_, __, schema) => void (schema["fieldsMatch"] = "some"))).toHaveLength(1);
    expect(spoilt((_, __, schema) => void (schema["primaryKey"] = ["nothing"]))).toHaveLength(1);
  });
});
