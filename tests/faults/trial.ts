/**
 * Random faults, one at a time, over the commands that write: the disk refuses a call, the process is killed at one, a
 * bit flips or a file is cut. After each it is asked whether anything is lost, wrong without a word, or hung.
 */
import { spawn } from "node:child_process";
import { createHash } from "node:crypto";
import { cp, mkdir, readdir, readFile, rm, truncate, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { randomLcg } from "d3";
import { isStored } from "../../src/library/shelves.ts";
import { sumsFile } from "../../src/library/sums.ts";
import { run, type Run } from "../cli/run.ts";
import { root } from "../house/files.ts";
import { arm, counted, install, type DiskFault } from "./inject.ts";
import { libraryToChange, swingsIn } from "./scene.ts";

export const commands = ["add", "forget", "enrich", "report", "build"] as const;
export type Command = (typeof commands)[number];
export const kinds = ["kill", "ENOSPC", "EACCES", "EIO", "flipped bit", "cut file"] as const;
export type Kind = (typeof kinds)[number];

/** What came of one fault. */
export interface Outcome {
  readonly command: Command;
  readonly kind: Kind;
  /** `told`: it ended with another status than 0, and a sentence. `unharmed`: it was done, and rightly. */
  readonly ended: "told" | "unharmed" | "killed";
  /** What is lost, wrong without a word, or hung, in words; none is the only right number. */
  readonly wrong: readonly string[];
}

/** How often each command has its turn, of a hundred; a build takes as long as fifty of the others. */
const turns: Readonly<Record<Command, number>> = { add: 43, forget: 26, enrich: 15, report: 12, build: 4 };

/** A command that has not ended after so long hangs, ms: a busy machine takes minutes for what takes seconds. */
const patience = 20 * 60_000;

interface Scene {
  readonly library: string;
  readonly sheet: string;
}

const argsOf = (command: Command, { library, sheet }: Scene, out: string): string[] =>
  ({
    add: ["add", sheet, "--library", library],
    forget: ["forget", "--hitter", "Ana", "--library", library],
    enrich: ["enrich", sheet, "-o", join(out, "enriched.csv")],
    report: ["report", "--library", library, "-o", out],
    build: ["build", "--library", library, "-o", out],
  })[command];

/** Where a command writes. */
const placeOf = (command: Command, library: string, out: string): string =>
  command === "add" || command === "forget" ? library : out;

async function within<T>(work: Promise<T>): Promise<T | "hung"> {
  let timer: NodeJS.Timeout | undefined;
  const late = new Promise<"hung">((resolve) => (timer = setTimeout(() => resolve("hung"), patience)));
  return Promise.race([work, late]).finally(() => clearTimeout(timer));
}

/** The files that were made, by path; those of a site have names and weights that are its maker's own business. */
async function made(command: Command, out: string): Promise<Map<string, string>> {
  const names = (await readdir(out, { recursive: true }).catch((): string[] => [])).sort();
  const files = new Map<string, string>();
  for (const name of names) {
    if (!/\.(csv|html)$|library\.json$/.test(name)) continue;
    files.set(
      name,
      command === "build" && name.endsWith(".html") ? "a page" : await readFile(join(out, name), "utf8"),
    );
  }
  return files;
}

const same = (a: ReadonlyMap<string, string>, b: ReadonlyMap<string, string>): boolean =>
  JSON.stringify([...a]) === JSON.stringify([...b]);

/** Random numbers of one fault's own, so that it can be tried again without those before it. */
function randomOf(seed: number, n: number): () => number {
  const bytes = createHash("sha256").update(`${seed} ${n}`).digest();
  return randomLcg(bytes.readUInt32LE() / 2 ** 32);
}

/** The faults of one seed, each made known as it is over. */
export async function tryFaults(
  options: {
    readonly count: number;
    readonly seed: number;
    readonly folder: string;
    /** The number of the first; 1 when not given. */
    readonly from?: number;
    readonly only?: readonly Command[];
  },
  onOutcome: (outcome: Outcome, n: number) => void,
): Promise<void> {
  await install();
  const scene: Scene = await libraryToChange(join(options.folder, "scene"));
  const before = await swingsIn(scene.library);

  /** What a command does to a library when nothing is in its way. */
  const whole = async (command: Command): Promise<Goal> => {
    const dir = join(options.folder, `whole-${command}`);
    const out = join(dir, "out");
    await mkdir(out, { recursive: true });
    const library = join(dir, "library");
    await cp(scene.library, library, { recursive: true });
    const watched = async (dir: string, to: string, reads: boolean): Promise<Run & { calls: number }> => {
      const within = reads ? dir : placeOf(command, dir, to);
      arm({ at: 0, when: "before", how: "EIO", lasting: false, within, reads });
      const result = await run(...argsOf(command, { ...scene, library: dir }, to));
      const { seen: calls } = counted();
      arm(null);
      return { ...result, calls };
    };
    const { status, err, calls: writes } = await watched(library, out, false);
    const reading = join(dir, "reading");
    await cp(scene.library, reading, { recursive: true });
    await mkdir(`${reading}-out`);
    const { calls: reads } = await watched(reading, `${reading}-out`, true);
    const goal = { swings: await swingsIn(library), files: await made(command, out), writes, reads, status };
    if (status === 2 || (placeOf(command, library, out) === out && goal.files.size === 0))
      throw new Error(`${command} fails by itself: ${err}`);
    return goal;
  };
  const goals = new Map<Command, Goal>();
  const drawn = commands.flatMap((name) =>
    (options.only ?? commands).includes(name) ? Array<Command>(turns[name]).fill(name) : [],
  );

  const from = options.from ?? 1;
  for (let n = from; n < from + options.count; n++) {
    const random = randomOf(options.seed, n);
    const among = <T>(list: readonly T[]): T => list[Math.floor(random() * list.length)]!;
    const command = among(drawn);
    const kind = among(kinds);
    if (!goals.has(command)) goals.set(command, await whole(command));
    const goal = goals.get(command)!;
    const dir = join(options.folder, `try-${n}`);
    const library = join(dir, "library");
    const out = join(dir, "out");
    await mkdir(out, { recursive: true });
    await cp(scene.library, library, { recursive: true });
    const trial: Trial = { command, kind, goal, before, library, out, sheet: scene.sheet };
    const draw = { random, among };
    const rotten = kind === "flipped bit" || kind === "cut file";
    const outcome = await (rotten ? tryRot(trial, draw) : tryRefusal(trial, kind, draw));
    onOutcome(outcome, n);
    if (outcome.wrong.length === 0) await rm(dir, { recursive: true, force: true });
  }
}

interface Goal {
  readonly swings: readonly string[];
  readonly files: ReadonlyMap<string, string>;
  readonly writes: number;
  readonly reads: number;
  readonly status: number;
}

interface Trial {
  readonly command: Command;
  readonly kind: Kind;
  readonly goal: Goal;
  readonly before: readonly string[];
  readonly library: string;
  readonly out: string;
  readonly sheet: string;
}

interface Draw {
  readonly random: () => number;
  readonly among: <T>(list: readonly T[]) => T;
}

/** Whether a command ended as it does when nothing is in its way, without a word of anything else. */
const isDone = (result: Run, goal: Goal): boolean =>
  result.status === goal.status &&
  !/disk|not allowed|can't be read|damaged|failed|not every file/.test(result.err);

async function tryRefusal(
  trial: Trial,
  how: DiskFault["how"] & Kind,
  { random, among }: Draw,
): Promise<Outcome> {
  const { command, kind, goal, library, out } = trial;
  // Reading from a library meets a bad sector, and writing a disk that is full or forbidden.
  const reads = how !== "ENOSPC" && goal.reads > 0 && random() < 0.4;
  const fault: DiskFault = {
    how,
    at: 1 + Math.floor(random() * Math.max(1, reads ? goal.reads : goal.writes)),
    when: among(["before", "after"]),
    lasting: how !== "kill" && random() < 0.4,
    within: reads ? library : placeOf(command, library, out),
    reads,
  };
  const args = argsOf(command, trial, out);
  const wrong: string[] = [];
  const tell = (what: string): void =>
    void wrong.push(`${command}, ${JSON.stringify({ ...fault, within: "" })}: ${what}`);
  let ended: Outcome["ended"] = "unharmed";
  if (how === "kill") {
    const killed = await runKilled(args, fault);
    if (killed === "hung") tell("hung");
    ended = "killed";
  } else {
    arm(fault);
    const result = await within(run(...args));
    arm(null);
    if (result === "hung") tell("hung");
    else {
      ended = isDone(result, goal) ? "unharmed" : "told";
      if (ended === "told" && result.err.trim() === "") tell(`ended with ${result.status} and no word`);
      if (result.status === 70) tell(`broke: ${result.err}`);
      await compare(trial, ended === "unharmed" || /The change is made/.test(result.err), result.err, tell);
    }
  }
  if (ended === "killed") await compare(trial, false, "", tell);
  await again(trial, tell);
  return { command, kind, ended, wrong };
}

/** A command in a process of its own, which ends itself at a call. */
async function runKilled(args: readonly string[], fault: DiskFault): Promise<"ended" | "hung"> {
  const preload = ["--import", "tsx", "--import", join(root, "tests/faults/preload.ts")];
  const child = spawn(process.execPath, [...preload, join(root, "src/cli/main.ts"), ...args], {
    cwd: root,
    stdio: "ignore",
    env: { ...process.env, DISK_FAULT: JSON.stringify(fault) },
  });
  const gone = new Promise<"ended">((resolve) => child.on("close", () => resolve("ended")));
  const end = await within(gone);
  if (end === "hung") child.kill("SIGKILL");
  return end;
}

/**
 * Nothing is lost, and what was reported is there.
 * @param said what the command said on stderr
 */
async function compare(
  trial: Trial,
  reported: boolean,
  said: string,
  tell: (what: string) => void,
): Promise<void> {
  const { command, goal, before, library, out } = trial;
  const found = await swingsIn(library).catch((error: Error) => [`can't be opened: ${error.message}`]);
  const [was, is] = [before, goal.swings].map((swings) => swings.join() === found.join());
  if (!was && !is) tell(`the library holds ${found.length} swings: ${found.slice(0, 3).join(", ")} …`);
  else if (reported && !is) tell("was reported, and isn't there");
  if (placeOf(command, library, out) === library) return;
  const files = await made(command, out);
  if (reported && !same(files, goal.files)) tell("was reported, and its files are not whole");
  if (command === "build") return;
  for (const [name, text] of files) {
    if (/(^|[/\\])\./.test(name) || text === goal.files.get(name)) continue;
    // A page made without what couldn't be read says so on its face, and is whole.
    if (said.includes("can't be read") && /Not everything could be read[^]*<\/html>\s*$/.test(text)) continue;
    tell(`left half of ${name}`);
  }
}

/** With nothing in its way any more, it is done as if nothing had happened. */
async function again(trial: Trial, tell: (what: string) => void): Promise<void> {
  const { command, goal, library, out } = trial;
  const result = await within(run(...argsOf(command, trial, out)));
  if (result === "hung") return tell("hung when done again");
  const found = await swingsIn(library).catch((error: Error) => [error.message]);
  if (found.join() !== goal.swings.join()) tell(`differs when done again: ${result.err}`);
  if (placeOf(command, library, out) === library) return;
  const files = await made(command, out);
  for (const [name, text] of goal.files)
    if (files.get(name) !== text) tell(`${name} differs when done again: ${result.err}`);
}

/** What a check says of whole files of a library. */
async function checked(library: string): Promise<string> {
  const result = await within(run("check", library, "--json"));
  if (result === "hung") return "hung";
  if (result.out.trim() === "") return result.err;
  const { problems } = JSON.parse(result.out) as {
    problems: { row: number | null; file: string; reason: string }[];
  };
  const amiss = problems.filter((p) => p.row === null && /^the file /.test(p.reason));
  return amiss.map(({ file, reason }) => `${file}: ${reason}`).join("\n");
}

async function tryRot(trial: Trial, { random, among }: Draw): Promise<Outcome> {
  const { command, kind, goal, library, out } = trial;
  // Half of the libraries have a history and refused rows, and some an interrupted change.
  const state = command === "enrich" ? "plain" : among(["plain", "added", "interrupted"] as const);
  const first = argsOf("add", trial, out);
  if (state === "added") await run(...first);
  if (state === "interrupted") {
    // The first renaming makes the change, and the second would begin to put its files in their places.
    arm({
      at: 2,
      only: "rename",
      when: "before",
      how: "EACCES",
      lasting: true,
      within: library,
      reads: false,
    });
    await run(...first);
    arm(null);
  }
  const start = await swingsIn(library);
  const files = (await readdir(join(library, "swings"), { recursive: true })).filter((name) => {
    const own = name.split(/[/\\]/).at(-1)!;
    if (state === "interrupted") return own === ".journal.json" || own.endsWith(".part");
    return isStored(own) || own === sumsFile;
  });
  const name = among(files.sort());
  const path = join(library, "swings", name);
  const bytes = await readFile(path);
  const at = Math.floor(random() * bytes.length);
  const bit = Math.floor(random() * 8);
  const wrong: string[] = [];
  const tell = (what: string): void =>
    void wrong.push(`${command}, ${kind} of ${name} (${state}) at ${at}, bit ${bit}: ${what}`);
  if (kind === "cut file") await truncate(path, at);
  else {
    const flipped = Buffer.from(bytes);
    flipped[at]! ^= 1 << bit;
    await writeFile(path, flipped);
  }
  const said = await checked(library);
  if (!/damaged|changed since|is gone|whole Parquet|interrupted/.test(said))
    tell(`the check says nothing of it: ${said}`);
  const result = await within(run(...argsOf(command, trial, out)));
  let ended: Outcome["ended"] = "told";
  if (result === "hung") tell("hung");
  else {
    if (isDone(result, goal)) ended = "unharmed";
    if (ended === "told" && result.err.trim() === "") tell(`ended with ${result.status} and no word`);
    if (result.status === 70) tell(`broke: ${result.err}`);
  }
  // What couldn't be read was left as it was, so that the backup's file puts it right.
  const now = await readFile(path).catch(() => null);
  const meant = kind === "cut file" ? bytes.subarray(0, at) : null;
  const untouched =
    now !== null &&
    (meant === null ? now.length === bytes.length && now[at] !== bytes[at] : now.equals(meant));
  if (untouched) await writeFile(path, bytes);
  const found = await swingsIn(library).catch((error: Error) => [error.message]);
  const target = placeOf(command, library, out) === library ? goal.swings : start;
  const wanted = ended === "unharmed" ? [target] : [start, target];
  if (!wanted.some((swings) => swings.join() === found.join()))
    tell(`the library holds ${found.length} swings: ${found.slice(0, 3).join(", ")} …`);
  if (state === "plain" && ended === "unharmed" && placeOf(command, library, out) === out) {
    if (!same(await made(command, out), goal.files)) tell("was reported, and its files are not whole");
  }
  return { command, kind, ended, wrong };
}
