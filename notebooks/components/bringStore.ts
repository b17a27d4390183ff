/** Where a page that writes puts what it was given. */
import type { Companion } from "./own.ts";
import { readWhole, troubleOf } from "./bringRead.ts";
import type { PageLibrary } from "./library.ts";
import {
  tokenHeader,
  tokenName,
  writeTo,
  type AddAnswer,
  type AddCall,
  type BecameAnswer,
  type Sent,
} from "./bringTold.ts";
import { noting, Unheard } from "./bringUnheard.ts";

/** What can't be put away, and why: one plain sentence. */
export class NotKept extends Error {
  override readonly name = "NotKept";
}

/** A place for swings and for the tables beside them. */
export interface Store {
  /** What it is called, in a sentence: "the library". */
  readonly name: string;
  /** Whether it is this browser, and no folder. */
  readonly isBrowser: boolean;
  add(call: AddCall, file: Blob, library: PageLibrary): Promise<AddAnswer>;
  /** What became of a file that was sent on an earlier visit. */
  became(sent: Sent): Promise<BecameAnswer>;
  put(
    table: Companion,
    rows: readonly Readonly<Record<string, string>>[],
    library: PageLibrary,
  ): Promise<void>;
  /** Keeps one typed swing, with its id. */
  keep(swing: Readonly<Record<string, string>>): Promise<void>;
  /** Takes a typed swing back. */
  takeBack(swingId: string): Promise<void>;
}

async function post(path: string, token: string, body: Blob): Promise<unknown> {
  let response: Response;
  try {
    response = await fetch(path, {
      method: "POST",
      headers: { [tokenHeader]: token, "content-type": "application/octet-stream" },
      body,
    });
  } catch {
    throw new Unheard();
  }
  const told = (await response.json().catch(() => {
    throw new Unheard();
  })) as { trouble?: string; doubts?: string[] };
  if (response.ok) return told;
  throw new NotKept([told.trouble ?? "Nothing was added.", ...(told.doubts ?? [])].join(" "));
}

const noAnswer = "The program that serves this page does not answer.";

/** As `post`, for what the next visit doesn't ask after. */
const postShort = (path: string, token: string, value: object): Promise<unknown> =>
  post(path, token, new Blob([JSON.stringify(value)])).catch((error: unknown) => {
    if (error instanceof Unheard) throw new NotKept(`${noAnswer} Start it again, and try once more.`);
    throw error;
  });

/** The library of the program that serves the page. */
function served(token: string): Store {
  return {
    name: "the library",
    isBrowser: false,
    async add(call, file, library) {
      const send = (): Promise<unknown> =>
        post(writeTo.add, token, new Blob([JSON.stringify(call), "\n", file]));
      try {
        return (await noting(library.name, call.name, send)) as AddAnswer;
      } catch (error) {
        if (!(error instanceof Unheard)) throw error;
        throw new NotKept(
          `${noAnswer} Start it again, and load this page anew: it says then whether ${call.name} was added.`,
        );
      }
    },
    async became({ name, at }) {
      return (await postShort(writeTo.became, token, { name, at })) as BecameAnswer;
    },
    async put(table, rows) {
      await postShort(writeTo.rows, token, { table, rows });
    },
    async keep(swing) {
      await postShort(writeTo.byHand, token, { keep: swing });
    },
    async takeBack(swingId) {
      await postShort(writeTo.byHand, token, { back: swingId });
    },
  };
}

/** Adds a file to what this browser keeps. */
async function keepHere(
  { name, map, fill, names, anyway, keep }: AddCall,
  file: Blob,
  library: PageLibrary,
): Promise<AddAnswer> {
  const { keepSwings } = await import("./own.ts");
  const delimiter = map?.delimiter ?? ",";
  const call = {
    name,
    blob: file,
    map,
    fill,
    fixes: new Map(),
    delimiter,
    known: [],
    names: [...library.names, ...names],
    fastest_mph: null,
  };
  const encoded = map?.encoding === undefined ? call : { ...call, encoding: map.encoding };
  const outcome = await readWhole(encoded, () => {}, true).catch((error: unknown) => {
    throw new NotKept(`${name} ${troubleOf(error)}`);
  });
  if (outcome.doubts.length > 0 && !anyway) throw new NotKept(outcome.doubts.join(" "));
  const built = new Set(library.swings.map(({ swing_id }) => swing_id));
  const fresh = outcome.swings!.filter(({ swing_id }) => !built.has(swing_id));
  const bytes = new Uint8Array(await file.arrayBuffer());
  const kept = await keepSwings(
    fresh,
    { name, bytes, refused: outcome.refused, untimed: outcome.untimed, at: Date.now() },
    keep ? map : null,
    names,
  ).catch(() => {
    throw new NotKept(
      "This browser did not keep it: it has no room, or keeps nothing for this page. Nothing was added.",
    );
  });
  const { read, refused, copies, untimed, sessions } = outcome;
  return {
    file: name,
    read,
    new: kept.new,
    corrected: kept.corrected,
    copies: copies + kept.copies + (outcome.swings!.length - fresh.length),
    untimed,
    older: 0,
    refused,
    sessions: sessions.map((session) => session.name),
    refusedIn: [],
    problems: [],
    late: null,
    map: kept.map ? "in this browser" : null,
  };
}

/** This browser, for a built site that no program serves. */
function browser(): Store {
  return {
    name: "this browser",
    isBrowser: true,
    add: (call, file, library) => noting(library.name, call.name, () => keepHere(call, file, library)),
    async became(sent) {
      const { ownRows } = await import("./own.ts");
      const { files } = await ownRows();
      const found = files.some(({ name, at = 0 }) => name === sent.name && at >= sent.at);
      return found ? { state: "added", counts: null } : { state: "nothing" };
    },
    async put(table, rows, library) {
      const { keepRows } = await import("./own.ts");
      await keepRows(table, rows, library[table]).catch((error: unknown) => {
        throw new NotKept(error instanceof Error ? error.message : "Nothing was saved.");
      });
    },
    async keep(swing) {
      const { keepTyped } = await import("./own.ts");
      await keepTyped(swing).catch((error: unknown) => {
        throw new NotKept(error instanceof Error ? error.message : "Nothing was kept.");
      });
    },
    async takeBack(swingId) {
      const { dropSwing } = await import("./own.ts");
      await dropSwing(swingId);
    },
  };
}

/** Where this page may put things; null where it may only be looked at. */
export function storeHere(): Store | null {
  const token = document.querySelector<HTMLMetaElement>(`meta[name=${tokenName}]`)?.content;
  if (token === undefined) return browser();
  return token === "" ? null : served(token);
}
