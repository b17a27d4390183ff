/** The thread in which bytes that no sum vouches for are decoded: it can be ended when they keep it busy. */
import { parentPort } from "node:worker_threads";
import { decodeGroups, type Group } from "./decode.ts";

/** What is to be decoded. */
export interface Order {
  readonly bytes: Uint8Array;
  readonly columns: readonly string[];
}

/** What has become of it. */
export type Answer = "ready" | { readonly groups: readonly Group[] } | { readonly failed: string };

const answer = (value: Answer): void => parentPort!.postMessage(value);

parentPort!.on("message", ({ bytes, columns }: Order) => {
  const all = async (): Promise<Group[]> => {
    const groups: Group[] = [];
    for await (const group of decodeGroups(bytes, columns)) groups.push(group);
    return groups;
  };
  all().then(
    (groups) => answer({ groups }),
    (error: unknown) => answer({ failed: (error as Error).message }),
  );
});
answer("ready");
