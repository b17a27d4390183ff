/** Where a page that writes puts what it was given. */
import type { Companion } from "./own.ts";
import { readWhole, troubleOf } from "./bringRead.ts";
import type { PageLibrary } from "./library.ts";
import { tokenHeader, tokenName, writeTo, type AddAnswer, type AddCall } from "./bringTold.ts";

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
    throw new NotKept(
      "The program that serves this page does not answer: nothing was added. Start it again, and try once more.",
    );
  }
  const told = (await response.json().catch(() => ({}))) as { trouble?: string; doubts?: string[] };
  if (response.ok) return told;
  throw new NotKept([told.trouble ?? "Nothing was added.", ...(told.doubts ?? [])].join(" "));
}

/** The library of the program that serves the page. */
function served(token: string): Store {
  return {
    name: "the library",
    isBrowser: false,
    async add(call, file) {
      return (await post(writeTo.add, token, new Blob([JSON.stringify(call), "\n", file]))) as AddAnswer;
    },
    async put(table, rows) {
      await post(writeTo.rows, token, new Blob([JSON.stringify({ table, rows })]));
    },
    async keep(swing) {
      await post(writeTo.byHand, token, new Blob([JSON.stringify({ keep: swing })]));
    },
    async takeBack(swingId) {
      await post(writeTo.byHand, token, new Blob([JSON.stringify({ back: swingId })]));
    },
  };
}

/** This browser, for a built site that no program serves. */
function browser(): Store {
  return {
    name: "this browser",
    isBrowser: true,
    async add({ name, map, fill, names, anyway, keep }, file, library) {
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
        { name, bytes, refused: outcome.refused },
        keep ? map : null,
        names,
      ).catch(() => {
        throw new NotKept(
          "This browser did not keep it: it has no room, or keeps nothing for this page. Nothing was added.",
        );
      });
      const { read, refused, copies, sessions } = outcome;
      return {
        file: name,
        read,
        new: kept.new,
        corrected: kept.corrected,
        copies: copies + kept.copies + (outcome.swings!.length - fresh.length),
        older: 0,
        refused,
        sessions: sessions.map((session) => session.name),
        refusedIn: [],
        problems: [],
        late: null,
        map: kept.map ? "in this browser" : null,
      };
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
