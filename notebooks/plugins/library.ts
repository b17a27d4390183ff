/** Serves `library.json` beside the pages, reloads them when the library changes, and writes it on a build. */
import { relative } from "node:path";
import type { Plugin } from "vite";
import type { LibrarySource } from "./library-file.ts";

/** How long the folder must be quiet before the pages reload, ms: programs write a CSV in several steps. */
const quiet = 120;

export function library(source: Pick<LibrarySource, "dir" | "changed" | "text">): Plugin {
  return {
    name: "batted:library",
    configureServer(server) {
      let timer: NodeJS.Timeout | undefined;
      server.watcher.add(source.dir);
      server.watcher.on("all", (_event, path) => {
        const inside = relative(source.dir, path);
        if (inside.startsWith("..") || !/^[^/\\]+\.(csv|json)$/i.test(inside)) return;
        clearTimeout(timer);
        timer = setTimeout(() => {
          void source.changed().then((changed) => {
            if (changed) server.ws.send({ type: "full-reload" });
          });
        }, quiet);
      });
      server.middlewares.use("/library.json", (_request, response) => {
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
    async generateBundle() {
      this.emitFile({ type: "asset", fileName: "library.json", source: await source.text() });
    },
  };
}
