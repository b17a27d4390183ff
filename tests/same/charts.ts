/** Every chart of the gallery with its sum, for a process with settings of its own. */
import { sha256Of } from "../../src/swing/sha256.ts";
import { gallery } from "../charts/gallery.ts";
import { drawn } from "../charts/node.ts";

for (const [name, draw] of Object.entries(gallery))
  process.stdout.write(`${name} ${sha256Of(drawn(draw, 720).outerHTML)}\n`);
