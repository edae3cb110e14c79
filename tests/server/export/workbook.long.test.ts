// @module-tag long
// LibreOffice computes the formulas of every example's workbook itself, from a file that has none of their values.
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import type { RunRecord } from "../../../engine/index.ts";
import { workbookOf } from "../../../server/export/workbook/workbook.ts";
import { exampleStudies, runExample } from "../../read-example.ts";
import { convert, read, SOFFICE, written } from "./soffice.ts";
import { holdBudget, sheetsOf, withoutValues } from "./workbook-cells.ts";

describe.skipIf(SOFFICE === null)("opened in LibreOffice", () => {
  test("the recomputed figures of every example equal the record's", async () => {
    const folder = mkdtempSync(join(tmpdir(), "trialband-workbook-"));
    try {
      const records = new Map<string, RunRecord>();
      for (const { name, document } of exampleStudies()) {
        if (/\.(ts|js)$/.test(document.model)) continue;
        const changes = { trials: 10_000, sweep: undefined };
        records.set(name.replace(/\W/g, "-"), runExample(name.replace(/\.json$/, ""), changes));
      }
      expect(records.size).toBeGreaterThan(30);
      const files = [...records].map(([name, record]) =>
        written(join(folder, `${name}.xlsx`), withoutValues(workbookOf(record, "en"))),
      );
      const opened = join(folder, "opened");
      convert(files, "xlsx", opened);
      for (const [name, record] of records) {
        const sheets = await sheetsOf(read(join(opened, `${name}.xlsx`)));
        Object.keys(record.measurands).forEach((measurand, i) =>
          // It writes 15 significant digits, and its quantile of t is good to 12.
          holdBudget(sheets[i]!.rows, record, measurand, { relative: 1e-12, quantile: 1e-11, kept: 1e-14 }),
        );
      }
    } finally {
      rmSync(folder, { recursive: true });
    }
  });
});
