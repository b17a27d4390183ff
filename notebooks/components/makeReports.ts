/** Reports made on a page: the same modules, and so the same bytes, as the command's. */
import serif from "@fontsource/newsreader/files/newsreader-latin-500-normal.woff2?inline";
import sans from "@fontsource-variable/public-sans/files/public-sans-latin-wght-normal.woff2?inline";
import { strToU8, zipSync } from "fflate";
import { enricher } from "../../src/contact/enrich.ts";
import { faceRules, type FaceFile } from "../../src/report/faces.ts";
import { Reports, shownLibrary, type ReportChoices, type ReportLibrary } from "../../src/report/reports.ts";
import { trustBySession } from "../../src/setup/trust.ts";
import type { EnrichedSwing } from "../../src/swing/fields.ts";
import type { PageLibrary } from "./library.ts";

const letters = (): string => {
  const inline: Readonly<Record<FaceFile, string>> = {
    "@fontsource/newsreader/files/newsreader-latin-500-normal.woff2": serif,
    "@fontsource-variable/public-sans/files/public-sans-latin-wght-normal.woff2": sans,
  };
  return faceRules((file) => inline[file].slice(inline[file].indexOf(",") + 1));
};

/** A library as reports are made from it: of what is wrong with it they tell only which files couldn't be read. */
const reportLibrary = ({
  swings,
  sessions,
  hitters,
  targets,
  thresholds,
  files,
  unreadFiles,
}: PageLibrary): ReportLibrary => ({
  swings: [...swings],
  sessions: [...sessions],
  hitters: [...hitters],
  targets: [...targets],
  thresholds,
  files: [...files],
  problems: unreadFiles.map((file) => ({
    kind: "refused" as const,
    file,
    row: null,
    field: null,
    value: null,
    reason: "the file can't be read",
  })),
});

/** So many swings are worked out in one go. */
const slice = 400;
const pause = (): Promise<void> => new Promise((done) => setTimeout(done));

/**
 * A library's reports, made ready without holding up the page.
 * @param isWanted asked between pieces of the work; once it says no, the work is left
 * @returns null when it was left
 */
export async function makeReports(
  library: PageLibrary,
  choices: ReportChoices,
  isWanted: () => boolean,
): Promise<Reports | null> {
  const given = reportLibrary(library);
  const shown = shownLibrary(given, choices);
  const making = enricher(shown);
  const rows: EnrichedSwing[] = [];
  for (const [i, swing] of shown.swings.entries()) {
    if (i % slice === 0) {
      await pause();
      if (!isWanted()) return null;
    }
    rows.push(making.enrich(swing));
  }
  const trust = trustBySession(rows, shown.sessions);
  return new Reports(
    given,
    shown,
    choices,
    { rows, trust, thresholds: making.thresholds },
    { document, version: library.version, letters: letters() },
  );
}

/** Reports as one file to save: the page itself where there is one, else a zip of them all with the page that leads to them. */
export async function filed(
  reports: Reports,
  hitters: readonly string[],
  onMade: (done: number) => void,
): Promise<{ name: string; blob: Blob }> {
  if (hitters.length === 1)
    return {
      name: reports.file(hitters[0]!),
      blob: new Blob([reports.page(hitters[0]!)], { type: "text/html" }),
    };
  const parts: Record<string, Uint8Array> = {};
  for (const [i, hitter] of hitters.entries()) {
    onMade(i);
    await pause();
    parts[reports.file(hitter)] = strToU8(reports.page(hitter));
  }
  parts["index.html"] = strToU8(reports.index(hitters));
  return {
    name: "reports.zip",
    blob: new Blob([zipSync(parts, { level: 6 }) as Uint8Array<ArrayBuffer>], { type: "application/zip" }),
  };
}
