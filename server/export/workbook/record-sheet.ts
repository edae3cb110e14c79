import type { ReportedRecord } from "../../../engine/index.ts";
import type { Speech } from "../../../viewer/present/statement.ts";
import { text, type Cell, type Sheet } from "./cell.ts";

/** What the figures of a workbook rest on: cautions first, the digests, where the model and the inputs come from. */
export function recordSheet(record: ReportedRecord, digest: string, { messages, numbers, translate }: Speech): Sheet {
  const words = messages.workbook;
  const { provenance } = messages;
  const { study, model, engine, generator, trials, environment, seal } = record;
  const sources = record.provenance;
  const row = (label: string, value: string | null | undefined): Cell[][] =>
    value === null || value === undefined || value === "" ? [] : [[text(label, "wrapped"), text(value, "wrapped")]];
  return {
    name: words.recordSheet,
    widths: [36, 110],
    rows: [
      [text(study.title, "title")],
      [],
      ...record.cautions.map((caution): Cell[] => [
        text(messages.sections.cautions, "caution"),
        text(translate(caution), "caution"),
      ]),
      [],
      ...row(words.laboratory, study.laboratory),
      ...row(words.notes, study.notes),
      ...row(provenance.model, `${translate(model.title)} (${model.id})`),
      ...row(words.equation, model.equation),
      ...row(words.modelSource, model.source),
      ...row(provenance.engine, `${engine.name} ${engine.version}`),
      ...row("Commit", sources?.commit),
      ...row(provenance.recordDigest, digest),
      ...row(provenance.resultsDigest, seal?.results),
      ...row(provenance.studyDigest, seal?.study),
      ...row(provenance.modelDigest, sources?.modelDigest),
      ...row(provenance.engineDigest, sources?.engineDigest),
      ...row(provenance.generator, generator.title),
      ...row(provenance.seed, generator.seed),
      ...row(provenance.trials, `${numbers.whole(trials.count)}; ${provenance[trials.stop]}`),
      ...row(provenance.started, environment?.startedAt),
      ...row(provenance.runtime, environment?.runtime),
      [],
      ...record.remarks.map((remark): Cell[] => [text(messages.sections.remarks, "wrapped"), text(remark, "wrapped")]),
    ],
  };
}
