/**
 * What the live server sends: the pages, what they are made of, and nothing else of the project. Which modules those
 * are is no list that someone keeps: a module is sent when the code of one that was sent names it.
 */
import type { Plugin, ViteDevServer } from "vite";
import { pages } from "../pages.ts";

/** Parts that every page is built on: packages that anybody can read, which a browser may hold in part already. */
const packages =
  /^\/@fs\/(?:[^?]*\/)?node_modules\/(\.vite\/notebooks\/deps|@observablehq\/notebook-kit\/dist|vite\/dist\/client|@fontsource(?:-variable)?\/[\w-]+\/files)\/[^?]*\.(m?js|css|map|woff2?)(\?v=\w+)?$/;

/** What another plugin answers. */
const answered = /^\/send\?/;

const own = new Set(["/", "/@vite/client", ...pages.map(({ file }) => `/${file}`)]);

/** An address without the marks that say why it is asked for. */
const plain = (url: string): string =>
  url
    .replace(/([?&])(?:import|t=\d+)(?=&|$)/g, "$1")
    .replace(/[?&]+$/, "")
    .replace("?&", "?");

/**
 * Whether an address is a page's own, as it stands or as a part of the page.
 * @example isPage("/index.html?html-proxy&index=0.js") // true
 * @example isPage("/serve.ts") // false
 */
function isPage(url: string): boolean {
  const [path = "", query = ""] = url.split("?", 2);
  if (!own.has(path)) return false;
  // What a page's address carries is read by the page; what asks the server for another form of the file is not.
  return path.endsWith(".html") && /(^|&)html-proxy(&|$)/.test(query)
    ? /^html-proxy(&(direct|inline-css|style-attr))*&index=\d+\.(js|css)(&direct)?$/.test(query)
    : !/(^|&)(raw|url|inline|worker\w*|sharedworker|init|import)(=|&|$)/.test(query);
}

/** Whether the code of a module that was sent names an address. */
function isNamed({ environments: { client } }: ViteDevServer, url: string): boolean {
  const modules = client!.moduleGraph.urlToModuleMap;
  const asked = modules.get(plain(url));
  if (asked !== undefined && asked.importers.size > 0) return true;
  // Workers and pictures are no imports.
  for (const { transformResult } of modules.values())
    if (transformResult?.code.includes(`"${plain(url)}"`) === true) return true;
  return false;
}

export function imported(): Plugin {
  return {
    name: "batted:imported",
    configureServer(server) {
      server.middlewares.use((request, response, next) => {
        const url = request.url ?? "";
        if (isPage(url) || answered.test(url) || packages.test(url) || isNamed(server, url)) return next();
        response.statusCode = 404;
        response.setHeader("content-type", "text/plain; charset=utf-8");
        response.end("There is no such page.\n");
      });
    },
  };
}
