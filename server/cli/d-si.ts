import { dsiOf } from "../export/d-si.ts";
import { openOutput, withOutputs } from "../output-file.ts";
import { unalteredRecord } from "../record/unaltered.ts";
import type { CommandRegistration } from "./command.ts";

export const dSi: CommandRegistration = (program) => {
  program
    .command("d-si")
    .argument("<record>", "record file, as run --out writes it")
    .summary("write a record's results for machines, as D-SI in XML")
    .description(
      "Writes the results of a record in D-SI 2.2, the open data model of quantities for digital certificates: of every measurand the linear budget with U, k, p and distribution, and the coverage intervals of the trials with their standard uncertainty. Labels say which is to be reported.",
    )
    .option("--out <file>", "write to a file; without it the XML is printed")
    .addHelpText("after", "\nExample:\n  trialband d-si record.json --out results.xml")
    .action(async (file: string, { out }: { readonly out?: string }) => {
      const document = dsiOf(await unalteredRecord(file));
      if (out === undefined) {
        process.stdout.write(document);
        return;
      }
      const output = await openOutput(out, "The results");
      await withOutputs([output], () => output.write(document));
    });
};
