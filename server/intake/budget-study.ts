import type { Evidence, Statement } from "../../engine/index.ts";
import type { BudgetTableReading } from "../../models/index.ts";
import { loadBudgetTable, type BudgetOptions, type LoadedBudget } from "./load.ts";
import type { WatchedFile } from "./watched-file.ts";
import { withEvidence } from "./with-evidence.ts";

/** A budget table as read, and the study it makes, each input with the row it comes from as evidence. */
export interface BudgetStudy extends LoadedBudget {
  readonly file: Evidence["files"][number];
}

/** Reads a budget kept as a table. @throws {InputError} a file that holds no table */
export async function loadBudgetStudy(watched: WatchedFile, options: BudgetOptions): Promise<BudgetStudy> {
  const { reading, sheets } = await loadBudgetTable(watched.source, options);
  const file = watched.trace();
  return { reading: withRows(reading, file), sheets, file };
}

function withRows(reading: BudgetTableReading, file: Evidence["files"][number]): BudgetTableReading {
  if (reading.study === null) return reading;
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
  return { ...reading, study: { ...reading.study, inputs } };
}
