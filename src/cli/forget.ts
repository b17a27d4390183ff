/** `batted forget`: removes a hitter from a library, history and lists included. */
import type { Command } from "commander";
import { Fault } from "./errors.ts";
import type { Out } from "./out.ts";

interface Options {
  readonly hitter: string;
  readonly library: string;
  readonly json?: true;
}

const patience = 10_000;

export function register(program: Command, out: Out): void {
  program
    .command("forget")
    .description("remove a hitter from a library: swings, history, refused rows and lists")
    .requiredOption("--hitter <name>", "the hitter's name, as the library has it; capitals don't count")
    .requiredOption("--library <dir>", "the library's folder")
    .option("--json", "print what was removed as JSON")
    .addHelpText(
      "after",
      "\nThis can't be undone. Reports and sites made before and the exports are not\n" +
        "touched, and an export that is added again brings its rows back.\n" +
        "Exit status: 0 nothing of the hitter is left; 1 the name still stands\n" +
        "somewhere, or was nowhere; 2 the call is wrong.",
    )
    .action((options: Options) => run(out, options));
}

async function run(out: Out, options: Options): Promise<void> {
  const { forgetHitter } = await import("../library/forget.ts");
  const { printable, quoted } = await import("../swing/problems.ts");
  const { counted } = await import("../swing/words.ts");
  const hitter = options.hitter.trim();
  if (hitter === "") throw new Fault("--hitter takes a name", 2);
  const done = await forgetHitter(options.library, hitter, patience);
  const removed = done.swings + done.history + done.refused + done.listed + done.mentions;
  if (options.json === true) out.json(done);
  else {
    const parts = [
      counted(done.swings, "swing"),
      counted(done.history, "old value"),
      counted(done.refused, "refused row"),
      `${counted(done.listed, "row")} of hitters.csv`,
    ];
    if (removed > 0) out.print(`Removed of ${quoted(hitter)}: ${parts.join(", ")}.`);
    if (done.mentions > 0) {
      out.print(
        `The name was taken out of ${counted(done.mentions, "swing")} of others (pitcher, drill, note).`,
      );
    }
  }
  if (done.late !== null) out.tell(done.late);
  for (const { file, reason } of done.left) out.tell(`Left as it is: ${printable(file)}: ${reason}.`);
  if (removed === 0 && done.left.length === 0) {
    throw new Fault(`Nothing in ${printable(options.library)} names the hitter ${quoted(hitter)}`, 1);
  }
  if (done.left.length > 0) out.end(1);
}
