import { factList } from "./facts.ts";
import { cssString, html, type Markup } from "./markup.ts";
import type { Messages } from "../present/messages/messages.ts";
import { momentText } from "../present/moment.ts";
import { symbolsOf } from "../present/equation.ts";
import { translated } from "../present/messages/phrases/index.ts";
import { speechOf } from "../present/speech-of.ts";
import { speakRecord, type Language, type ReportedRecord, type Spoken, type SpokenRecord } from "../../engine/index.ts";
import type { ReadEquation } from "../../models/index.ts";
import { fromRecord, type Report } from "./report.ts";
import { sections } from "./sections/index.ts";
import { styleSheet } from "./style.ts";

export type Paper = "A4" | "Letter";

export interface ReportOptions {
  readonly messages: Messages;
  /** The command that repeats the evaluation, as a person types it; lines are kept. */
  readonly command: string;
  /** Digest of the record without its seal. */
  readonly digest: string;
  /** The equation that the study states as text, if it does: it is set as mathematics. */
  readonly typed?: ReadEquation | null;
  /** Paper that a print is laid out for; without it the printer's. */
  readonly paper?: Paper;
}

/** Characters of the title that fit the head of a page. */
const HEAD_LENGTH = 78;

/**
 * The filed report of a run: one HTML document that needs nothing else, no network and no script, on screen and on
 * paper. The same record and options give the same text.
 *
 * @param record a record that `readRecord` has taken, or one fresh from a run
 */
export function reportHtml(
  record: ReportedRecord,
  { messages, command, digest, paper, typed = null }: ReportOptions,
): string {
  const report: Report = {
    ...speechOf(messages),
    record,
    sentences: inWords(speakRecord(record, messages.language), record, messages.language),
    symbols: symbolsOf(record),
    typed,
    digest,
    command,
  };
  const { title, laboratory } = record.study;
  const parts = sections.flatMap((section) => {
    const content = section.render(report);
    return content === null ? [] : [{ id: section.id, title: messages.sections[section.id], content }];
  });
  const sheet = styleSheet({
    head: cssString(title.length > HEAD_LENGTH ? `${title.slice(0, HEAD_LENGTH - 1)}…` : title),
    laboratory: cssString((laboratory ?? "").slice(0, 40)),
    foot: cssString(
      `${record.engine.name} ${record.engine.version} · ${messages.head.record} ${report.digest.slice(0, 16)}`,
    ),
    page: cssString(`${messages.page} `),
    pageOf: cssString(` ${messages.pageOf} `),
    paper: paper ?? null,
  });
  return `<!DOCTYPE html>
${
  html`<html lang="${messages.language}">
    <head>
      <meta charset="utf-8" />
      <meta name="viewport" content="width=device-width, initial-scale=1" />
      <meta name="generator" content="${record.engine.name} ${record.engine.version}" />
      <title>${title} – ${messages.head.kind}</title>
      <style>
        ${{ markup: sheet }}
      </style>
    </head>
    <body>
      <header>${head(report)}</header>
      <main>
        ${parts.map(
          ({ id, title: heading, content }, i) =>
            html`<section id="${id}" class="part">
              <h2><span class="number">${i + 1}</span> ${heading}</h2>
              ${content}
            </section> `,
        )}
      </main>
    </body>
  </html>`.markup
}
`;
}

/** Sentences with what they quote of a requirement in their own language too. */
function inWords(sentences: SpokenRecord, { measurands }: ReportedRecord, language: Language): SpokenRecord {
  const quoting = (name: string, spoken: Spoken | null): Spoken | null => {
    const basis = measurands[name]!.conformity?.tolerance.basis ?? null;
    const words = basis === null ? null : translated(basis, language);
    return spoken === null || basis === null || words === null || spoken.language !== language
      ? spoken
      : { ...spoken, text: spoken.text.replace(basis, words) };
  };
  return {
    ...sentences,
    measurands: Object.fromEntries(
      Object.entries(sentences.measurands).map(([name, of]) => [
        name,
        { ...of, conformity: quoting(name, of.conformity) },
      ]),
    ),
  };
}

function head(report: Report): Markup {
  const { record, messages, digest } = report;
  const words = messages.head;
  const { title, laboratory } = record.study;
  const facts: (readonly [string, Markup | string])[] = [
    ...(laboratory === undefined ? [] : [[words.laboratory, laboratory] as const]),
    [
      words.date,
      record.environment === undefined
        ? words.undated
        : momentText(record.environment.startedAt, messages.language, false),
    ],
    [words.model, fromRecord(report, record.model.title)],
    [words.program, `${record.engine.name} ${record.engine.version}`],
    [words.record, html`<code>${digest.slice(0, 16)}</code>`],
  ];
  return html`<p class="kind">${words.kind}</p>
    <h1>${title}</h1>
    ${factList(facts)}`;
}
