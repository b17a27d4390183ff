/** What the server sends and to whom: only to this machine, and pages that may load nothing from another. */
import { createHash } from "node:crypto";
import type { Plugin } from "vite";

/**
 * The inputs library writes `::0`, `::1` ... where an element's listener will be set a moment later. The browser
 * takes that mark for a script; these hashes let the marks, and nothing else, stand.
 */
const marks = Array.from(
  { length: 24 },
  (_, i) => `'sha256-${createHash("sha256").update(`::${i}`).digest("base64")}'`,
).join(" ");

const shared = [
  "default-src 'none'",
  "script-src 'self'",
  `script-src-attr 'unsafe-hashes' ${marks}`,
  // Charts and inputs style their own elements.
  "style-src 'self' 'unsafe-inline'",
  "img-src 'self' data:",
  "base-uri 'none'",
  "form-action 'none'",
];

/** The policy of a page from the static site. */
export const builtPolicy = [...shared, "connect-src 'self'"].join("; ");

/** The policy of a page from the live server, which also holds the socket that reloads it. */
export function servedPolicy(host: string): string {
  return [...shared, "frame-ancestors 'none'", `connect-src 'self' ws://${host}`].join("; ");
}

/**
 * Whether a request's Host names this machine: anything else is another site's name that was pointed here.
 * @example isOurHost("127.0.0.1:5180") // true
 * @example isOurHost("192.168.0.4:5180") // false
 */
export function isOurHost(host: string | undefined): boolean {
  return host !== undefined && /^(127\.0\.0\.1|localhost)(:\d+)?$/.test(host);
}

export function guard(): Plugin {
  return {
    name: "batted:guard",
    configureServer(server) {
      server.middlewares.use((request, response, next) => {
        const { host } = request.headers;
        response.setHeader("x-content-type-options", "nosniff");
        response.setHeader("referrer-policy", "no-referrer");
        if (!isOurHost(host)) {
          response.statusCode = 403;
          response.setHeader("content-type", "text/plain; charset=utf-8");
          response.end("These pages are served to this machine only.\n");
          return;
        }
        response.setHeader("content-security-policy", servedPolicy(host!));
        next();
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
