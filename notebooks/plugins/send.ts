/** Gives a page to send: `/send?hitter=NAME`, one file with that hitter's swings alone. */
import type { Plugin } from "vite";
import { pagesToSend } from "../onePage.ts";
import { openLibrary } from "../../src/library/library.ts";

export function send(dir: string): Plugin {
  return {
    name: "batted:send",
    configureServer(server) {
      server.middlewares.use((request, response, next) => {
        const { pathname, searchParams } = new URL(request.url ?? "/", "http://127.0.0.1");
        if (pathname !== sendPath) return next();
        const refuse = (status: number, sentence: string): void => {
          response.statusCode = status;
          response.setHeader("content-type", "text/plain; charset=utf-8");
          response.end(`${sentence}\n`);
        };
        const answer = async (): Promise<void> => {
          const library = await openLibrary(dir);
          const hitter = searchParams.get("hitter") ?? "";
          if (!library.swings.some((swing) => swing.hitter === hitter))
            return refuse(404, "The library has no swings of that hitter.");
          const part = { initials: searchParams.get("initials") === "yes" };
          for await (const { file, html } of pagesToSend(library, [hitter], part)) {
            response.setHeader("content-type", "text/html; charset=utf-8");
            response.setHeader("cache-control", "no-store");
            // Saved and not shown: here it would be a page of this server, with other rules than its own.
            response.setHeader(
              "content-disposition",
              `attachment; filename="swings.html"; filename*=UTF-8''${encodeURIComponent(file)}`,
            );
            response.end(html);
          }
        };
        answer().catch((error: unknown) =>
          refuse(500, error instanceof Error ? error.message : "The page could not be made."),
        );
      });
    },
  };
}

/** Where the server gives it. */
const sendPath = "/send";
