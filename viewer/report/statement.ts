import { fieldUnits } from "../../engine/index.ts";
import { unitOfFigure } from "../present/field-units.ts";
import { html, fill, joinMarkup, type Markup } from "./markup.ts";
import type { Messages } from "./messages/messages.ts";
import { withUnit } from "./numbers.ts";
import { letter, type Report } from "./report.ts";

type Field = keyof Messages["fields"];

/** Fields that are letters of the standards. */
const LETTERS: ReadonlySet<string> = new Set([
  "standardUncertainty",
  "expandedUncertainty",
  "coverageFactor",
  "coverageProbability",
  "degreesOfFreedom",
]);
/** A list longer than this is told by its number, mean and standard deviation. */
const MOST_LISTED = 40;

/** The figures of a statement as the study gives them, each with its name and unit. */
export function statedFigures(report: Report, statement: Readonly<Record<string, unknown>>, unit: string): Markup[] {
  const units = fieldUnits(statement);
  return Object.entries(statement).flatMap(([field, value]) => {
    if (field === "distribution" || field === "source" || value === undefined) return [];
    if (field === "components" && Array.isArray(value)) return [componentsOf(report, value as Component[], unit)];
    return [statedFigure(report, statement["distribution"], field, value, unitOfFigure(units[field], unit))];
  });
}

interface Component {
  readonly weight: number;
  readonly statement: Readonly<Record<string, unknown>>;
}

/** The components of a mixture, each with its weight and its own figures. */
function componentsOf(report: Report, components: readonly Component[], unit: string): Markup {
  const { messages, numbers } = report;
  return html`${messages.fields.components}:
  ${joinMarkup(
    components.map(
      ({ weight, statement }) =>
        html`${numbers.plain(weight)} ×
        ${messages.distributions[statement["distribution"] as keyof Messages["distributions"]] ?? String(statement["distribution"])}
        (${joinMarkup(statedFigures(report, statement, unit), "; ")})`,
    ),
    "; ",
  )}`;
}

function statedFigure(report: Report, kind: unknown, field: string, value: unknown, unit: string): Markup {
  const { messages, numbers } = report;
  const key = field === "values" && kind === "readings" ? "readings" : field;
  const known = Object.hasOwn(messages.fields, key);
  const name = known ? messages.fields[key as Field] : field;
  const label = LETTERS.has(field) ? letter(name) : known ? html`${name}` : html`<code>${name}</code>`;
  const equals = LETTERS.has(field) ? "\u00a0=\u00a0" : " ";
  if (typeof value === "number") {
    const text = field === "coverageProbability" ? numbers.probability(value) : withUnit(numbers.plain(value), unit);
    return html`<span class="stated-figure">${label}${equals}${text}</span>`;
  }
  if (Array.isArray(value) && value.every((item) => typeof item === "number"))
    return html`${label} ${listOf(report, value, unit)}`;
  return html`${label} <code>${JSON.stringify(value)}</code>`;
}

function listOf({ messages, numbers }: Report, values: readonly number[], unit: string): Markup {
  // All to the places of the one with most, as an instrument shows them.
  const decimals = Math.max(
    ...values.map((value) => (String(value).includes("e") ? 12 : (String(value).split(".")[1] ?? "").length)),
  );
  const text = (value: number): string => numbers.fixed(value, decimals);
  if (values.length <= MOST_LISTED)
    return html`<span class="figures">${withUnit(numbers.list(values.map(text)), unit)}</span>`;
  const mean = values.reduce((sum, value) => sum + value / values.length, 0);
  const deviation = Math.sqrt(
    values.reduce((sum, value) => sum + (value - mean) * (value - mean), 0) / (values.length - 1),
  );
  return html`<span class="figures"
    >${numbers.list(values.slice(0, 6).map(text))}
    ${fill(messages.inputs.more, {
      count: numbers.whole(values.length),
      mean: withUnit(numbers.fixed(mean, decimals + 1), unit),
      deviation: withUnit(numbers.significant(deviation, 2), unit),
    })}</span
  >`;
}
