/** A plain static server: files below one path, and nothing else. */
import { createReadStream } from "node:fs";
import { stat } from "node:fs/promises";
import { createServer } from "node:http";
import { extname, join, resolve, sep } from "node:path";
import type { AddressInfo } from "node:net";

const types: Record<string, string> = {
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript",
  ".css": "text/css",
  ".json": "application/json",
};

export interface StaticServer {
  readonly address: string;
  close(): Promise<void>;
}

/** Serves a folder below a path, such as `/club/pages/`, on a free port of this machine. */
export async function serveStatic(dir: string, below: string): Promise<StaticServer> {
  const server = createServer((request, response) => {
    const { pathname } = new URL(request.url ?? "/", "http://127.0.0.1");
    const file = resolve(join(dir, pathname.slice(below.length)));
    const fail = (): void => void response.writeHead(404).end("not here");
    if (!pathname.startsWith(below) || !`${file}${sep}`.startsWith(resolve(dir) + sep)) return fail();
    stat(file).then((found) => {
      if (!found.isFile()) return fail();
      response.setHeader("content-type", types[extname(file)] ?? "application/octet-stream");
      createReadStream(file).pipe(response);
    }, fail);
  });
  await new Promise<void>((done) => server.listen(0, "127.0.0.1", done));
  const { port } = server.address() as AddressInfo;
  return {
    address: `http://127.0.0.1:${port}${below}`,
    close: () =>
      new Promise((done) => {
        server.closeAllConnections();
        server.close(() => done());
      }),
  };
}
