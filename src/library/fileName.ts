/** File names made from people's names: safe on every system, one for each. */
import { asDisksSee } from "../swing/partition.ts";
import { sha256Of } from "../swing/sha256.ts";

const longest = 48;

/**
 * A file name for each name: letters and digits kept in lower case, all else a hyphen, so that no name can
 * leave its folder, hide or be a device. Names that would share a file, and names without a letter or digit,
 * get a few digits of their hash.
 * @param names different names
 * @returns in the same order
 * @example fileNames(["Ada K.", "../../x", "CON"], "report") // ["report-ada-k.html", "report-x.html", "report-con.html"]
 */
export function fileNames(names: readonly string[], prefix: string): string[] {
  const plain = names.map(slug);
  // What disks might confuse counts as one.
  const folded = plain.map(asDisksSee);
  const counts = new Map<string, number>();
  for (const f of folded) counts.set(f, (counts.get(f) ?? 0) + 1);
  return names.map((name, i) => {
    const alone = counts.get(folded[i]!) === 1 && plain[i] !== "";
    const parts = alone ? [prefix, plain[i]!] : [prefix, plain[i]!, digest(name)].filter((p) => p !== "");
    return `${parts.join("-")}.html`;
  });
}

function slug(name: string): string {
  const words = name
    .normalize("NFC")
    .toLowerCase()
    .replace(/[^\p{L}\p{N}\p{M}]+/gu, "-");
  return [...words.replace(/^-+|-+$/g, "")].slice(0, longest).join("").replace(/-+$/, "");
}

const digest = (name: string): string => sha256Of(name).slice(0, 8);
