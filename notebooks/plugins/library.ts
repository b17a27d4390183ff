/** Serves `library.json` beside the pages, reloads them when the library changes, and writes it on a build. */
import { watch } from "node:fs";
import type { Plugin } from "vite";
import type { LibrarySource } from "./library-file.ts";

/** How long the folder must be quiet before the pages reload, ms: programs write a CSV in several steps. */
const quiet = 120;

export function library(source: Pick<LibrarySource, "dir" | "changed" | "text">): Plugin {
  return {
    name: "batted:library",
    configureServer(server) {
      let timer: NodeJS.Timeout | undefined;
      // The folder alone: what lies below it is none of the library, and may be anything.
      const watcher = watch(source.dir, (_event, name) => {
        if (name !== null && !/\.(csv|json)$/i.test(name)) return;
        clearTimeout(timer);
        timer = setTimeout(() => {
          void source.changed().then((changed) => {
            if (changed) server.ws.send({ type: "full-reload" });
          });
        }, quiet);
      });
      // A folder that is taken away is told of when a page asks for it.
      watcher.on("error", () => watcher.close());
      server.httpServer?.once("close", () => watcher.close());
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
    async generateBundle() {
      this.emitFile({ type: "asset", fileName: "library.json", source: await source.text() });
    },
  };
}
