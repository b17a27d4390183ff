/** HTML from templates in which a value can only ever be text. */
import { escapeHtml } from "../swing/words.ts";

/** A piece of finished HTML. */
export class Markup {
  readonly text: string;
  constructor(text: string) {
    this.text = text;
  }
}

/** What a template may hold: text and numbers are escaped, markup is not, lists are joined, the rest is nothing. */
export type Piece = string | number | Markup | null | undefined | false | readonly Piece[];

/**
 * A template tag: `html\`<p>${text}</p>\``. A value stands between tags or in a quoted attribute, and nowhere
 * else: no value may be a tag's or an attribute's name, an address, a style or a script.
 */
export function html(strings: TemplateStringsArray, ...values: Piece[]): Markup {
  return new Markup(strings.map((s, i) => (i === 0 ? "" : textOf(values[i - 1])) + s).join(""));
}

function textOf(piece: Piece): string {
  if (piece === null || piece === undefined || piece === false) return "";
  if (piece instanceof Markup) return piece.text;
  if (typeof piece === "object") return piece.map(textOf).join("");
  return escapeHtml(String(piece));
}
