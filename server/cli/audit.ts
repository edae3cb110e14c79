import { Fault } from "../errors.ts";
import type { ChainedEntry } from "../store/audit-trail.ts";
import type { CommandRegistration } from "./command.ts";
import { wholeNumber } from "./options.ts";
import { print } from "./print.ts";
import { harmless } from "../../viewer/terminal/harmless.ts";
import { withStore, withStoreOption } from "./store-folder.ts";

interface AuditFlags {
  readonly store: string;
  readonly expect?: string;
  readonly entries?: number;
  readonly json?: boolean;
}

export const audit: CommandRegistration = (program) => {
  withStoreOption(program.command("audit"))
    .summary("check a store's audit trail, records and studies")
    .description(
      "Checks that every entry of the audit trail has the digest of its content and follows the one before, and that runs, records, studies and notes are as it says. Works while a server uses the store.",
    )
    .option("--expect <digest>", "a last digest noted earlier, which the trail must still have")
    .option("--entries <n>", "print the last entries: when, who, what, of which run", wholeNumber(1, 100_000))
    .option("--json", "print the report as JSON")
    .addHelpText(
      "after",
      "\nNote the last digest elsewhere: with --expect it proves later that no entry up to it was taken away.",
    )
    .action(({ store: folder, expect, entries: last, json }: AuditFlags) => {
      const [report, shown] = withStore(folder, (store) => [
        store.audit(expect ?? null),
        last === undefined ? [] : store.trail(last),
      ]);
      const { entries, records, studies, problems } = report;
      if (json === true)
        process.stdout.write(`${JSON.stringify(last === undefined ? report : { ...report, trail: shown }, null, 2)}\n`);
      else {
        print(shown.map(line).join(""));
        process.stdout.write(
          `${entries} entries, ${records} records, ${studies} studies. Last digest: ${report.last}\n${problems.length === 0 ? "Everything is as the trail says.\n" : ""}`,
        );
      }
      if (problems.length > 0)
        throw new Fault(
          "store-altered",
          `The store is not as its audit trail says:\n${problems.map((problem) => `  ${problem}`).join("\n")}`,
        );
    });
};

/** An entry as a person reads it. Who asked stands there if the server knew its users; what it did by itself has a dash. */
const line = ({ seq, at, actor, action, subject }: ChainedEntry): string =>
  `${String(seq).padStart(6)}  ${at}  ${harmless(actor ?? "–").padEnd(16)}  ${action.padEnd(16)}  ${subject ?? ""}`.trimEnd() +
  "\n";
