import { evaluateLaboratories, readLaboratories } from "../../models/index.ts";
import { equivalenceLines } from "../../viewer/terminal/equivalence-lines.ts";
import { stylesFor, widthOf } from "../../viewer/terminal/style.ts";
import { inFile } from "../intake/in-file.ts";
import { readJson } from "../intake/index.ts";
import { watchFile } from "../intake/watched-file.ts";
import { openOutput, withOutputs } from "../output-file.ts";
import type { CommandRegistration } from "./command.ts";
import { print } from "./print.ts";

interface EquivalenceFlags {
  readonly out?: string;
  readonly json?: boolean;
}

export const equivalence: CommandRegistration = (program) => {
  program
    .command("equivalence")
    .argument("<file>", "JSON: the results of several laboratories for one quantity, with their uncertainties")
    .summary("compare laboratories: reference value, consistency, degrees of equivalence, E_n and zeta scores")
    .description(
      "Evaluates a comparison between laboratories: the weighted mean with its chi-squared test and Birge ratio, the random-effects value where the results are not consistent, and every laboratory's difference from the reference value with the uncertainty that its correlation with it leaves, as E_n and zeta.",
    )
    .option("--out <file>", "write the evaluation (JSON) to a file")
    .option("--json", "print the evaluation (JSON) in place of the tables")
    .addHelpText(
      "after",
      `
Exit codes: 0 done, 2 input that cannot be used.

Example:
  trialband equivalence examples/interlaboratory/bath-72.json`,
    )
    .action(async (file: string, flags: EquivalenceFlags) => {
      const watched = await watchFile(file);
      const { comparison, found } = await inFile(file, async () => {
        const read = readLaboratories(await readJson(watched.source));
        return { comparison: read, found: evaluateLaboratories(read) };
      });
      const text = `${JSON.stringify({ file: watched.trace(), ...found }, null, 2)}\n`;
      const output = flags.out === undefined ? null : await openOutput(flags.out, "The evaluation");
      await withOutputs([output], async () => output?.write(text));
      if (flags.json) process.stdout.write(text);
      else {
        const layout = { styles: stylesFor(process.stdout), width: widthOf(process.stdout) };
        print(`${equivalenceLines(found, comparison, layout).join("\n")}\n`);
      }
    });
};
