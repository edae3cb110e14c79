import type { ReportedRecord } from "../../engine/index.ts";
import type { Messages } from "../present/messages/messages.ts";
import { factList } from "./facts.ts";
import { cssString, html, type Child } from "./markup.ts";
import type { Paper } from "./report-html.ts";
import { styleSheet } from "./style.ts";

export interface TitledDocument {
  readonly kind: string;
  readonly title: string;
  /** Stands at the head of every printed page. */
  readonly laboratory: string;
  readonly foot: string;
  readonly facts: Parameters<typeof factList>[0];
  readonly main: Child;
  readonly paper?: Paper | null;
}

/** A document of one's own beside the report of a record: head with facts, then what it is about, as one HTML file. */
export function titledDocument(
  { kind, title, laboratory, foot, facts, main, paper = null }: TitledDocument,
  messages: Messages,
): string {
  const document = html`<html lang="${messages.language}">
    <head>
      <meta charset="utf-8" />
      <meta name="viewport" content="width=device-width, initial-scale=1" />
      <title>${title} – ${kind}</title>
      <style>
        ${{
          markup: styleSheet({
            head: cssString(title.slice(0, 78)),
            laboratory: cssString(laboratory.slice(0, 40)),
            foot: cssString(foot),
            page: cssString(`${messages.page} `),
            pageOf: cssString(` ${messages.pageOf} `),
            paper,
          }),
        }}
      </style>
    </head>
    <body>
      <header>
        <p class="kind">${kind}</p>
        <h1>${title}</h1>
        ${factList(facts)}
      </header>
      <main>${main}</main>
    </body>
  </html>`;
  return `<!DOCTYPE html>\n${document.markup}\n`;
}

/** What a document about a run says of it at its head and foot. @param digest of the run's record */
export function headOfRun(
  { study: { laboratory }, engine }: ReportedRecord,
  digest: string,
  messages: Messages,
): Pick<TitledDocument, "laboratory" | "foot" | "facts"> {
  const program = `trialband ${engine.version}`;
  return {
    laboratory: laboratory ?? "",
    foot: `${program} · ${messages.head.record} ${digest.slice(0, 16)}`,
    facts: [
      ...(laboratory === undefined ? [] : [[messages.head.laboratory, laboratory] as const]),
      [messages.head.program, program],
    ],
  };
}

/** A picture with its caption below. */
export const figureOf = (messages: Messages, picture: Child, caption: string): Child =>
  html`<figure>
    <div class="pictures">${picture}</div>
    <figcaption><span class="label">${messages.figure}</span> ${caption}</figcaption>
  </figure>`;

/** The files that a document rests on, with the beginning of each digest. */
export const filesPart = (
  messages: Messages,
  files: readonly { readonly name: string; readonly sha256: string }[],
): Child =>
  html`<section>
    <h2>${messages.calibration.files}</h2>
    <ul>
      ${files.map(({ name, sha256 }) => html`<li>${name}, SHA-256 ${sha256.slice(0, 16)}</li>`)}
    </ul>
  </section>`;
