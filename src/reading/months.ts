/**
 * Months' names, whole and short, in the languages of data/layout-words.json that write them out. By themselves, so that
 * who only reads days needs no list of headings. The Unicode locale data (CLDR) have these; a few more spellings
 * are common practice, no source.
 */

/** January first; each with its spellings. */
const spellings: readonly (readonly string[])[] = [
  "january januar jänner januari janvier janv enero ene gennaio gen jan",
  "february februar feber februari février févr fév febrero febbraio feb",
  "march märz maart mars marzo mär mrz mrt mar",
  "april avril abril aprile avr abr apr",
  "may mai mei mayo maggio mag",
  "june juni juin junio giugno giu jun",
  "july juli juillet juil julio luglio lug jul",
  "august augustus août agosto ago aug",
  "september septembre septiembre setiembre settembre sett sept set sep",
  "october oktober octobre octubre ottobre ott okt oct",
  "november novembre noviembre nov",
  "december dezember décembre diciembre dicembre dez déc dic dec",
].map((names) => names.split(" "));

const folded = (text: string): string =>
  text
    .toLowerCase()
    .normalize("NFD")
    .replace(/[\u0300-\u036f.]/g, "");

const months = new Map(
  spellings.flatMap((names, at) => names.map((name) => [folded(name), at + 1] as const)),
);

/**
 * The month that a text names, whole or short; null where it names none.
 * @returns 1 to 12
 * @example monthNamed("Sept.") // 9
 * @example monthNamed("MÄRZ") // 3
 */
export const monthNamed = (text: string): number | null => months.get(folded(text)) ?? null;
