import { Option } from "commander";
import { VERSION } from "../../engine/index.ts";
import { evaluateLaboratories, readLaboratories } from "../../models/index.ts";
import { languages, type Language } from "../../viewer/present/messages/index.ts";
import { ENGLISH } from "../../viewer/present/statement.ts";
import { equivalenceTable, referenceTable } from "../../viewer/present/tables/equivalence.ts";
import { equivalenceHtml } from "../../viewer/report/equivalence-html.ts";
import { equivalenceLines } from "../../viewer/terminal/equivalence-lines.ts";
import { stylesFor, widthOf } from "../../viewer/terminal/style.ts";
import { tablesWorkbook } from "../export/workbook/tables-workbook.ts";
import { inFile } from "../intake/in-file.ts";
import { readJson } from "../intake/index.ts";
import { watchFile } from "../intake/watched-file.ts";
import { openAsked, withOutputs } from "../output-file.ts";
import type { CommandRegistration } from "./command.ts";
import { print } from "./print.ts";

interface EquivalenceFlags {
  readonly out?: string;
  readonly report?: string;
  readonly xlsx?: string;
  readonly language: Language;
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
    .option("--report <file>", "write sentences and tables as one HTML file")
    .option("--xlsx <file>", "write the tables as a workbook")
    .addOption(
      new Option("--language <language>", "language of the report").choices(Object.keys(languages)).default("en"),
    )
    .option("--json", "print the evaluation (JSON) in place of the tables")
    .addHelpText(
      "after",
      `
Exit codes: 0 done, 2 input that cannot be used.

Example:
  trialband equivalence examples/interlaboratory/bath-72.json --report bath-72.html`,
    )
    .action(async (file: string, flags: EquivalenceFlags) => {
      const watched = await watchFile(file);
      const { comparison, found } = await inFile(file, async () => {
        const read = readLaboratories(await readJson(watched.source));
        return { comparison: read, found: evaluateLaboratories(read) };
      });
      const text = `${JSON.stringify({ file: watched.trace(), ...found }, null, 2)}\n`;
      const [out, report, xlsx] = [
        await openAsked(flags.out, "The evaluation"),
        await openAsked(flags.report, "The report"),
        await openAsked(flags.xlsx, "The workbook"),
      ];
      await withOutputs([out, report, xlsx], async () => {
        await out?.write(text);
        await report?.write(equivalenceHtml(found, comparison, [watched.trace()], languages[flags.language]));
        await xlsx?.write(
          tablesWorkbook(
            [
              ["reference value", referenceTable(found, comparison, ENGLISH)],
              ["laboratories", equivalenceTable(found, comparison, ENGLISH)],
            ],
            { title: comparison.title, creator: `trialband ${VERSION}`, created: null },
          ),
        );
      });
      if (flags.json) process.stdout.write(text);
      else {
        const layout = { styles: stylesFor(process.stdout), width: widthOf(process.stdout) };
        print(`${equivalenceLines(found, comparison, layout).join("\n")}\n`);
      }
    });
};
