/** An SVG as a value that two drawings of the same picture share, whoever drew them. */
import { JSDOM } from "jsdom";

export interface Drawing {
  readonly tag: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly content: readonly (Drawing | string)[];
}

const rounded = (text: string): string =>
  text.replace(/-?\d*\.\d+(?:e-?\d+)?/g, (number) => String(Math.round(Number(number) * 100) / 100 + 0));

function drawingOf(element: Element): Drawing {
  const attributes = [...element.attributes].map(({ name, value }) => [name, rounded(value)] as const);
  return {
    tag: element.tagName.toLowerCase(),
    attributes: Object.fromEntries(attributes.sort(([a], [b]) => (a < b ? -1 : 1))),
    content: [...element.childNodes].flatMap((node): (Drawing | string)[] => {
      if (node.nodeType === 1) return [drawingOf(node as Element)];
      return node.textContent ? [rounded(node.textContent)] : [];
    }),
  };
}

/** The drawing in an element's outer HTML, numbers rounded to 0.01. */
export function drawing(outerHTML: string): Drawing {
  const element = new JSDOM(outerHTML).window.document.body.firstElementChild;
  if (element === null) throw new TypeError("there is no element in this text");
  return drawingOf(element);
}
