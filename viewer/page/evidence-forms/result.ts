import type { EvaluatedEvidence, EvidenceUse, FormKind } from "../../api/evidence-evaluation.ts";
import { evaluateEvidence, RequestError } from "../api.ts";
import { fillText } from "../../present/fill.ts";
import { distributionWords } from "../../present/budget.ts";
import { own as ownOf } from "../../present/own.ts";
import type { Table } from "../../present/tables/table.ts";
import { html, redraw, type Child } from "../draw/node.ts";
import { wideTable } from "../draw/table.ts";
import type { FormContext } from "../evidence/frame.ts";
import { speech, messages } from "../language.ts";
import { fromEnglish, sentenceFromEnglish } from "../draw/from-english.ts";
import { words } from "../later-words.ts";

/** The name of a quantity in words. */
export const quantityName = (name: string): string => ownOf(words.forms.quantityNames, name) ?? name;

/** The result of a form: evaluated a moment after the last change, and shown. */
export interface Result {
  readonly element: HTMLElement;
  /** What was evaluated last; `null` while something is missing or wrong. */
  readonly evaluated: () => EvaluatedEvidence | null;
  /** Evaluates once nothing was changed for a moment. */
  readonly soon: () => void;
}

const PAUSE = 350;

/**
 * @param use how the evidence is used, as far as the form asks for it
 * @param show what stands above checks and reasoning
 * @param told after each evaluation
 */
export function createResult<Draft>(
  kind: FormKind,
  context: FormContext<Draft>,
  use: () => EvidenceUse,
  show: (evaluated: EvaluatedEvidence) => readonly Child[],
  told: () => void,
): Result {
  const body = html("div", { class: "panel-body" });
  const element = html(
    "section",
    { class: "panel", id: "setup-result", "aria-labelledby": "setup-result-title" },
    html("h2", { id: "setup-result-title", tabindex: -1 }, words.forms.result),
    body,
  );
  let evaluated: EvaluatedEvidence | null = null;
  let timer: ReturnType<typeof setTimeout> | undefined;
  let asked = 0;

  const put = (found: EvaluatedEvidence | null): void => {
    evaluated = found;
    redraw(body, () =>
      body.replaceChildren(
        ...(found === null ? [html("p", { class: "note" }, words.forms.waiting)] : contentOf(found, show)),
      ),
    );
    told();
  };

  async function evaluate(): Promise<void> {
    const mine = (asked += 1);
    if (context.missing().length > 0) {
      context.complain([]);
      return put(null);
    }
    try {
      const files = context.files().map(({ name, sha256 }) => ({ name, sha256 }));
      const found = await evaluateEvidence({ kind, document: context.document(), files, use: use() });
      if (mine !== asked) return;
      context.complain([]);
      put(found);
    } catch (error) {
      if (mine !== asked) return;
      put(null);
      if (error instanceof RequestError) context.refused(error);
      else throw error;
    }
  }

  return {
    element,
    evaluated: () => evaluated,
    soon: () => {
      clearTimeout(timer);
      timer = setTimeout(() => void evaluate(), PAUSE);
    },
  };
}

function contentOf(found: EvaluatedEvidence, show: (evaluated: EvaluatedEvidence) => readonly Child[]): HTMLElement[] {
  const parts = [...(found.probes ?? []), found.immersion?.withdrawal ?? null, found.immersion?.fit ?? null].filter(
    (part) => part !== null,
  );
  const reasoning = [
    ...parts.flatMap((part) => part.reasoning),
    ...(found.certificate == null
      ? []
      : [
          ...found.certificate.value.reasoning,
          ...(found.certificate.drift?.reasoning ?? []),
          ...(found.certificate.validity.warning === null ? [] : [found.certificate.validity.warning]),
        ]),
  ];
  const checks = parts.flatMap((part) => part.checks);
  return [
    html("div", { "aria-live": "polite" }, ...show(found)),
    ...(checks.length === 0
      ? []
      : [
          html("h3", {}, words.forms.checks),
          html(
            "ul",
            { class: "sentences", id: "setup-checks" },
            checks.map(({ check, passed, found: what }) =>
              html(
                "li",
                {},
                html("strong", {}, passed ? words.forms.met : words.forms.notMet),
                ": ",
                fromEnglish(check),
                ": ",
                fromEnglish(what),
                ".",
              ),
            ),
          ),
        ]),
    ...list(words.forms.reasoning, "setup-reasoning", reasoning),
    ...list(words.forms.notes2, "setup-log-read", found.notes),
    ...quantities(found),
  ];
}

const list = (title: string, id: string, sentences: readonly string[]): HTMLElement[] =>
  sentences.length === 0
    ? []
    : [
        html("h3", {}, title),
        html(
          "ul",
          { class: "sentences", id },
          sentences.map((one) => html("li", {}, sentenceFromEnglish(one))),
        ),
      ];

/** What a study may state, each in its unit. */
function quantities({ statements, notStated }: EvaluatedEvidence): HTMLElement[] {
  const entries = Object.entries(statements);
  if (entries.length === 0)
    return notStated === null
      ? []
      : [html("p", { id: "setup-not-stated" }, fillText(words.forms.notStated, { reason: notStated }))];
  const { numbers } = speech;
  const figure = (value: unknown, unit: string): string =>
    typeof value !== "number"
      ? ""
      : unit === "K"
        ? `${numbers.plain(Number((1000 * value).toPrecision(5)))}\u00a0mK`
        : `${numbers.plain(Number(value.toPrecision(9)))}\u00a0${unit}`;
  const table: Table = {
    caption: words.forms.quantities,
    columns: [
      { head: words.forms.quantity, kind: "head" },
      { head: words.forms.estimate, kind: "text" },
      { head: words.forms.uncertainty, kind: "text" },
      { head: words.forms.distribution, kind: "text" },
    ],
    rows: entries.map(([name, { statement, unit }]) => {
      const {
        distribution,
        estimate,
        value,
        values,
        standardUncertainty,
        expandedUncertainty,
        coverageFactor,
        halfWidth,
      } = statement;
      const readings = Array.isArray(values) ? (values as number[]) : null;
      const mean = readings === null ? undefined : readings.reduce((sum, one) => sum + one, 0) / readings.length;
      // Of the mean: from the readings themselves, or from the deviation pooled over earlier series.
      const pooled = statement["pooledStandardDeviation"];
      const deviation =
        readings === null || mean === undefined
          ? null
          : typeof pooled === "number"
            ? pooled
            : Math.sqrt(
                readings.reduce((sum, one) => sum + (one - mean) * (one - mean), 0) / Math.max(1, readings.length - 1),
              );
      const ofMean = deviation === null ? undefined : deviation / Math.sqrt(readings!.length);
      const k = typeof coverageFactor === "number" ? `, k\u00a0=\u00a0${numbers.plain(coverageFactor)}` : "";
      return {
        head: quantityName(name),
        cells: [
          figure(estimate ?? value ?? mean, unit),
          expandedUncertainty === undefined
            ? figure(standardUncertainty ?? halfWidth ?? ofMean, unit)
            : `U\u00a0=\u00a0${figure(expandedUncertainty, unit)}${k}`,
          distributionWords(String(distribution), String(distribution), messages),
        ],
      };
    }),
  };
  return [wideTable(table, "setup-quantities")];
}
