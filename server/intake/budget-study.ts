import type { Evidence, Statement } from "../../engine/index.ts";
import type { BudgetTableReading } from "../../models/index.ts";
import { loadBudgetTable } from "./load.ts";
import type { WatchedFile } from "./watched-file.ts";
import { withEvidence } from "./with-evidence.ts";

/** A budget table as read, and the study it makes, each input with the row it comes from as evidence. */
export interface BudgetStudy {
  readonly reading: BudgetTableReading;
  readonly file: Evidence["files"][number];
}

/** Reads a budget kept as a table. @throws {InputError} a table that is no budget */
export async function loadBudgetStudy(
  watched: WatchedFile,
  options: Parameters<typeof loadBudgetTable>[1],
): Promise<BudgetStudy> {
  const reading = await loadBudgetTable(watched.source, options);
  const file = watched.trace();
  const inputs: Record<string, Statement> = Object.fromEntries(
    reading.terms.map(({ input, statement, row, quantity, assumed }) => [
      input,
      withEvidence(statement, {
        method: `row ${row} of a budget table, ${quantity}${assumed.length === 0 ? "" : `; taken for granted: ${assumed.join("; ")}`}`,
        files: [file],
        figures: [{ name: "row", value: row }],
      }),
    ]),
  );
  return { reading: { ...reading, study: { ...reading.study, inputs } }, file };
}
