import type { MeasurandRecord, ReportedRecord, Spoken, SpokenRecord } from "../../engine/index.ts";
import type { ReadEquation } from "../../models/index.ts";
import type { Messages } from "../present/messages/messages.ts";
import { translated } from "../present/messages/phrases/index.ts";
import { html, joinMarkup, type Child, type Markup } from "./markup.ts";
import type { Numbers } from "../present/numbers.ts";
import { readable, type Readable } from "../present/readable.ts";
import { sentencePieces } from "../present/sentence-symbols.ts";
import { symbolMarkup } from "./symbol.ts";

/** What every section of a report is written from. */
export interface Report {
  readonly record: ReportedRecord;
  readonly messages: Messages;
  /** The record's sentences in the report's language. */
  readonly sentences: SpokenRecord;
  readonly numbers: Numbers;
  /** A text that the record has in English, in the report's language if it is known there. */
  readonly translate: (text: string) => string;
  /** Symbols of all quantities, for the model equation. */
  readonly symbols: ReadonlySet<string>;
  /** The equation that the study states as text, or `null`. */
  readonly typed: ReadEquation | null;
  /** Digest by which this record differs from any other. */
  readonly digest: string;
  /** The command that repeats the evaluation. */
  readonly command: string;
}

/** A part of the report under a heading of its own; `null` if the record has nothing for it. */
export interface Section {
  readonly id: keyof Messages["sections"];
  render(report: Report): Markup | null;
}

/** What a section writes once for each measurand, under the measurand's name if there are several. */
export function eachMeasurand(
  report: Report,
  render: (measurand: Readable, name: string) => Markup | null,
): Markup | null {
  const found = Object.entries(report.record.measurands).flatMap(([name, measurand]) => {
    const content = render(readable(measurand), name);
    return content === null ? [] : [{ measurand, content }];
  });
  if (found.length === 0) return null;
  if (Object.keys(report.record.measurands).length === 1) return found[0]!.content;
  return html`${found.map(
    ({ measurand, content }) =>
      html`<section class="one">
        <h3>${symbolMarkup(measurand.symbol)} ${fromRecord(report, measurand.meaning)}</h3>
        ${content}
      </section>`,
  )}`;
}

/** A text of the record in the report's language; one that has no words there is marked as English. */
export function fromRecord({ messages }: Report, text: string): Markup {
  const words = translated(text, messages.language);
  return words === null ? html`<span lang="en">${text}</span>` : html`${words}`;
}

/** Sentences in the report's language, or marked as English if the record has them in no other. */
export function spoken({ messages, record }: Report, sentences: Spoken | null): Markup | null {
  if (sentences === null) return null;
  const pieces = sentencePieces(sentences.text, record).map((piece) =>
    "symbol" in piece ? symbolMarkup(piece.symbol) : piece.text,
  );
  return sentences.language === messages.language
    ? html`${pieces}`
    : html`<span lang="${sentences.language}">${pieces}</span>`;
}

/** The symbol of an input quantity. */
export const inputSymbol = ({ record }: Report, name: string): Markup => symbolMarkup(record.inputs[name]!.symbol);

/** An italic letter that the standards use: U, k, c. */
export const letter = (text: string): Markup => symbolMarkup(text);

/** "ν_eff = 5875", "ν_eff > 100 000". */
export function effectiveFreedom({ numbers }: Report, degrees: number | null): Markup {
  const text = numbers.freedom(degrees);
  return html`${letter("ν_eff")} ${/^\D/.test(text) && degrees !== null ? text : `=\u00a0${text}`}`;
}

/** The unit of a measurand as a head or a sentence names it. */
export const unitText = ({ messages }: Report, unit: string): string =>
  unit === "1" ? messages.model.dimensionless : unit;

/** A sentence's list: a, b and c. */
export const listed = ({ messages }: Report, parts: readonly Child[]): Markup =>
  parts.length < 2
    ? joinMarkup(parts, "")
    : html`${joinMarkup(parts.slice(0, -1), ", ")}${messages.and}${parts.at(-1)!}`;

/** The interval of the trials that the study compares with. */
export const comparedInterval = ({ record }: Report, { monteCarlo }: MeasurandRecord): readonly [number, number] =>
  monteCarlo.intervals[record.coverage.interval];
