/** Drawing in Node. */
import { JSDOM } from "jsdom";
import type { gallery } from "./gallery.ts";

/** A document of its own for each call: nothing is shared between charts. */
export const newDocument = (): Document => new JSDOM("").window.document;

export const drawn = (draw: (typeof gallery)[string], width: number): SVGSVGElement =>
  draw(width, newDocument());
