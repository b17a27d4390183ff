/** One thread of `enrich`: set up once, then blocks of swings in, lines of CSV out. */
import { parentPort } from "node:worker_threads";
import { enricher, type Enricher } from "../contact/enrich.ts";
import type { Block } from "../library/packed-rows.ts";
import type { Setup } from "./enrich-pool.ts";
import { knowFields } from "../swing/ownFields.ts";
import { blockText } from "./enrich-rows.ts";

const port = parentPort;
if (port === null) throw new Error("this file is for a worker thread");
let enrich: Enricher["enrich"] | null = null;
port.on("message", (message: Setup | Block) => {
  if ("numbers" in message) port.postMessage(blockText(message, enrich!));
  else {
    knowFields(message.fields);
    ({ enrich } = enricher({ ...message, swings: [] }));
  }
});
