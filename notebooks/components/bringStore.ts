/** Where the page "Bring a file" puts what it was given. */
import { tokenHeader, tokenName, writeTo, type AddAnswer, type AddCall } from "./bringTold.ts";

/** What can't be put away, and why: one plain sentence. */
export class NotKept extends Error {
  override readonly name = "NotKept";
}

/** A place for swings and for the tables beside them. */
export interface Store {
  /** What it is called, in a sentence: "the library". */
  readonly name: string;
  add(call: AddCall, file: Blob): Promise<AddAnswer>;
  put(
    table: "sessions" | "hitters" | "targets",
    rows: readonly Readonly<Record<string, string>>[],
  ): Promise<void>;
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
    async add(call, file) {
      return (await post(writeTo.add, token, new Blob([JSON.stringify(call), "\n", file]))) as AddAnswer;
    },
    async put(table, rows) {
      await post(writeTo.rows, token, new Blob([JSON.stringify({ table, rows })]));
    },
  };
}

/** Where this page may put things; null where it may only be looked at. */
export function storeHere(): Store | null {
  const token = document.querySelector<HTMLMetaElement>(`meta[name=${tokenName}]`)?.content;
  return token === undefined || token === "" ? null : served(token);
}
