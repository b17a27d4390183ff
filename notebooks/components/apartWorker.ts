/** The thread beside the page: it has the page's library, and does one piece of work after the other. */
import type { Asked, Told, Work } from "./apart.ts";
import { received } from "./apartRows.ts";
import { readLibrary, type PageLibrary } from "./library.ts";
import { inSlices } from "./meanwhile.ts";
import * as comparisons from "./works/comparisons.ts";
import * as drillReport from "./works/drillReport.ts";
import * as field from "./works/field.ts";
import * as group from "./works/group.ts";
import * as liveRounds from "./works/liveRounds.ts";
import * as season from "./works/season.ts";
import * as setup from "./works/setup.ts";

const works = new Map(
  Object.values<Work<readonly never[], unknown>>({
    ...comparisons,
    ...drillReport,
    ...field,
    ...group,
    ...liveRounds,
    ...season,
    ...setup,
  } as never).map((work) => [work.name, work]),
);
const say = (word: Told): void => postMessage(word);
let library: PageLibrary | null = null;
/** The number of the work that is wanted. */
let wanted = 0;

/** So long between two looks at what the page has to say, ms: a look costs about a thousandth of that. */
const slice_ms = 8;

async function work({ n, name, args }: Asked & { kind: "work" }): Promise<void> {
  wanted = n;
  const asked = works.get(name)! as Work<readonly unknown[], unknown>;
  if ("run" in asked) return say({ kind: "done", n, answer: asked.run(library!, ...args) });
  const answer = await inSlices(asked.steps(library!, ...args), () => wanted === n, slice_ms);
  if (answer !== null) say({ kind: "done", n, answer: answer.value });
}

addEventListener("message", ({ data }: MessageEvent<Asked>) => {
  if (data.kind === "drop") {
    if (wanted === data.n) wanted = 0;
  } else if (data.kind === "work") {
    const { n } = data;
    work(data).catch((error: unknown) =>
      say({ kind: "failed", n, message: error instanceof Error ? error.message : String(error) }),
    );
  } else
    try {
      library = data.kind === "file" ? readLibrary(data.file) : received(data.library);
    } catch {
      // A library that can't be read has no work: the page says why.
    }
});
