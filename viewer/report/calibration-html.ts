import type { Evidence, ReportedRecord } from "../../engine/index.ts";
import type { Calibration, CalibrationResult } from "../../models/index.ts";
import { fillText } from "../present/fill.ts";
import type { Messages } from "../present/messages/messages.ts";
import { speechOf } from "../present/speech-of.ts";
import type { Speech } from "../present/statement.ts";
import {
  bandTable,
  calibrationConformityTable,
  calibrationCorrelationTable,
  calibrationPointsTable,
  calibrationRemarks,
  coefficientCorrelationTable,
  coefficientTable,
  fitSentences,
  repeatTable,
  scaleSentence,
  wholeConformity,
} from "../present/tables/calibration.ts";
import type { Table } from "../present/tables/table.ts";
import { zeroTable } from "../present/tables/zero-resistance.ts";
import { bandPicture } from "./band-picture.ts";
import { factList } from "./facts.ts";
import { cssString, html, type Child, type Markup } from "./markup.ts";
import type { Paper } from "./report-html.ts";
import { styleSheet } from "./style.ts";
import { presentedTable } from "./table.ts";

/** What the report of a calibration shows. */
export interface ReportedCalibration {
  readonly calibration: Calibration;
  readonly files: Evidence["files"];
  /** Warning of the reference's certificate, or `null`. */
  readonly overdue: string | null;
  readonly instruments: readonly {
    readonly result: CalibrationResult;
    readonly record: ReportedRecord;
    /** Digest of the record. */
    readonly digest: string;
  }[];
}

/** The report of a calibration: one HTML document without network or script. The same results give the same text. */
export function calibrationHtml(
  { calibration, files, overdue, instruments }: ReportedCalibration,
  messages: Messages,
  paper: Paper | null = null,
): string {
  const speech = speechOf(messages);
  const words = messages.calibration;
  const { title, laboratory, calibrated } = calibration;
  const version = instruments[0]!.record.engine.version;
  const cautions = [...new Set(instruments.flatMap(({ record }) => record.cautions))];
  const facts: readonly (readonly [string, string])[] = [
    ...(laboratory === undefined ? [] : [[messages.head.laboratory, laboratory] as const]),
    ...(calibrated === undefined ? [] : [[words.day, calibrated] as const]),
    [words.instrument, instruments.map(({ result }) => result.instrument).join(", ")],
    [messages.head.program, `trialband ${version}`],
  ];
  const sheet = styleSheet({
    head: cssString(title.slice(0, 78)),
    laboratory: cssString((laboratory ?? "").slice(0, 40)),
    foot: cssString(`trialband ${version} · ${messages.head.record} ${instruments[0]!.digest.slice(0, 16)}`),
    page: cssString(`${messages.page} `),
    pageOf: cssString(` ${messages.pageOf} `),
    paper,
  });
  const list = (items: readonly string[]): Child =>
    items.length === 0
      ? null
      : html`<ul>
          ${items.map((item) => html`<li>${item}</li>`)}
        </ul>`;
  const section = (id: string, heading: string, content: Child): Markup =>
    html`<section id="${id}" class="part">
      <h2>${heading}</h2>
      ${content}
    </section>`;
  const document = html`<html lang="${messages.language}">
    <head>
      <meta charset="utf-8" />
      <meta name="viewport" content="width=device-width, initial-scale=1" />
      <title>${title} – ${words.kind}</title>
      <style>
        ${{ markup: sheet }}
      </style>
    </head>
    <body>
      <header>
        <p class="kind">${words.kind}</p>
        <h1>${title}</h1>
        ${factList(facts)}
      </header>
      <main>
        ${overdue === null ? null : html`<p>${fillText(words.overdue, { warning: overdue })}</p>`}
        ${instruments.map((of, i) =>
          section(
            `instrument-${i + 1}`,
            of.result.instrument,
            instrumentMarkup(of.result, of.record, of.digest, speech),
          ),
        )}
        ${section("cautions", messages.sections.cautions, list(cautions.map(speech.translate)))}
        ${section(
          "files",
          words.files,
          list(files.map(({ name, sha256 }) => `${name}, SHA-256 ${sha256.slice(0, 16)}`)),
        )}
      </main>
    </body>
  </html>`;
  return `<!DOCTYPE html>\n${document.markup}\n`;
}

function instrumentMarkup(
  result: CalibrationResult,
  record: ReportedRecord,
  digest: string,
  speech: Speech,
): readonly Child[] {
  const { messages, numbers } = speech;
  const words = messages.calibration;
  const { fit } = result;
  const table = (of: Table): Child => (of.rows.length === 0 ? null : presentedTable(speech, of));
  const sentence = (text: string | null): Child => (text === null ? null : html`<p>${text}</p>`);
  return [
    sentence(result.description),
    sentence(scaleSentence(result, speech, "R₀")),
    ...calibrationRemarks(result, speech).map(sentence),
    table(calibrationPointsTable(result, speech)),
    table(repeatTable(result, speech)),
    table(zeroTable(result, speech)),
    table(calibrationConformityTable(result, speech)),
    sentence(wholeConformity(result, speech)),
    table(calibrationCorrelationTable(result, speech)),
    ...(fit === null
      ? []
      : [
          bandPicture(result, fit, speech),
          table(coefficientTable(fit, speech)),
          table(coefficientCorrelationTable(fit, speech)),
          table(bandTable(result, fit, speech)),
          ...fitSentences(result, fit, speech).map(sentence),
        ]),
    html`<p class="fine">
      ${fillText(words.record, {
        digest: digest.slice(0, 16),
        trials: numbers.whole(record.trials.count),
        seed: JSON.stringify(record.study.seed),
      })}
    </p>`,
  ];
}
