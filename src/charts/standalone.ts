/** A chart as a drawing that stands alone, for programs that know no custom properties: a file, a picture. */
import { colourNames, colourValue, letters, writtenOut, type ColourName, type Scheme } from "./theme.ts";

const known: ReadonlySet<string> = new Set(colourNames);

/**
 * A chart's markup with every colour and letter written out, as a file of its own.
 * @param markup as a page or a report holds it
 * @example standAlone('<svg><text fill="var(--ink)"/></svg>') // '<svg xmlns="http://www.w3.org/2000/svg"><text fill="#1f1b16"/></svg>'
 */
export function standAlone(markup: string, scheme: Scheme = "light"): string {
  const coloured = writtenOut(markup, scheme).replace(/var\(--([a-z0-9-]+)\)/g, (whole, name: string) => {
    if (known.has(name)) return colourValue(name as ColourName, scheme);
    return name === "serif" || name === "sans" ? letters[name] : whole;
  });
  return /^<svg[^>]*\sxmlns=/.test(coloured)
    ? coloured
    : coloured.replace(/^<svg/, '<svg xmlns="http://www.w3.org/2000/svg"');
}

/**
 * What kind of chart a drawing is, as its class says: a part of a file's name.
 * @example chartKind('<svg class="batted-spray-chart" role="img">') // "spray-chart"
 */
export const chartKind = (markup: string): string =>
  /^<svg[^>]*\sclass="batted-([a-z-]+)/.exec(markup)?.[1] ?? "chart";
