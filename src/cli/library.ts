/** Which library a command reads when its call names none. */
import { existsSync } from "node:fs";
import { Fault } from "./errors.ts";

/** Where a clone keeps the demo. */
const demoFolder = "data/demo";

/**
 * The folder that a call means: the one it names, else the demo's.
 * @param demo where the demo would be, from the folder that the command is called in
 * @throws Fault when it names none, and the demo isn't there
 * @example libraryMeant("swings") // "swings"
 */
export function libraryMeant(named: string | undefined, demo = demoFolder): string {
  if (named !== undefined) return named;
  if (existsSync(demo)) return demo;
  throw new Fault(`Say with --library which folder the swings are in: ${demo} isn't here.`, 2);
}
