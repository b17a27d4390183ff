/** A built page that is opened as a file: a browser loads its code from a server alone, so the page says what to do. */
import { createHash } from "node:crypto";
import type { Plugin } from "vite";

/** What the page says then, and where scripts are switched off. */
export const fromDisk = {
  file: "Opened as a file, this page stays empty: browsers load a page's code from a server only. Put its folder on any web server, or show the library on this machine with “npx tsx src/cli/main.ts notebooks --library” and the library's folder.",
  scriptless: "This page draws its figures in your browser: allow scripts for it, and load it again.",
} as const;

const id = "from-disk";

/** Works without modules, which a file may not load. */
const script = `if (location.protocol === "file:") {
  document.getElementById("${id}").hidden = false;
  document.getElementById("opening").remove();
}`;

/** Lets this script, and no other inline one, run. */
export const fromDiskHash = `'sha256-${createHash("sha256").update(script).digest("base64")}'`;

// The page's own stylesheet is not loaded either.
const style =
  "border-left: 4px solid; font: 1rem/1.5 sans-serif; margin: 1rem; max-width: 40rem; padding: 0.5rem 1rem";

export function sayFromDisk(): Plugin {
  return {
    name: "batted:from-disk",
    transformIndexHtml: {
      order: "post",
      handler(_html, context) {
        if (context.server !== undefined) return [];
        return [
          {
            tag: "p",
            attrs: { id, hidden: true, role: "status", style },
            children: fromDisk.file,
            injectTo: "body-prepend",
          },
          {
            tag: "noscript",
            children: `<p style="${style}">${fromDisk.scriptless}</p>`,
            injectTo: "body-prepend",
          },
          { tag: "script", children: script, injectTo: "body" },
        ];
      },
    },
  };
}
