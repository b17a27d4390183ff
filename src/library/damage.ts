/** What is damaged of a library besides its swings, which whoever opens it is told of: history, list, refused rows. */
import { join } from "node:path";
import { isSystemError, systemReason } from "./disk.ts";
import { UnusableFile, type Problem } from "../swing/problems.ts";
import { isStored, refusedFile, Shelves, swingsFile } from "./shelves.ts";

/**
 * Holds every file that a library stores besides its swings against its sum. What people mend may differ from it, and
 * is a warning.
 */
export async function damageIn(dir: string): Promise<Problem[]> {
  const shelves = await Shelves.open(dir);
  const problems: Problem[] = [];
  const note = (kind: Problem["kind"], file: string, reason: string): void =>
    void problems.push({
      kind,
      file: file.replaceAll("\\", "/"),
      row: null,
      field: null,
      value: null,
      reason,
    });
  for (const folder of ["swings", ...(await shelves.partitions()).map((partition) => partition.folder)]) {
    const names = await namesIn(shelves, folder);
    if (names instanceof UnusableFile) {
      note("refused", names.file, `the file ${names.reason}`);
      continue;
    }
    for (const name of names) {
      // Its damage is a problem of the library itself.
      if (name === swingsFile) continue;
      const path = join(folder, name);
      const error = await shelves.bytes(path).then(
        () => null,
        (error: unknown) => error,
      );
      if (error === null) continue;
      const byHand = refusedFile.test(name) || /map\.json$/.test(name);
      if (error instanceof UnusableFile && byHand) {
        const reason = `the file of ${shelves.whatOf(folder)} was changed since it was written, by hand or by damage`;
        note("warning", path, reason);
      } else if (error instanceof UnusableFile) note("refused", error.file, `the file ${error.reason}`);
      else if (isSystemError(error)) note("refused", path, `the file can't be read: ${systemReason(error)}`);
      else throw error;
    }
  }
  return problems;
}

/** The files that a folder has, or should have. */
async function namesIn(shelves: Shelves, folder: string): Promise<string[] | UnusableFile> {
  try {
    const sums = await shelves.sums(folder);
    const there = await shelves.files(folder);
    return [...new Set([...there.filter(isStored), ...sums.keys()])].sort();
  } catch (error) {
    if (error instanceof UnusableFile) return error;
    throw error;
  }
}
