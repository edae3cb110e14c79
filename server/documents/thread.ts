import type { ReportedRecord } from "../../engine/index.ts";
import { evidenceOf } from "../dossier/contents.ts";
import { makeDossier } from "../dossier/make.ts";
import { reportOf } from "../errors.ts";
import { dsiOf } from "../export/d-si.ts";
import { workbookOf } from "../export/workbook/workbook.ts";
import { requireShallow } from "../intake/shallow.ts";
import { alteredFault, alteredParts, openRecord } from "../record/open.ts";
import { reportDocument } from "../report/document.ts";
import { certificateText, foundOf } from "./calibration.ts";
import type { DocumentAnswer, DocumentResults, DocumentTask, NamedDocument, RecordSource } from "./messages.ts";
import { shownRecordOf } from "./shown-record.ts";

/** Makes documents of records in the thread that makes them. */
export default async function make(task: DocumentTask): Promise<DocumentAnswer> {
  try {
    return { ok: true, answer: await answerTo(task) };
  } catch (error) {
    return { ok: false, report: reportOf(error) };
  }
}

async function answerTo(task: DocumentTask): Promise<DocumentResults[DocumentTask["kind"]]> {
  switch (task.kind) {
    case "shown":
      return Buffer.from(JSON.stringify(shownRecordOf(opened(task.file, "The file"))));
    case "report":
      return reportDocument(recordIn(task.of), "record.json", task.form);
    case "workbook": {
      const record = recordIn(task.of);
      return named(record, workbookOf(record, task.language));
    }
    case "dsi": {
      const record = recordIn(task.of);
      return named(record, dsiOf(record));
    }
    case "calibrated":
      return foundOf(task.of);
    case "certificate":
      return certificateText(task.of, task.form, task.layout);
    case "evidence":
      return [...evidenceOf(opened(task.file, "The record").record)];
    case "dossier":
      return makeDossier(task.file, "The record", {
        evidence: async ({ sha256 }) => task.evidence.get(sha256) ?? null,
        today: task.today,
      });
  }
}

function opened(file: Uint8Array, name: string): ReturnType<typeof openRecord> {
  requireShallow(file);
  return openRecord(file, name);
}

/** @throws {Fault} `bad-input`: no record, or one that was altered after it was sealed */
function recordIn(source: RecordSource): ReportedRecord {
  const { record, altered } =
    "file" in source
      ? opened(source.file, source.name)
      : { record: source.record, altered: alteredParts(source.record) };
  if (altered.length > 0) throw alteredFault(record, altered, source.name);
  return record;
}

const named = <Content>({ study, environment }: ReportedRecord, content: Content): NamedDocument<Content> => ({
  content,
  title: study.title,
  startedAt: environment?.startedAt ?? null,
});
