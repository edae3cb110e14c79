import { Option } from "commander";
import { languages, type Language } from "../../viewer/present/messages/index.ts";
import { workbookOf } from "../export/workbook/workbook.ts";
import { openOutput, withOutputs } from "../output-file.ts";
import type { CommandRegistration } from "./command.ts";
import { unalteredRecord } from "../record/unaltered.ts";

export const workbook: CommandRegistration = (program) => {
  program
    .command("workbook")
    .argument("<record>", "record file, as run --out writes it")
    .summary("write a record's budget as a spreadsheet that computes it again")
    .description(
      "Writes the linear budget of every measurand as an XLSX workbook with live formulas for the contributions, u(y), ν_eff, k, U and the interval, correlated inputs too, each beside the record's figure. The Monte Carlo result, the sources and the digests stand there as values.",
    )
    .requiredOption("--out <file>", "the XLSX file to write")
    .addOption(
      new Option("--language <language>", "language of the workbook").choices(Object.keys(languages)).default("en"),
    )
    .addHelpText(
      "after",
      "\nExample:\n  trialband run my-study.json --out record.json && trialband workbook record.json --out budget.xlsx",
    )
    .action(async (file: string, { out, language }: { readonly out: string; readonly language: Language }) => {
      const record = await unalteredRecord(file);
      const output = await openOutput(out, "The workbook");
      await withOutputs([output], () => output.write(workbookOf(record, language)));
    });
};
