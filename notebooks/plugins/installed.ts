/**
 * Notebook Kit names the libraries it offers by addresses on other machines. This plugin points every such
 * address, in the kit's own modules and in the cells, at the installed package of that name. A library that
 * is not installed becomes a module that says so, in one sentence, when a cell uses it.
 */
import { existsSync } from "node:fs";
import { createRequire } from "node:module";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import type { Plugin } from "vite";

const { resolve } = createRequire(import.meta.url);
const absentPrefix = "not-installed:";
/** The hosts the kit and the `npm:`, `jsr:` and `observable:` imports resolve to. */
const address =
  /(["'`])https:\/\/(cdn\.jsdelivr\.net\/npm|esm\.sh\/jsr|api\.observablehq\.com)\/([^"'`]*)\1/g;

/**
 * The package, and the path inside it, that an address on the kit's network names.
 * @example packageOf("apache-arrow@17.0.0/+esm").name // "apache-arrow"
 * @example packageOf("@observablehq/inputs/dist/index.css").path // "dist/index.css"
 */
export function packageOf(path: string): { name: string; path: string } {
  const parts = path.replace(/\/?\+esm$/, "").split("/");
  const ranged = parts.splice(0, path.startsWith("@") ? 2 : 1).join("/");
  const at = ranged.indexOf("@", 1);
  return { name: at > 0 ? ranged.slice(0, at) : ranged, path: parts.join("/") };
}

/** Where a package that the notebooks may use is installed, beside them or above; null when it is not. */
export function placeOf(name: string): string | null {
  if (!/^[@\w][\w./-]*$/.test(name)) return null;
  const places = (resolve.paths(name) ?? []).map((packages) => join(packages, name));
  return places.find((place) => existsSync(join(place, "package.json"))) ?? null;
}

/** Whether the notebooks may use a package of that name. */
export const isInstalled = (name: string): boolean => placeOf(name) !== null;

/** What a cell hears when it uses a library that is not installed. */
export function absentSentence(name: string): string {
  return `The library ${name} is not installed with these notebooks, and they load nothing from another machine.`;
}

/** The specifier that stands in for an address: an installed package, or a module that says it is absent. */
function specifierOf(host: string, path: string): string {
  const { name, path: inside } = packageOf(path);
  if (!host.startsWith("cdn.") || !isInstalled(name)) return absentPrefix + name;
  return inside === "" ? name : `${name}/${inside}`;
}

/**
 * A module's code with every address replaced, or null where there is none. A module of the kit that can't
 * be linked without an absent library (it imports names from it) throws that library's sentence instead.
 * @example withInstalled('import("https://cdn.jsdelivr.net/npm/d3/+esm")') // 'import("d3")'
 */
export function withInstalled(code: string): string | null {
  if (code.search(address) < 0) return null;
  const linked = /^\s*(?:import|export)\b[^;("']*?["']https:\/\/([^/]+)[^"']*?\/(?:npm|jsr)\/([^"']*)["']/gm;
  for (const [, host = "", path = ""] of code.matchAll(linked)) {
    const { name } = packageOf(path);
    if (!host.startsWith("cdn.") || !isInstalled(name)) return absentModule(name, exportsOf(code));
  }
  // Sample data sets are files on another machine: each of them is an absent library.
  if (code.includes("/npm/@observablehq/sample-datasets/")) {
    const absent = JSON.stringify(absentSentence("of sample data sets"));
    return exportsOf(code)
      .map((name) => `export const ${name} = () => { throw new Error(${absent}); };`)
      .join("\n");
  }
  return code.replace(
    address,
    (_, quote: string, host: string, path: string) => `${quote}${specifierOf(host, path)}${quote}`,
  );
}

function exportsOf(code: string): string[] {
  return [...code.matchAll(/^export (?:const|let|class|function|async function) (\w+)/gm)].map((m) => m[1]!);
}

function absentModule(name: string, names: readonly string[] = []): string {
  const declared = names.map((n) => `export const ${n} = undefined;`).join("\n");
  return `throw new Error(${JSON.stringify(absentSentence(name))});\n${declared}\nexport default undefined;\n`;
}

export function installed(): Plugin {
  return {
    name: "batted:installed",
    enforce: "pre",
    async resolveId(source, importer = "", options) {
      if (source.startsWith(absentPrefix)) return `\0${source}`;
      // The kit doesn't see what is installed with the notebooks and not beside itself.
      const ours = importer.includes("/notebook-kit/dist/src/") && isInstalled(packageOf(source).name);
      return ours
        ? this.resolve(source, fileURLToPath(import.meta.url), { ...options, skipSelf: true })
        : null;
    },
    load(id) {
      return id.startsWith(`\0${absentPrefix}`) ? absentModule(id.slice(absentPrefix.length + 1)) : null;
    },
    transform(code, id) {
      const ours = id.includes("/notebook-kit/dist/src/") || id.includes("html-proxy");
      const replaced = ours ? (id.includes(".css") ? cssWithInstalled(code) : withInstalled(code)) : null;
      return replaced === null ? null : { code: replaced, map: null };
    },
  };
}

/** A style sheet whose imports from another machine come from the installed packages. */
function cssWithInstalled(code: string): string | null {
  const imported = /@import url\((["'])https:\/\/cdn\.jsdelivr\.net\/npm\/([^"']*)\1\)/g;
  if (code.search(imported) < 0) return null;
  return code.replace(imported, (_, quote: string, path: string) => {
    const { name, path: inside } = packageOf(path);
    return `@import url(${quote}${name}/${inside}${quote})`;
  });
}
