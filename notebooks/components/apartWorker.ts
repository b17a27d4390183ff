/** The thread beside the page: it has the page's library, and does one piece of work after the other. */
import type { Asked, Told, Work } from "./apart.ts";
import { received } from "./apartRows.ts";
import { readLibrary, type PageLibrary } from "./library.ts";
import * as season from "./works/season.ts";

const works = new Map(
  Object.values<Work<readonly never[], unknown>>({ ...season } as never).map((work) => [work.name, work]),
);
const say = (word: Told): void => postMessage(word);
let library: PageLibrary | null = null;

addEventListener("message", ({ data }: MessageEvent<Asked>) => {
  try {
    if (data.kind === "file") library = readLibrary(data.file);
    else if (data.kind === "library") library = received(data.library);
    else
      say({ kind: "done", answer: works.get(data.name)!.run(library!, ...(data.args as readonly never[])) });
  } catch (error) {
    // A library that can't be read has no work: the page says why.
    if (data.kind === "work")
      say({ kind: "failed", message: error instanceof Error ? error.message : String(error) });
  }
});
