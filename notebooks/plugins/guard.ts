/** What the server sends and to whom: only to this machine, and pages that may load nothing from another. */
import { createHash } from "node:crypto";
import type { IncomingMessage, Server } from "node:http";
import type { Socket } from "node:net";
import type { Plugin } from "vite";
import { fromDiskHash } from "./from-disk.ts";

/**
 * The inputs library writes `::0`, `::1` ... where an element's listener will be set a moment later. The browser
 * takes that mark for a script; these hashes let the marks, and nothing else, stand.
 */
const marks = Array.from(
  { length: 24 },
  (_, i) => `'sha256-${createHash("sha256").update(`::${i}`).digest("base64")}'`,
).join(" ");

/** What pages may run, load and style, with scripts of theirs that stand in the page itself, by their hashes. */
export const pageShared = (...inline: string[]): string[] => [
  "default-src 'none'",
  // The analyst's verbs (Arquero) turn what a cell asks of a table into a function, which the browser calls evaluation.
  // A page's scripts are ours and its reader's own cells; names and notes of a library are text and reach none of them.
  // The reports to hand out have no script at all, and a policy of their own.
  ["script-src 'self' 'unsafe-eval'", ...inline].join(" "),
  `script-src-attr 'unsafe-hashes' ${marks}`,
  // Charts and inputs style their own elements.
  "style-src 'self' 'unsafe-inline'",
  "img-src 'self' data:",
  // A report to hand out carries its letters, and is seen within a page before it is printed.
  "font-src 'self' data:",
  // A large file is read beside the page, so that the page stays alive.
  "worker-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
];

/** The policy of a page from the static site. */
export const builtPolicy = [...pageShared(fromDiskHash), "connect-src 'self'"].join("; ");

/** The policy of a page from the live server, which also holds the socket that tells it of new rows. */
export function servedPolicy(host: string): string {
  return [...pageShared(), "frame-ancestors 'none'", `connect-src 'self' ws://${host}`].join("; ");
}

/**
 * Whether a request's Host names this machine: anything else is another site's name that was pointed here.
 * @example isOurHost("127.0.0.1:5180") // true
 * @example isOurHost("192.168.0.4:5180") // false
 */
function isOurHost(host: string | undefined): boolean {
  return host !== undefined && /^(127\.0\.0\.1|localhost)(:\d+)?$/.test(host);
}

/**
 * Why a request is not answered, or null: what a page of ours never sends. Another site's page, open in the same
 * browser, can reach this machine too; a person may still follow its link here.
 * @param takesWrites whether an address is one that a page of ours may write to
 */
export function refusal(
  request: Pick<IncomingMessage, "method" | "url" | "headers">,
  takesWrites: (url: string) => boolean = () => false,
): Refused | null {
  const { method, url = "", headers } = request;
  if (!isOurHost(headers.host))
    return { status: 403, sentence: "These pages are served to this machine only." };
  const writes = method === "POST" && takesWrites(url);
  if (method !== "GET" && method !== "HEAD" && !writes)
    return { status: 405, sentence: "Pages here are only read." };
  const { "sec-fetch-site": site, "sec-fetch-mode": mode, "sec-fetch-dest": dest } = headers;
  const within = site === undefined || site === "same-origin" || site === "none";
  // A browser names the page's origin on everything that could write.
  if (writes && !(within && headers.origin === `http://${headers.host}`))
    return { status: 403, sentence: "Only a page of this server may write." };
  if (!within && !(mode === "navigate" && dest === "document"))
    return { status: 403, sentence: "Another site's page asked for this." };
  // Vite's helpers begin so; one of them opens any file of this machine in an editor.
  if (!url.startsWith("/") || url.startsWith("/__"))
    return { status: 404, sentence: "There is no such page." };
  return null;
}

interface Refused {
  readonly status: number;
  readonly sentence: string;
}

/** Whether a page of ours opens the socket that reloads it: a browser always names the page's origin. */
function isOurSocket({ headers }: Pick<IncomingMessage, "headers">): boolean {
  const { host, origin, "sec-websocket-protocol": protocol } = headers;
  // One of another kind is answered by nobody, and would stand open.
  return isOurHost(host) && origin === `http://${host}` && /^vite-(hmr|ping)$/.test(protocol ?? "");
}

/** How long a connection may take to ask for something whole, and stand still in the midst of an answer, ms. */
const usual = { asking: 8_000, body: 60_000, answer: 120_000 };

/**
 * Closes connections that ask for nothing, or for half of something: they would stand until there are too many.
 * @param patience how long each may take, ms
 */
export function closeHalfOpen(server: Server, patience: Readonly<typeof usual> = usual): void {
  const waiting = new Map<Socket, NodeJS.Timeout>();
  const settled = (socket: Socket): void => {
    clearTimeout(waiting.get(socket));
    waiting.delete(socket);
  };
  server.on("connection", (socket) => {
    const overdue = (): void => {
      if (waiting.has(socket)) socket.destroy();
    };
    // What came while the program was busy is read first.
    waiting.set(
      socket,
      setTimeout(() => setImmediate(overdue), patience.asking),
    );
    socket.once("close", () => settled(socket));
  });
  server.prependListener("request", ({ socket }) => settled(socket));
  server.prependListener("upgrade", ({ socket }) => settled(socket));
  // The same for what follows on one connection.
  server.headersTimeout = patience.asking;
  server.requestTimeout = patience.body;
  server.timeout = patience.answer;
}

export function guard(takesWrites: (url: string) => boolean = () => false): Plugin {
  return {
    name: "batted:guard",
    configureServer(server) {
      server.middlewares.use((request, response, next) => {
        response.setHeader("x-content-type-options", "nosniff");
        response.setHeader("referrer-policy", "no-referrer");
        response.setHeader("cross-origin-resource-policy", "same-origin");
        const refused = refusal(request, takesWrites);
        if (refused !== null) {
          response.statusCode = refused.status;
          if (refused.status === 405) response.setHeader("allow", "GET, HEAD");
          response.setHeader("content-type", "text/plain; charset=utf-8");
          response.end(`${refused.sentence}\n`);
          return;
        }
        response.setHeader("content-security-policy", servedPolicy(request.headers.host!));
        next();
      });
      if (server.httpServer !== null) closeHalfOpen(server.httpServer as Server);
      server.httpServer?.prependListener("upgrade", (request, socket) => {
        if (!isOurSocket(request)) socket.destroy();
      });
    },
    transformIndexHtml(_html, context) {
      // The static site has no server of ours to send the header.
      if (context.server !== undefined) return [];
      const attrs = { "http-equiv": "Content-Security-Policy", content: builtPolicy };
      return [{ tag: "meta", attrs, injectTo: "head-prepend" }];
    },
  };
}
