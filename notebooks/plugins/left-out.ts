/**
 * What a page to send does without: it travels by mail, and most of what a notebook can do it doesn't. Each part left
 * out is one that loads only when a cell names it, and no cell of that page does.
 */
import type { Plugin } from "vite";

/** The analyst's verbs on tables, the colouring of code in prose, what a reader keeps in the browser. */
const parts: readonly (readonly [RegExp, string])[] = [
  [/^arquero$/, "export default undefined;"],
  [/^\.\/own\.[jt]s$/, "export const withOwn = (library) => library; export const ownChanged = '';"],
  [/[/\\]stdlib[/\\]highlight\.js$|^\.\/highlight\.js$/, "export const highlight = () => {};"],
];

const prefix = "\0left-out:";

export function leftOut(): Plugin {
  return {
    name: "batted:left-out",
    enforce: "pre",
    resolveId: (source) => {
      const at = parts.findIndex(([pattern]) => pattern.test(source));
      return at < 0 ? null : `${prefix}${at}`;
    },
    load: (id) => (id.startsWith(prefix) ? parts[Number(id.slice(prefix.length))]![1] : null),
  };
}
