import { html, type Markup } from "../../viewer/report/markup.ts";
import { fillText } from "../../viewer/present/fill.ts";
import { en } from "../../viewer/present/messages/en/index.ts";
import {
  checkMoment,
  checkTally,
  installationFacts,
  outcomeSentence,
  selfcheckCommand,
  withCheckUnit,
} from "../../viewer/present/selfcheck.ts";
import { ENGLISH } from "../../viewer/present/statement.ts";
import type { CheckLine } from "../../viewer/api/selfcheck.ts";
import type { GroupReport, SelfcheckReport } from "./selfcheck.ts";

const words = en.selfcheck;

/** The whole report as one file: no script, nothing fetched. */
export function reportPage(report: SelfcheckReport): string {
  const { installation, groups, failed } = report;
  const facts = [...installationFacts(report, ENGLISH), [words.repeat, selfcheckCommand(report)] as const];
  const page = html`<!doctype html>
    <html lang="en-GB">
      <head>
        <meta charset="utf-8" />
        <meta name="viewport" content="width=device-width, initial-scale=1" />
        <meta name="color-scheme" content="light dark" />
        <title>Selfcheck of Trialband ${installation.version}, ${checkMoment(report.startedAt)}</title>
        <style>
          ${STYLE}
        </style>
      </head>
      <body>
        <main>
          <header>
            <p class="note">Report for the quality file (ISO/IEC 17025:2017, 7.11.2: validation of software)</p>
            <h1>Selfcheck of Trialband ${installation.version}</h1>
            <p class="outcome" data-failed="${String(failed > 0)}">
              <span aria-hidden="true">${failed > 0 ? "✗" : "✓"}</span> <strong>${checkTally(report, ENGLISH)}</strong>
            </p>
            <p>${outcomeSentence(report, ENGLISH)}</p>
            <dl>
              ${facts.map(
                ([term, value]) =>
                  html`<div>
                    <dt>${term}</dt>
                    <dd>${value}</dd>
                  </div>`,
              )}
            </dl>
          </header>
          ${
            failed === 0
              ? null
              : html`<section>
                  <h2>${words.whatFailed}</h2>
                  ${tableOf(
                    groups.flatMap(({ lines }) => lines.filter(({ passed }) => !passed)),
                    words.failedLines,
                  )}
                </section>`
          }
          <section>
            <h2>By group</h2>
            ${groupTable(groups)}
          </section>
          ${groups.map(
            ({ id, title, lines }) =>
              html`<section id="${id}">
                <h2>${title}</h2>
                ${tableOf(lines, title)}
              </section>`,
          )}
          <footer>
            <p>
              A tolerance is derived, not felt: half of a printed digit, or five standard errors of a figure from
              trials, which a right installation exceeds with probability 6·10⁻⁷. Printed figures were read in public
              reprints of the documents, or are quoted at second hand where a source says so; wherever such a figure can
              be computed, one that was computed independently of this program stands beside it.
            </p>
          </footer>
        </main>
      </body>
    </html> `;
  return page.markup;
}

function groupTable(groups: readonly GroupReport[]): Markup {
  return html`<table>
    <caption class="unseen">
      Lines by group
    </caption>
    <thead>
      <tr>
        <th scope="col">Group</th>
        <th scope="col">Passed</th>
        <th scope="col">Failed</th>
      </tr>
    </thead>
    <tbody>
      ${groups.map(({ id, title, lines }) => {
        const failed = lines.filter(({ passed }) => !passed).length;
        return html`<tr>
          <th scope="row"><a href="#${id}">${title}</a></th>
          <td>${lines.length - failed}</td>
          <td>${failed}</td>
        </tr>`;
      })}
    </tbody>
  </table>`;
}

function tableOf(lines: readonly CheckLine[], caption: string): Markup {
  return html`<table class="lines">
    <caption class="unseen">
      ${caption}
    </caption>
    <thead>
      <tr>
        <th scope="col">${words.outcome}</th>
        <th scope="col">${words.what}</th>
        <th scope="col">${words.published}</th>
        <th scope="col">${words.obtained}</th>
        <th scope="col">${words.tolerance}</th>
      </tr>
    </thead>
    <tbody>
      ${lines.map(
        (line, i) =>
          html`${
              lines[i - 1]?.source === line.source
                ? null
                : html`<tr class="source">
                    <th scope="rowgroup" colspan="5">${fillText(words.source, { source: line.source })}</th>
                  </tr>`
            }
            <tr data-passed="${String(line.passed)}">
              <td class="mark">
                <span aria-hidden="true">${line.passed ? "✓" : "✗"}</span> ${line.passed ? "pass" : "FAIL"}
              </td>
              <th scope="row">${line.what}</th>
              <td>${withCheckUnit(line.shown.published, line.unit)}</td>
              <td>${withCheckUnit(line.shown.obtained, line.unit)}</td>
              <td>${line.shown.tolerance} <span class="basis">${line.tolerance.basis}</span></td>
            </tr>`,
      )}
    </tbody>
  </table>`;
}

const STYLE: Markup = {
  markup: `
:root { color-scheme: light dark; --paper: light-dark(#fff, #181d20); --ink: light-dark(#182126, #e6eaeb); --quiet: light-dark(#4d5a61, #a9b5ba); --rule: light-dark(#c5cdd0, #3a454a); --faint: light-dark(#e6eaeb, #272f33); }
* { box-sizing: border-box; }
html { background: var(--paper); color: var(--ink); font: 15px/1.5 "Segoe UI", "Helvetica Neue", Roboto, "Noto Sans", "Liberation Sans", Arial, sans-serif; font-variant-numeric: lining-nums tabular-nums; }
body { margin: 0; }
main { max-width: 72rem; margin: 0 auto; padding: 2rem 1.5rem 3rem; }
h1, h2, .outcome { font-family: Charter, "Bitstream Charter", "Palatino Linotype", "Liberation Serif", serif; font-weight: 400; }
h1 { margin: 0; font-size: 1.75rem; line-height: 1.25; }
h2 { margin: 2.5rem 0 0.75rem; padding-bottom: 0.3rem; border-bottom: 1px solid var(--ink); font-size: 1.375rem; }
p { max-width: 46rem; margin: 0.5rem 0; }
.note, footer { color: var(--quiet); font-size: 0.8125rem; }
.outcome { display: inline-block; margin: 1rem 0 0.5rem; padding: 0.4rem 1rem; border: 2px solid var(--ink); font-size: 1.375rem; }
.outcome[data-failed="true"] { background: var(--ink); color: var(--paper); }
dl { margin: 1rem 0 0; border-top: 1px solid var(--rule); }
dl div { display: grid; grid-template-columns: 11rem minmax(0, 1fr); gap: 0 1rem; padding: 0.25rem 0; border-bottom: 1px solid var(--faint); }
dt { color: var(--quiet); }
dd { margin: 0; overflow-wrap: anywhere; }
table { width: 100%; border-collapse: collapse; font-size: 0.8125rem; line-height: 1.4; }
th, td { padding: 0.3rem 0.6rem 0.3rem 0; border-bottom: 1px solid var(--faint); text-align: left; vertical-align: top; font-weight: 400; overflow-wrap: anywhere; }
thead th { border-bottom-color: var(--ink); color: var(--quiet); }
.lines th[scope="row"] { width: 30%; }
.lines .mark { width: 5.5rem; white-space: nowrap; }
.basis { display: block; color: var(--quiet); font-size: 0.75rem; }
.source th { padding-top: 0.9rem; color: var(--quiet); font-size: 0.75rem; }
[data-passed="false"] > * { border-block: 2px solid var(--ink); font-weight: 700; }
a { color: inherit; }
.unseen { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); white-space: nowrap; }
@media (max-width: 45rem) {
  main { padding: 1rem; }
  dl div { grid-template-columns: minmax(0, 1fr); }
  .lines thead { display: none; }
  .lines, .lines tbody, .lines tr, .lines th, .lines td { display: block; width: auto !important; border: 0; padding: 0; }
  .lines tr { padding: 0.5rem 0; border-bottom: 1px solid var(--rule); }
  .lines td:nth-of-type(2)::before { content: "published "; color: var(--quiet); }
  .lines td:nth-of-type(3)::before { content: "obtained "; color: var(--quiet); }
  .lines td:nth-of-type(4)::before { content: "tolerance "; color: var(--quiet); }
}
@page { margin: 15mm 14mm 17mm; @bottom-left { content: "Selfcheck of Trialband"; font: 8pt sans-serif; color: #444; } @bottom-right { content: counter(page) " / " counter(pages); font: 8pt sans-serif; color: #444; } }
@media print {
  :root { color-scheme: light; print-color-adjust: exact; }
  html { font-size: 9.5pt; }
  main { max-width: none; padding: 0; }
  thead { display: table-header-group; }
  .basis { display: inline; }
  th, td { padding-block: 0.15rem; }
  .source th { padding-top: 0.5rem; }
  tr, dl div { break-inside: avoid; }
  h2, .source { break-after: avoid; }
}
`,
};
