/** HTML from templates in which a value can only ever be text. */

/** A piece of finished HTML. */
export class Markup {
  readonly text: string;
  constructor(text: string) {
    this.text = text;
  }
}

/** What a template may hold: text and numbers are escaped, markup is not, lists are joined, the rest is nothing. */
export type Piece = string | number | Markup | null | undefined | false | readonly Piece[];

const entities: Record<string, string> = {
  "&": "&amp;",
  "<": "&lt;",
  ">": "&gt;",
  '"': "&quot;",
  "'": "&#39;",
};

/**
 * Text as HTML, safe between tags and inside a quoted attribute. Control characters, which HTML can't hold,
 * become the replacement character.
 * @example escapeHtml("<b a='1'>") // "&lt;b a=&#39;1&#39;&gt;"
 */
export function escapeHtml(text: string): string {
  return text
    .replace(/[&<>"']/g, (c) => entities[c]!)
    .replace(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f-\u009f]|\p{Surrogate}/gu, "\ufffd");
}

/**
 * The text that was written as HTML by `escapeHtml`.
 * @example unescapeHtml("&lt;b a=&#39;1&#39;&gt;") // "<b a='1'>"
 */
export function unescapeHtml(text: string): string {
  const named = new Map(Object.entries(entities).map(([character, entity]) => [entity, character]));
  return text.replace(/&(?:amp|lt|gt|quot|#39);/g, (entity) => named.get(entity)!);
}

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
