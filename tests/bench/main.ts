/** `npm run bench`: every bench of this folder, or those named: `npm run bench -- flight`. */
import { readdirSync } from "node:fs";
import { pathToFileURL } from "node:url";

const folder = new URL(".", import.meta.url);
const wanted = process.argv.slice(2);
const names = readdirSync(folder)
  .filter((file) => file.endsWith(".ts") && file !== "main.ts")
  .map((file) => file.slice(0, -3))
  .filter((name) => wanted.length === 0 || wanted.includes(name))
  .sort();
const unknown = wanted.filter((name) => !names.includes(name));
if (unknown.length > 0) {
  console.error(`There is no bench ${unknown.join(", ")}.`);
  process.exitCode = 2;
}
for (const name of names) {
  const file = pathToFileURL(new URL(`${name}.ts`, folder).pathname).href;
  const exported = Object.values((await import(file)) as Record<string, unknown>);
  // A file that only helps others exports no bench.
  for (const run of exported) {
    if (typeof run === "function" && run.name.startsWith("bench")) await (run as () => Promise<void>)();
  }
}
