import { Command, CommanderError } from "commander";
import { describeProblem, VERSION } from "../../engine/index.ts";
import { FAULTS, reportOf } from "../errors.ts";
import { commands } from "./index.ts";
import { printAside } from "./print.ts";
import { stylesFor } from "../../viewer/terminal/style.ts";

/** The command line: parses, runs one command, and turns any error into words and an exit code. */
export async function main(argv: readonly string[]): Promise<void> {
  const program = new Command("trialband")
    .description(
      "Is the linear uncertainty budget of a comparison calibration validated? Trialband propagates the distributions and reports the result.",
    )
    .version(VERSION)
    .showHelpAfterError("(see trialband --help)")
    .exitOverride();
  // A named command loads its own file only; the help needs them all.
  const named =
    argv[2] !== undefined && Object.hasOwn(commands, argv[2]) ? [commands[argv[2]]!] : Object.values(commands);
  for (const register of await Promise.all(named.map((load) => load()))) register(program);
  for (const command of program.commands) command.exitOverride();
  // A reader that closes the pipe early (head, less) is not an error.
  process.stdout.on("error", (error: NodeJS.ErrnoException) => process.exit(error.code === "EPIPE" ? 0 : 1));
  try {
    await program.parseAsync(argv);
  } catch (error) {
    if (error instanceof CommanderError) {
      process.exitCode = error.exitCode === 0 ? 0 : 2;
      return;
    }
    const report = reportOf(error);
    const styles = stylesFor(process.stderr);
    printAside(`${styles.bold("trialband:")} ${report.message}\n`);
    for (const problem of report.problems) printAside(`  ${describeProblem(problem)}\n`);
    if (report.code === "internal" && process.env["TRIALBAND_DEBUG"] && error instanceof Error)
      process.stderr.write(`${error.stack}\n`);
    process.exitCode = FAULTS[report.code].exit;
  }
}
