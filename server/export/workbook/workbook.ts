import type { ReportedRecord } from "../../../engine/index.ts";
import { languages, type Language } from "../../../viewer/present/messages/index.ts";
import { speechOf } from "../../../viewer/present/speech-of.ts";
import { recordDigest } from "../../record/open.ts";
import { budgetSheet } from "./budget-sheet.ts";
import { recordSheet } from "./record-sheet.ts";
import { sheetNames, xlsxBytes } from "./xlsx.ts";

export const WORKBOOK_TYPE = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet";

/**
 * The budget of every measurand as a workbook whose formulas compute u(y), ν_eff, k and U again (JCGM 100, clause 5 and
 * annex G), with the Monte Carlo result as values and the digests they come from. One record gives the same bytes always.
 */
export function workbookOf(record: ReportedRecord, language: Language): Uint8Array<ArrayBuffer> {
  const speech = speechOf(languages[language]);
  const names = Object.keys(record.measurands);
  const budgets = names.map((name) => budgetSheet(record, record.measurands[name]!, name, speech));
  const sheets = [...budgets, recordSheet(record, recordDigest(record), speech)];
  const titles = sheetNames(sheets.map(({ name }) => name));
  return xlsxBytes(
    sheets.map((sheet, i) => ({ ...sheet, name: titles[i]! })),
    {
      title: record.study.title,
      creator: `${record.engine.name} ${record.engine.version}`,
      created: record.environment?.startedAt ?? null,
    },
  );
}
