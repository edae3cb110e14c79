import type { CertificateFields, CertificateReference } from "../../models/index.ts";
import type { Certificate } from "../present/certificate/certificate.ts";
import { fillText } from "../present/fill.ts";
import type { Messages } from "../present/messages/messages.ts";
import { withUnit } from "../present/numbers.ts";
import { speechOf } from "../present/speech-of.ts";
import type { Speech } from "../present/statement.ts";
import {
  beforeTable,
  betweenTable,
  statedConformityTable,
  statedPointsTable,
} from "../present/tables/calibration-certificate.ts";
import { coefficientCorrelationTable, coefficientTable, repeatTable } from "../present/tables/calibration.ts";
import type { Table } from "../present/tables/table.ts";
import { zeroTable } from "../present/tables/zero-resistance.ts";
import { bandPicture } from "./band-picture.ts";
import { certificateSheet } from "./certificate-style.ts";
import { factList } from "./facts.ts";
import { cssString, html, type Child, type Markup } from "./markup.ts";
import type { Paper } from "./report-html.ts";
import { presentedTable } from "./table.ts";

const UNITS = { temperature: "°C", humidity: "%", pressure: "hPa" } as const;

/**
 * A calibration certificate as one HTML document without network or script, laid out after ISO/IEC 17025:2017, 7.8. Every
 * element that answers to a clause names it in `data-clause`, so that a check can find where it stands.
 */
export function certificateHtml(
  certificate: Certificate,
  reference: CertificateReference | null,
  messages: Messages,
  paper: Paper | null = null,
): string {
  const speech = speechOf(messages);
  const words = messages.calibrationCertificate;
  const { draft, stated, instrument } = certificate;
  const { fields, item } = stated;
  const number = item.number ?? words.noNumber;
  const title = draft ? words.draftTitle : words.title;
  const sheet = certificateSheet({
    head: cssString(fillText(words.page, { number }).slice(0, 78)),
    laboratory: cssString((fields.laboratory?.name ?? "").slice(0, 40)),
    page: cssString(`${messages.page} `),
    pageOf: cssString(` ${messages.pageOf} `),
    paper,
    draft: draft ? cssString(words.draft) : null,
  });
  const document = html`<html lang="${messages.language}">
    <head>
      <meta charset="utf-8" />
      <meta name="viewport" content="width=device-width, initial-scale=1" />
      <title>${title} ${number}: ${instrument}</title>
      <style>
        ${{ markup: sheet }}
      </style>
    </head>
    <body>
      <header>
        <h1 data-clause="7.8.2.1 a">${title}</h1>
        <p data-clause="7.8.2.1 d">
          ${words.number}:
          ${number}${item.replaces === undefined ? null : html`<br />${words.replaces}: ${item.replaces}`}
        </p>
        ${draft ? draftNote(certificate, speech) : null}
        <div class="parties">
          <section data-clause="7.8.2.1 b">
            <h2>${words.laboratory}</h2>
            ${partyMarkup(fields.laboratory, fields.laboratory?.code, messages)}
          </section>
          <section data-clause="7.8.2.1 e">
            <h2>${words.customer}</h2>
            ${partyMarkup(fields.customer, undefined, messages)}
          </section>
        </div>
      </header>
      <main>
        ${itemSection(certificate, speech)} ${performanceSection(certificate, reference, speech)}
        ${resultSections(certificate, speech)} ${statementSection(certificate, speech)}
      </main>
      <footer>
        <div class="signature" data-clause="7.8.2.1 o">
          <p>${words.place}</p>
          <p>
            ${words.signature}<br />${words.authorised}:
            ${
              fields.authorised === undefined
                ? missing("authorised", messages)
                : html`${fields.authorised.name}${fields.authorised.role === undefined ? null : `, ${fields.authorised.role}`}`
            }
          </p>
        </div>
        <p class="end" data-clause="7.8.2.1 d">${fillText(words.end, { number })}</p>
      </footer>
    </body>
  </html>`;
  return `<!DOCTYPE html>\n${document.markup}\n`;
}

type Party = CertificateFields["laboratory"] | CertificateFields["customer"];
type Lacks = keyof Messages["calibrationCertificate"]["lacks"];

/** What is not stated is shown where it would stand, so that a draft can be read. */
const missing = (field: Lacks, messages: Messages): Markup =>
  html`<span class="missing">[${messages.calibrationCertificate.lacks[field]}]</span>`;

function draftNote({ lacking }: Certificate, { messages, numbers }: Speech): Markup {
  const words = messages.calibrationCertificate;
  const items = [
    ...lacking.fields.map(({ field }) => words.lacks[field]),
    ...lacking.points.map((number) => fillText(words.lacksPoint, { number: numbers.whole(number) })),
  ];
  return html`<section class="draft-note">
    <p>${words.draftSentence}</p>
    <ul>
      ${items.map((text) => html`<li>${text}</li>`)}
    </ul>
  </section>`;
}

function partyMarkup(party: Party, code: string | undefined, messages: Messages): Markup {
  const words = messages.calibrationCertificate;
  const lines: Child[] = [
    party?.name ?? null,
    ...(party?.address ?? []),
    party?.country ?? null,
    party?.phone === undefined ? null : `${words.phone}: ${party.phone}`,
    party?.email === undefined ? null : `${words.email}: ${party.email}`,
    code === undefined ? null : `${words.code}: ${code}`,
  ].filter((line) => line !== null);
  return html`<p>
    ${lines.length === 0 ? messages.none : lines.map((line, i) => (i === 0 ? line : html`<br />${line}`))}
  </p>`;
}

type Fact = readonly [term: string, value: Child, clause: string];

/** Facts, each under its clause; what is optional and not stated is left out. */
const facts = (all: readonly (Fact | null)[]): Markup =>
  factList(
    all.flatMap((fact) =>
      fact === null ? [] : [[fact[0], html`<span data-clause="${fact[2]}">${fact[1]}</span>`] as const],
    ),
  );

function itemSection({ stated: { item }, instrument, description }: Certificate, { messages }: Speech): Markup {
  const words = messages.calibrationCertificate;
  const optional = (term: string, value: string | undefined, clause: string): Fact | null =>
    value === undefined ? null : [term, value, clause];
  return html`<section>
    <h2>${words.item}</h2>
    ${facts([
      [words.description, description ?? missing("description", messages), "7.8.2.1 g"],
      [words.manufacturer, item.manufacturer ?? missing("manufacturer", messages), "7.8.2.1 g"],
      optional(words.type, item.type, "7.8.2.1 g"),
      [words.serial, instrument, "7.8.2.1 g"],
      [words.condition, item.condition ?? missing("condition", messages), "7.8.2.1 g"],
      optional(words.received, item.received, "7.8.2.1 h"),
    ])}
  </section>`;
}

function performanceSection(
  { stated: { fields, item, performed }, coverageProbability }: Certificate,
  reference: CertificateReference | null,
  speech: Speech,
): Markup {
  const { messages, numbers } = speech;
  const words = messages.calibrationCertificate;
  const { location, method } = fields;
  const places = { laboratory: words.atLaboratory, customer: words.atCustomer, other: words.atOther };
  const days =
    performed === null
      ? missing("performed", messages)
      : performed.from === performed.to
        ? performed.from
        : fillText(words.performedRange, performed);
  const where =
    location === undefined
      ? missing("location", messages)
      : location.place === undefined
        ? places[location.at]
        : `${places[location.at]}: ${location.place}`;
  const adjusted = item.adjustment?.trim().toLowerCase() === "none" ? words.noAdjustment : item.adjustment;
  const optional = (term: string, value: Child | undefined, clause: string): Fact | null =>
    value === undefined ? null : [term, value, clause];
  return html`<section>
    ${facts([
      [words.performed, days, "7.8.2.1 i"],
      [words.issued, fields.issued ?? missing("issued", messages), "7.8.2.1 j"],
      [words.location, where, "7.8.2.1 c"],
      [words.method, method?.name ?? missing("method", messages), "7.8.2.1 f"],
      method === undefined || method.norms.length === 0 ? null : [words.norms, numbers.list(method.norms), "7.8.2.1 f"],
      [words.deviations, method?.deviations ?? words.noDeviations, "7.8.2.1 n"],
      optional(words.sampling, fields.sampling, "7.8.2.1 k"),
      [
        words.conditions,
        fields.conditions === undefined || fields.conditions.length === 0
          ? missing("conditions", messages)
          : fields.conditions.map(({ quantity, low, high }, i) => {
              const range =
                low === high
                  ? withUnit(numbers.plain(low), UNITS[quantity])
                  : numbers.range(numbers.plain(low), numbers.plain(high), UNITS[quantity]);
              return html`${i === 0 ? null : html`<br />`}${words[quantity]}: ${range}`;
            }),
        "7.8.4.1 b",
      ],
      [words.traceability, fields.traceability ?? missing("traceability", messages), "7.8.4.1 c"],
      reference === null
        ? null
        : [
            words.reference,
            [reference.thermometer, reference.certificate, reference.laboratory, reference.calibrated]
              .filter((part) => part !== undefined)
              .join(", "),
            "7.8.4.1 c",
          ],
      [words.adjustment, adjusted ?? missing("adjustment", messages), "7.8.4.1 d"],
      optional(words.external, fields.external, "7.8.2.1 p"),
      fields.fromCustomer === undefined
        ? null
        : [words.fromCustomer, `${fields.fromCustomer} ${words.fromCustomerRule}`, "7.8.2.2"],
    ])}
    ${clause("7.8.4.1 d", tableOf(beforeTable(item.before, coverageProbability, speech), speech))}
  </section>`;
}

const tableOf = (of: Table, speech: Speech): Child =>
  of.rows.length === 0 ? null : html`<div class="scroll">${presentedTable(speech, of)}</div>`;

const clause = (name: string, content: Child): Child =>
  content === null ? null : html`<div data-clause="${name}">${content}</div>`;

function resultSections(certificate: Certificate, speech: Speech): readonly Child[] {
  const { messages, numbers } = speech;
  const words = messages.calibrationCertificate;
  const { fit, result, points } = certificate;
  const deviation = fit?.deviation ?? null;
  const p = { p: numbers.probability(certificate.coverageProbability) };
  const ends = points.map(({ point }) => point.nominal);
  const celsius = (value: number): string => withUnit(numbers.plain(value), "°C");
  const intervals = points.some(({ uncertainty }) => uncertainty.kind === "interval");
  return [
    html`<section>
      <h2>${words.results}</h2>
      <p>
        ${fillText(deviation === null ? words.errorSentence : words.standardErrorSentence, { R0: "R₀", value: withUnit(numbers.plain(certificate.nominalResistance), "Ω") })}
      </p>
      ${clause("7.8.2.1 m", tableOf(statedPointsTable(certificate, speech), speech))}
      <p data-clause="7.8.4.1 a">${fillText(words.uncertaintySentence, p)}</p>
      ${intervals ? html`<p>${fillText(words.intervalSentence, p)}</p>` : null}
      ${tableOf(repeatTable(result, speech), speech)} ${tableOf(zeroTable(result, speech), speech)}
    </section>`,
    fit === null
      ? null
      : html`<section>
          <h2>${words.coefficients}</h2>
          <p>
            ${fillText(deviation === null ? words.coefficientsSentence : words.deviationSentence, {
              ...deviation,
              low: celsius(Math.min(...ends)),
              high: celsius(Math.max(...ends)),
            })}
          </p>
          ${tableOf(coefficientTable(fit, speech), speech)} ${tableOf(coefficientCorrelationTable(fit, speech), speech)}
          <h2>${words.between}</h2>
          <p>${fillText(words.betweenSentence, p)}</p>
          ${bandPicture(result, fit, speech)} ${tableOf(betweenTable(fit, result, speech), speech)}
        </section>`,
    certificate.guardBandMultiplier === null
      ? null
      : html`<section data-clause="7.8.4.1 e">
          <h2>${words.conformity}</h2>
          <p data-clause="7.8.6.1">${words.rule}: ${ruleOf(certificate, speech)}.</p>
          ${tableOf(statedConformityTable(certificate, speech), speech)}
          <p>${wholeDecision(certificate, speech)}</p>
        </section>`,
  ];
}

function ruleOf({ stated, guardBandMultiplier: r }: Certificate, { messages, numbers }: Speech): string {
  const words = messages.calibrationCertificate;
  if (stated.fields.decisionRule !== undefined) return stated.fields.decisionRule.replace(/\.$/, "");
  if (r === 0) return words.simpleAcceptance;
  return fillText(r! > 0 ? words.guardedAcceptance : words.guardedRejection, { r: numbers.plain(Math.abs(r!)) });
}

function wholeDecision({ points }: Certificate, { messages, numbers }: Speech): string {
  const words = messages.calibrationCertificate;
  const rejected = points.filter(({ point }) => point.conformity?.decision === "rejected");
  return rejected.length === 0
    ? words.allAccepted
    : fillText(words.someRejected, { points: numbers.list(rejected.map(({ point }) => numbers.whole(point.number))) });
}

function statementSection(
  { stated: { fields }, digest, program }: Certificate,
  { messages }: Speech,
): readonly Child[] {
  const words = messages.calibrationCertificate;
  return [
    fields.opinions === undefined
      ? null
      : html`<section data-clause="7.8.4.1 f">
          <h2>${words.opinions}</h2>
          <p>${fields.opinions}</p>
        </section>`,
    html`<section>
      <h2>${words.statements}</h2>
      <p data-clause="7.8.2.1 l">${words.onlyItem}</p>
      <p data-clause="7.8.2.1 note">${words.inFull}</p>
      ${
        fields.nextCalibration === undefined
          ? null
          : html`<p data-clause="7.8.4.3">${fillText(words.next, { day: fields.nextCalibration })}</p>`
      }
      <p class="fine digest">${fillText(words.record, { digest, program })}</p>
    </section>`,
  ];
}
