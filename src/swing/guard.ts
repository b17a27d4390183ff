/**
 * The mark that keeps a spreadsheet from computing a text: a `'` in front. It is put on when a text is written and
 * taken off when it is read, so that the text comes back as it was, also one that began with such a mark itself.
 */

/** What a spreadsheet would compute rather than show, blanks before it or not, and what would pass for the mark. */
const computed = /^['\s]*[=+\-@＝＋－＠]|^'*[\t\r]/;

/**
 * A text that a spreadsheet shows as text.
 * @example guarded("=1+1") // "'=1+1"
 * @example guarded("Ana") // "Ana"
 */
export function guarded(text: string): string {
  return computed.test(text) ? `'${text}` : text;
}

/**
 * A text as it was before it was guarded.
 * @example unguarded("'=1+1") // "=1+1"
 */
export function unguarded(text: string): string {
  return text.startsWith("'") && computed.test(text) ? text.slice(1) : text;
}
