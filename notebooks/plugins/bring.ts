/**
 * What pages write: a file's swings into the library, as `add` puts them there, rows of the tables beside them, and swings
 * that are tapped in, one by one. The guard has looked at the Host and the Origin; every write also shows the token that the page was served
 * with, which no other site's page can read.
 */
import { createHash, randomBytes, timingSafeEqual } from "node:crypto";
import { mkdtemp, rm } from "node:fs/promises";
import type { IncomingMessage, ServerResponse } from "node:http";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Plugin } from "vite";
import { fastestOf } from "../../src/contact/levels.ts";
import { addFiles, type Added } from "../../src/library/add.ts";
import { isSystemError, systemReason, writeSynced } from "../../src/library/disk.ts";
import { openCompanions } from "../../src/library/library.ts";
import { keepMap } from "../../src/library/maps.ts";
import { Shelves } from "../../src/library/shelves.ts";
import {
  keepByHand,
  putRows,
  takeBackByHand,
  type CompanionName,
  type Typed,
} from "../../src/library/rows.ts";
import { columnMapFrom, mostRefused } from "../../src/reading/maps.ts";
import type { NameRow } from "../../src/swing/fields.ts";
import { printable, problemSentence, UnusableFile, type Problem } from "../../src/swing/problems.ts";
import {
  mostBytes,
  tokenHeader,
  tokenName,
  writeTo,
  type AddCall,
  type AddAnswer,
  type BecameAnswer,
} from "../components/bringTold.ts";

/** The pages that may write. */
const writers = ["/bring-a-file.html", "/in-the-cage.html"];

/** The library that may be written to; none, where pages are only read. */
export interface Bringing {
  readonly dir: string | null;
}

/** What stands before a file's bytes, and a table's rows, take at most so much. */
const mostCall = 1 << 20;
/** How long another writer is waited for, ms. */
const patience = 10_000;
/** At most so many problems are told one by one. */
const toldAtMost = 200;

/** A write that is not done, and why: one plain sentence. */
class Declined extends Error {
  readonly status: number;
  readonly doubts: readonly string[];

  constructor(status: number, sentence: string, doubts: readonly string[] = []) {
    super(sentence);
    this.status = status;
    this.doubts = doubts;
  }
}

/**
 * A name for a file of ours, from the one that a browser gives: no path, nothing that hides.
 * @example plainName("../a/b.csv") // "b.csv"
 * @example plainName("\u202e.csv") // "file.csv"
 */
export function plainName(name: string): string {
  const last = name.split(/[/\\]/).at(-1)!;
  const bare = last.replace(/[\p{Cc}\p{Cf}\p{Co}\p{Cs}:*?"<>|]/gu, "").replace(/^[.\s]+/, "");
  // A disk's names have room for 255 bytes.
  const short = Array.from(bare).slice(-60).join("");
  return short === "" || /^csv$/i.test(short) ? "file.csv" : short;
}

const hashOf = (text: string): Buffer => createHash("sha256").update(text).digest();

/**
 * A request's body in pieces, as long as it stays within a size. They are taken as they come, however slowly they are
 * used: what was sent whole is here whole, even when the page is closed before its answer.
 */
function body(request: IncomingMessage, most: number): AsyncGenerator<Buffer> {
  const tooLarge = new Declined(
    413,
    `The file is over ${Math.round(most / 2 ** 20)} MB: part it, and bring the parts.`,
  );
  const brokeOff = new Declined(400, "The file broke off.");
  const said = request.headers["content-length"];
  const pieces: Buffer[] = [];
  let size = 0;
  let failure: Declined | null = null;
  let ended = false;
  let wake = (): void => {};
  const end = (why: Declined | null): void => {
    if (ended) return;
    ended = true;
    failure = why;
    wake();
  };
  const over = (): void =>
    end(request.complete && (said === undefined || Number(said) === size) ? null : brokeOff);
  if (Number(said ?? 0) > most) end(tooLarge);
  else if (request.destroyed) end(brokeOff);
  else
    request
      .on("data", (piece: Buffer) => {
        if (ended) return;
        size += piece.length;
        if (size > most) {
          request.pause();
          return end(tooLarge);
        }
        pieces.push(piece);
        wake();
      })
      .on("end", over)
      .on("error", over)
      .on("close", over);
  async function* all(): AsyncGenerator<Buffer> {
    for (;;) {
      while (pieces.length > 0) yield pieces.shift()!;
      if (failure !== null) throw failure;
      if (ended) return;
      await new Promise<void>((done) => (wake = done));
    }
  }
  return all();
}

function parsed(text: string): Record<string, unknown> {
  try {
    const value: unknown = JSON.parse(text);
    if (typeof value === "object" && value !== null && !Array.isArray(value))
      return value as Record<string, unknown>;
  } catch {
    // Said below.
  }
  throw new Declined(400, "What the page sent can't be read.");
}

const isTexts = (value: unknown): value is Record<string, string> =>
  typeof value === "object" &&
  value !== null &&
  !Array.isArray(value) &&
  Object.values(value).every((text) => typeof text === "string");

const areNames = (value: unknown): value is NameRow[] =>
  Array.isArray(value) &&
  value.every((row) => isTexts(row) && Object.keys(row).sort().join() === "hitter,spelled");

/** The call that stands in the first line of a body, with the rest of it written to a file. */
async function received(
  pieces: AsyncGenerator<Buffer>,
  folder: string,
): Promise<{ call: AddCall; path: string }> {
  let head = Buffer.alloc(0);
  for (;;) {
    const { value, done } = await pieces.next();
    if (done === true) throw new Declined(400, "What the page sent can't be read.");
    head = Buffer.concat([head, value]);
    const end = head.indexOf(10);
    if (end < 0 && head.length > mostCall) throw new Declined(400, "What the page sent can't be read.");
    if (end < 0) continue;
    const call = callFrom(parsed(head.subarray(0, end).toString("utf8")));
    const path = join(folder, call.name);
    async function* rest(): AsyncGenerator<Uint8Array> {
      yield head.subarray(end + 1);
      yield* { [Symbol.asyncIterator]: () => pieces };
    }
    await writeSynced(path, rest());
    return { call, path };
  }
}

function callFrom(value: Record<string, unknown>): AddCall {
  const { name, map, fill, names = [], anyway, keep } = value;
  if (typeof name !== "string" || !isTexts(fill) || !areNames(names))
    throw new Declined(400, "What the page sent can't be read.");
  return {
    name: plainName(name),
    map: map === null || map === undefined ? null : columnMapFrom(map, "The column map"),
    fill,
    names,
    anyway: anyway === true,
    keep: keep === true,
  };
}

/** The calls whose files came whole, and that are being added. */
const underWay = new Set<AddCall>();

async function add(dir: string, request: IncomingMessage): Promise<AddAnswer> {
  const pieces = body(request, mostBytes + mostCall);
  const folder = await mkdtemp(join(tmpdir(), "batted-bring-"));
  let call: AddCall | null = null;
  try {
    const whole = await received(pieces, folder);
    call = whole.call;
    underWay.add(call);
    return await addWhole(dir, call, whole.path);
  } finally {
    await rm(folder, { recursive: true, force: true });
    if (call !== null) underWay.delete(call);
  }
}

/** Adds a file that came whole. */
async function addWhole(dir: string, call: AddCall, path: string): Promise<AddAnswer> {
  const named = (problem: Problem): string =>
    problemSentence({ ...problem, file: problem.file === path ? call.name : problem.file });
  const { hitters } = await openCompanions(dir);
  let added: Added;
  try {
    [added] = (await addFiles(dir, [path], {
      ...(call.map === null ? {} : { map: call.map }),
      fill: call.fill,
      names: call.names,
      patience,
      fastest_mph: fastestOf(hitters),
      approve: async (doubts) => {
        if (!call.anyway)
          throw new Declined(
            409,
            `${printable(call.name)} was not added: some of it looks wrong.`,
            doubts.map(named),
          );
      },
    })) as [Added];
  } catch (error) {
    if (error instanceof UnusableFile && error.file === path)
      throw new Declined(422, `${printable(call.name)} ${error.reason}.`);
    throw error;
  }
  if (call.names.length > 0) await putRows(dir, "names", call.names as unknown as Typed[], patience);
  const { problems, file: _, sha256: __, ...counts } = added;
  let map: string | null = null;
  if (call.keep && call.map !== null && !mostRefused(added))
    map = await keepMap(dir, call.map, patience).catch(() => null);
  return { ...counts, file: call.name, problems: problems.slice(0, toldAtMost).map(named), map };
}

/** What became of a file that a page sent and never heard of again: the library's own list knows. */
async function became(dir: string, request: IncomingMessage): Promise<BecameAnswer> {
  const { name, at } = await told(request);
  if (typeof name !== "string" || typeof at !== "number")
    throw new Declined(400, "What the page sent can't be read.");
  const file = plainName(name);
  if ([...underWay].some((call) => call.name === file)) return { state: "under way" };
  const additions = await (await Shelves.open(dir)).additions();
  const found = additions.find((added) => added.file === file && Date.parse(added.time) >= at);
  if (found === undefined) return { state: "nothing" };
  const { rows, new: fresh, corrected, refused } = found;
  return {
    state: "added",
    counts: { read: rows ?? 0, new: fresh ?? 0, corrected: corrected ?? 0, refused: refused ?? 0 },
  };
}

const companionNames: readonly CompanionName[] = ["sessions", "hitters", "targets", "names", "fields"];

/** A short body, as what it says. */
async function told(request: IncomingMessage): Promise<Record<string, unknown>> {
  const pieces: Buffer[] = [];
  for await (const piece of body(request, mostCall)) pieces.push(piece);
  return parsed(Buffer.concat(pieces).toString("utf8"));
}

/** A typed swing kept, or the one that it names taken back. */
async function byHand(dir: string, request: IncomingMessage): Promise<object> {
  const { keep, back } = await told(request);
  if (isTexts(keep)) await keepByHand(dir, keep, patience);
  else if (typeof back === "string") return { gone: await takeBackByHand(dir, back, patience) };
  else throw new Declined(400, "What the page sent can't be read.");
  return {};
}

async function rows(dir: string, request: IncomingMessage): Promise<object> {
  const { table, rows } = await told(request);
  const name = companionNames.find((known) => known === table);
  if (name === undefined || !Array.isArray(rows) || !rows.every(isTexts))
    throw new Declined(400, "What the page sent can't be read.");
  return putRows(dir, name, rows as Typed[], patience);
}

/** A failure as a status and a sentence. */
function failed(error: unknown): { status: number; trouble: string; doubts?: readonly string[] } {
  if (error instanceof Declined)
    return {
      status: error.status,
      trouble: error.message,
      ...(error.doubts.length > 0 ? { doubts: error.doubts } : {}),
    };
  if (isSystemError(error))
    return { status: 507, trouble: `The library could not be written: ${systemReason(error)}.` };
  if (error instanceof Error && "fault" in error)
    return { status: error.name === "Locked" ? 423 : 422, trouble: printable(error.message) };
  return { status: 500, trouble: "Something went wrong, and nothing was added." };
}

function answer(response: ServerResponse, status: number, value: object): void {
  if (response.destroyed) return;
  response.statusCode = status;
  response.setHeader("content-type", "application/json; charset=utf-8");
  response.setHeader("cache-control", "no-store");
  // Of a body that isn't wanted, no more is read.
  if (status !== 200) response.setHeader("connection", "close");
  response.end(JSON.stringify(value));
}

/** The plugin, and which addresses take writes. */
export function bring({ dir }: Bringing): { plugin: Plugin; takesWrites: (url: string) => boolean } {
  const token = randomBytes(32).toString("hex");
  const works: Readonly<Record<string, (dir: string, request: IncomingMessage) => Promise<object>>> = {
    [`/${writeTo.add}`]: add,
    [`/${writeTo.became}`]: became,
    [`/${writeTo.rows}`]: rows,
    [`/${writeTo.byHand}`]: byHand,
  };
  const workAt = (url: string): (typeof works)[string] | undefined =>
    dir !== null && Object.hasOwn(works, url) ? works[url] : undefined;
  const isTold = (request: IncomingMessage): boolean => {
    const given = request.headers[tokenHeader];
    return typeof given === "string" && timingSafeEqual(hashOf(given), hashOf(token));
  };
  const plugin: Plugin = {
    name: "batted:bring",
    configureServer(server) {
      server.middlewares.use((request, response, next) => {
        const work = workAt(request.url ?? "");
        if (work === undefined || request.method !== "POST") return next();
        if (!isTold(request))
          return answer(response, 403, {
            trouble: "This page was served before the program was started anew: load it again.",
          });
        if (request.headers["content-type"] !== "application/octet-stream")
          return answer(response, 415, { trouble: "What the page sent can't be read." });
        work(dir!, request).then(
          (value) => answer(response, 200, value),
          (error: unknown) => {
            const { status, ...value } = failed(error);
            // Whoever broke off knows.
            if (status === 500 && !request.destroyed)
              server.config.logger.error(
                error instanceof Error ? (error.stack ?? error.message) : String(error),
              );
            answer(response, status, value);
          },
        );
      });
    },
    transformIndexHtml: {
      order: "post",
      handler(_html, context) {
        if (context.server === undefined || !writers.some((page) => context.path.endsWith(page))) return [];
        return [{ tag: "meta", attrs: { name: tokenName, content: dir === null ? "" : token } }];
      },
    },
  };
  return { plugin, takesWrites: (url) => workAt(url) !== undefined };
}
