/** The notebooks on this machine, live. */
import { createServer, mergeConfig } from "vite";
import { LibrarySource } from "./plugins/library-file.ts";
import { send } from "./plugins/send.ts";
import { viteConfig } from "./vite.config.ts";

/** Where the search for a free port begins. */
const firstPort = 5180;

export interface Served {
  /** Such as `http://127.0.0.1:5180/`. */
  readonly address: string;
  close(): Promise<void>;
}

/**
 * Serves the notebooks for one library on 127.0.0.1. A port that is asked for is used or refused; without one
 * the first free port is taken. New rows reach the pages by
 * themselves; a page reloads when its own file or a module changes. Unless `readOnly`, the page "Bring a file" may write
 * to the library, as \`add\` does.
 * @throws what openLibrary throws, and an error with the fault `call` when the port asked for can't be used.
 */
export async function serveNotebooks(options: {
  library: string;
  port?: number;
  readOnly?: boolean;
}): Promise<Served> {
  const { port } = options;
  const source = new LibrarySource(options.library);
  await source.text();
  const server = await createServer(
    mergeConfig(viteConfig(source, { dir: options.readOnly === true ? null : source.dir }), {
      plugins: [send(source.dir)],
      server: { port: port ?? firstPort, strictPort: port !== undefined },
    }),
  );
  await server.listen().catch(async (error: unknown) => {
    await server.close();
    // Vite's own sentence leaves out whose port it is; the call asked for it.
    throw Object.assign(new Error(`The port ${port} is in use or not ours to use.`), {
      fault: "call",
      cause: error,
    });
  });
  const bound = server.httpServer?.address();
  if (bound === null || bound === undefined || typeof bound === "string") {
    throw new Error("the server has no address");
  }
  return { address: `http://127.0.0.1:${bound.port}/`, close: () => server.close() };
}

/** Serves until somebody ends the program, by the keyboard or a signal: that is how it ends well. */
export async function untilStopped(served: Served): Promise<void> {
  await new Promise<void>((done) => {
    for (const signal of ["SIGINT", "SIGTERM"] as const)
      process.once(signal, () => {
        // Vite, told of the same signal, would end the program as one that was killed.
        process.exitCode = 0;
        done();
      });
  });
  await served.close();
}
