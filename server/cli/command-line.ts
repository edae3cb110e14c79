import { Command, CommanderError } from "commander";
import { VERSION } from "../../engine/version.ts";
import type { CommandRegistration } from "./command.ts";

/** Commands by their names, each loaded when it is asked for. */
export type Commands = Readonly<Record<string, () => Promise<CommandRegistration>>>;

/** The command line: parses, runs one command, and turns any error into words and an exit code. */
export async function commandLine(commands: Commands, argv: readonly string[]): Promise<void> {
  const program = new Command("trialband")
    .description(
      "Is the linear uncertainty budget of a comparison calibration validated? Trialband propagates the distributions and reports the result.",
    )
    .version(VERSION)
    .showHelpAfterError("(see trialband --help)")
    .exitOverride();
  for (const register of await Promise.all(commandsFor(commands, argv[2]).map((load) => load()))) register(program);
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
    process.exitCode = await reportFailure(error);
  }
}

/** A named command loads its own file only, the version none; the help needs them all. */
function commandsFor(commands: Commands, first: string | undefined): readonly Commands[string][] {
  if (first === "--version" || first === "-V") return [];
  return first !== undefined && Object.hasOwn(commands, first) ? [commands[first]!] : Object.values(commands);
}

/** Prints what went wrong and gives the exit code. Its modules are loaded for it alone: the version needs none of them. */
async function reportFailure(error: unknown): Promise<number> {
  const [{ describeProblem }, { FAULTS, reportOf }, { printAside }, { stylesFor }] = await Promise.all([
    import("../../engine/index.ts"),
    import("../errors.ts"),
    import("./print.ts"),
    import("../../viewer/terminal/style.ts"),
  ]);
  const report = reportOf(error);
  const styles = stylesFor(process.stderr);
  printAside(`${styles.bold("trialband:")} ${report.message}\n`);
  for (const problem of report.problems) printAside(`  ${describeProblem(problem)}\n`);
  if (report.code === "internal" && process.env["TRIALBAND_DEBUG"] && error instanceof Error)
    process.stderr.write(`${error.stack}\n`);
  return FAULTS[report.code].exit;
}
