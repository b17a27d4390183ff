/** Serves `library.json` beside the pages, and tells them when the library changes. */
import { existsSync, watch, type FSWatcher } from "node:fs";
import { open, readdir } from "node:fs/promises";
import { join } from "node:path";
import type { Plugin } from "vite";
import { libraryChanged } from "../components/live.ts";
import type { LibrarySource } from "./library-file.ts";

/** How long the folder must be quiet before the pages are told, ms: programs write a CSV in several steps. */
const quiet = 120;

/** How long a last line without its end may be one that is still being written, ms. Many a whole file has none. */
const halfLine = 2000;

/** Whether a CSV of the folder was written a moment ago and stands in the middle of a line: its rest is waited for. */
async function isHalfWritten(dir: string): Promise<boolean> {
  const names = await readdir(dir).catch(() => []);
  const checks = names
    .filter((name) => /\.csv$/i.test(name))
    .map(async (name) => {
      const file = await open(join(dir, name)).catch(() => null);
      if (file === null) return false;
      try {
        const { size, mtimeMs } = await file.stat();
        if (size === 0 || Date.now() - mtimeMs > halfLine) return false;
        const { buffer } = await file.read(Buffer.alloc(1), 0, 1, size - 1);
        return buffer[0] !== 10 && buffer[0] !== 13;
      } finally {
        await file.close();
      }
    });
  return (await Promise.all(checks)).includes(true);
}

/** @param source what is served; null for pages that are built, and get their library's file beside them afterwards */
export function library(source: Pick<LibrarySource, "dir" | "changed" | "text"> | null): Plugin {
  return {
    name: "batted:library",
    configureServer(server) {
      if (source === null) return;
      let timer: NodeJS.Timeout | undefined;
      const tell = async (): Promise<void> => {
        if (await isHalfWritten(source.dir)) timer = setTimeout(() => void tell(), quiet);
        else if (await source.changed()) server.ws.send({ type: "custom", event: libraryChanged });
      };
      const told = (_event: string, name: string | null): void => {
        if (name !== null && !/\.(csv|json)$/i.test(name)) return;
        clearTimeout(timer);
        timer = setTimeout(() => void tell(), quiet);
      };
      // A folder that is taken away is told of when a page asks for it.
      const look = (dir: string): FSWatcher => {
        const watcher = watch(dir, told);
        watcher.on("error", () => watcher.close());
        server.httpServer?.once("close", () => watcher.close());
        return watcher;
      };
      // The folder, and the log that `add` writes below it: all else down there may be anything.
      look(source.dir).on("change", (_event, name) => {
        if (name === swings) lookBelow();
      });
      const swings = "swings";
      let below: FSWatcher | null = null;
      const lookBelow = (): void => {
        const dir = join(source.dir, swings);
        if (below !== null || !existsSync(dir)) return;
        below = look(dir);
        told("change", null);
      };
      lookBelow();
      server.middlewares.use((request, response, next) => {
        if (!/^\/library\.json(\?|$)/.test(request.url ?? "")) return next();
        const send = (status: number, text: string): void => {
          response.statusCode = status;
          response.setHeader("content-type", "application/json; charset=utf-8");
          response.setHeader("cache-control", "no-store");
          response.end(text);
        };
        source.text().then(
          (text) => send(200, text),
          // The page shows the sentence: to the browser this is no failure.
          (error: unknown) =>
            send(200, JSON.stringify({ trouble: error instanceof Error ? error.message : String(error) })),
        );
      });
    },
    transformIndexHtml: {
      order: "post",
      // Every page asks for the library: the browser may begin before the page's code is there.
      handler: () => [
        { tag: "link", attrs: { rel: "preload", as: "fetch", href: "./library.json", crossorigin: true } },
      ],
    },
  };
}
