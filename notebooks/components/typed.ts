/**
 * What a reader typed into a box, as a number: a comma is how much of the world writes decimals, and some type a real
 * minus sign. Null for an empty box, NaN for words.
 */
export function typed(text: string): number | null {
  const plain = text.trim().replace(",", ".").replace("\u2212", "-");
  return plain === "" ? null : Number(plain);
}
