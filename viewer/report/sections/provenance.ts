import { momentText } from "../../present/moment.ts";
import { fillText } from "../../present/fill.ts";
import { fill, html, type Child, type Markup } from "../markup.ts";
import { fromRecord, type Report, type Section } from "../report.ts";

/** Where every figure comes from, and the command that makes them again. */
export const provenance: Section = {
  id: "provenance",
  render(report) {
    const { messages, record, command } = report;
    const words = messages.provenance;
    return html`<table class="provenance">
        <caption>
          <span class="label">${messages.table}</span>
          ${words.caption}
        </caption>
        <tbody>
          ${rows(report).map(
            ([head, value]) =>
              html`<tr>
                <th scope="row">${head}</th>
                <td>${value}</td>
              </tr>`,
          )}
        </tbody>
      </table>
      <div class="again">
        <p>${fillText(words.again, { version: record.engine.version })}</p>
        <pre tabindex="0"><code>${command}</code></pre>
        <p>
          ${words.againNote} ${record.provenance?.modelSource ? words.ownModel : null}
          ${fill(words.validation, { command: html`<code>npx trialband selfcheck</code>` })}
        </p>
      </div>
      ${signatures(report)}`;
  },
};

const digestText = (digest: string): Markup =>
  html`<code class="digest">${digest.replace(/(.{8})(?=.)/g, "$1\u200b")}</code>`;

function rows(report: Report): (readonly [string, Child])[] {
  const { record, messages, numbers, digest } = report;
  const words = messages.provenance;
  const { model, engine, generator, trials, environment, provenance: sources, seal } = record;
  const sourceDigest = (text: string): Child => (text === "unbuilt" ? words.unbuilt : digestText(text));
  return [
    [words.model, html`${fromRecord(report, model.title)} (<code>${model.id}</code>)`],
    ...(sources === undefined ? [] : [[words.modelDigest, sourceDigest(sources.modelDigest)] as const]),
    [
      words.engine,
      html`${engine.name}
      ${engine.version}${sources?.commit ? html`, ${fillText(words.commit, { commit: sources.commit })}` : null}`,
    ],
    ...(sources === undefined ? [] : [[words.engineDigest, sourceDigest(sources.engineDigest)] as const]),
    [words.generator, html`${fromRecord(report, generator.title)} (<code>${generator.id}</code>)`],
    [words.seed, html`<code>${generator.seed}</code>`],
    [
      words.trials,
      fillText(words.trialsText, {
        count: numbers.whole(trials.count),
        batch: numbers.whole(trials.batch),
        stop: words[trials.stop],
      }),
    ],
    [words.bits, model.fixedBits ? words.bitsAny : words.bitsOne],
    ...(environment === undefined
      ? []
      : ([
          [
            words.started,
            fill(words.startedText, {
              date: momentText(environment.startedAt, messages.language, true),
              seconds: numbers.fixed(environment.seconds, 1),
              workers: numbers.whole(environment.workers),
            }),
          ],
          [words.runtime, environment.runtime],
        ] as const)),
    [
      words.recordDigest,
      html`${digestText(digest)}
        <div class="fine">${seal === undefined ? words.unsealed : words.digestNote}</div>`,
    ],
    ...(seal === undefined
      ? []
      : ([
          [words.resultsDigest, digestText(seal.results)],
          [words.studyDigest, digestText(seal.study)],
        ] as const)),
  ];
}

function signatures({ messages }: Report): Markup {
  const words = messages.provenance;
  return html`<table class="signatures">
    <caption>
      ${words.signatures}
    </caption>
    <tbody>
      ${[words.evaluatedBy, words.reviewedBy].map(
        (who) =>
          html`<tr>
            <th scope="row">${who}</th>
            <td class="line"></td>
            <td class="fine">${words.dateAndSignature}</td>
            <td class="line"></td>
          </tr>`,
      )}
    </tbody>
  </table>`;
}
