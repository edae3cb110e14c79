import { Fault } from "../errors.ts";
import type { CommandRegistration } from "./command.ts";
import { withStore, withStoreOption } from "./store-folder.ts";

interface AuditFlags {
  readonly store: string;
  readonly expect?: string;
  readonly json?: boolean;
}

export const audit: CommandRegistration = (program) => {
  withStoreOption(program.command("audit"))
    .summary("check a store's audit trail, records and studies")
    .description(
      "Checks that every entry of the audit trail has the digest of its content and follows the one before, and that runs, records, studies and notes are as it says. Works while a server uses the store.",
    )
    .option("--expect <digest>", "a last digest noted earlier, which the trail must still have")
    .option("--json", "print the report as JSON")
    .addHelpText(
      "after",
      "\nNote the last digest elsewhere: with --expect it proves later that no entry up to it was taken away.",
    )
    .action(({ store: folder, expect, json }: AuditFlags) => {
      const report = withStore(folder, (store) => store.audit(expect ?? null));
      const { entries, records, studies, last, problems } = report;
      if (json === true) process.stdout.write(`${JSON.stringify(report, null, 2)}\n`);
      else {
        process.stdout.write(
          `${entries} entries, ${records} records, ${studies} studies. Last digest: ${last}\n${problems.length === 0 ? "Everything is as the trail says.\n" : ""}`,
        );
      }
      if (problems.length > 0)
        throw new Fault(
          "store-altered",
          `The store is not as its audit trail says:\n${problems.map((problem) => `  ${problem}`).join("\n")}`,
        );
    });
};
