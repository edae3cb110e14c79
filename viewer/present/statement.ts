import type { FieldUnits } from "../../engine/internal.ts";
import { distributionWords } from "./budget.ts";
import { unitOfFigure } from "./field-units.ts";
import { fillText } from "./fill.ts";
import { en } from "./messages/en/index.ts";
import type { Messages } from "./messages/messages.ts";
import { english, withUnit, type Numbers } from "./numbers.ts";

/** A language and its numbers. */
export interface Speech {
  readonly messages: Messages;
  readonly numbers: Numbers;
  /** A text that a record has in English, in this language; the English one where the language does not have it. */
  readonly translate: (text: string) => string;
}

export const ENGLISH: Speech = { messages: en, numbers: english, translate: (text) => text };

/** A figure of a statement as it was stated. */
export interface StatedFigure {
  readonly field: string;
  readonly label: string;
  /** A letter of the standards, in italics; a word; or a field that has no name in words. */
  readonly kind: "letter" | "word" | "field";
  readonly text: string;
}

/** The units that the kind of a statement declares for its fields. */
export type UnitsOf = (statement: Fields) => FieldUnits;

/** Fields that are letters of the standards. */
const LETTERS: ReadonlySet<string> = new Set([
  "standardUncertainty",
  "expandedUncertainty",
  "coverageFactor",
  "coverageProbability",
  "degreesOfFreedom",
]);

/** A longer list is given by its number, mean and standard deviation. */
const MOST_LISTED = 40;

/** Fields that say what the statement is and where it comes from; they stand in places of their own. */
const APART: ReadonlySet<string> = new Set(["distribution", "unit", "source", "evidence"]);

export type Fields = Readonly<Record<string, unknown>>;

/** The name of a field, in words or as its letter; a field that the language has no name for by its own. */
export function fieldLabel(field: string, kind: unknown, { fields }: Messages): Pick<StatedFigure, "label" | "kind"> {
  const key = field === "values" && kind === "readings" ? "readings" : field;
  if (!Object.hasOwn(fields, key)) return { label: field, kind: "field" };
  return { label: fields[key as keyof Messages["fields"]], kind: LETTERS.has(field) ? "letter" : "word" };
}

/**
 * The figures of a statement as the study gives them, each with its name and unit.
 *
 * @param inputUnit the input's, which a statement has unless it names its own
 */
export function statedFigures(
  statement: Fields,
  inputUnit: string,
  unitsOf: UnitsOf,
  speech: Speech = ENGLISH,
): StatedFigure[] {
  const own = statement["unit"];
  const unit = typeof own === "string" ? own : inputUnit;
  const units = unitsOf(statement);
  return Object.entries(statement).flatMap(([field, value]): StatedFigure[] =>
    APART.has(field) || value === undefined
      ? []
      : [
          {
            field,
            ...fieldLabel(field, statement["distribution"], speech.messages),
            text:
              field === "components" && Array.isArray(value)
                ? value.map((part) => componentText(part, unit, unitsOf, speech)).join("; ")
                : valueText(field, value, unitOfFigure(units[field], unit), speech),
          },
        ],
  );
}

/** A figure with its name: "half-width 0.0012 Ω", "k = 2", "components: …". */
export const statedText = ({ label, kind, text, field }: StatedFigure): string =>
  `${label}${joinerOf({ kind, field })}${text}`;

/** What stands between a figure's name and the figure. */
export const joinerOf = ({ kind, field }: Pick<StatedFigure, "kind" | "field">): string =>
  kind === "letter" ? "\u00a0=\u00a0" : field === "components" ? ": " : " ";

function valueText(field: string, value: unknown, unit: string, speech: Speech): string {
  const { numbers } = speech;
  if (typeof value === "number")
    return field === "coverageProbability" ? numbers.probability(value) : withUnit(numbers.plain(value), unit);
  if (typeof value === "string") return value;
  if (Array.isArray(value) && value.every((item) => typeof item === "number")) return listText(value, unit, speech);
  return JSON.stringify(value);
}

function componentText(component: unknown, unit: string, unitsOf: UnitsOf, speech: Speech): string {
  const { weight, statement } = component as { readonly weight: number; readonly statement: Fields };
  const kind = String(statement["distribution"]);
  const figures = statedFigures(statement, unit, unitsOf, speech).map(statedText).join("; ");
  return `${speech.numbers.plain(weight)}\u00a0× ${distributionWords(kind, kind, speech.messages)} (${figures})`;
}

function listText(values: readonly number[], unit: string, { messages, numbers }: Speech): string {
  // All to the places of the one with most, as an instrument shows them.
  const decimals = Math.max(
    0,
    ...values.map((value) => (String(value).includes("e") ? 12 : (String(value).split(".")[1] ?? "").length)),
  );
  const text = (value: number): string => numbers.fixed(value, decimals);
  if (values.length <= MOST_LISTED) return withUnit(numbers.list(values.map(text)), unit);
  const mean = values.reduce((sum, value) => sum + value / values.length, 0);
  const deviation = Math.sqrt(
    values.reduce((sum, value) => sum + (value - mean) * (value - mean), 0) / (values.length - 1),
  );
  const parts: Readonly<Record<string, string>> = {
    count: numbers.whole(values.length),
    mean: withUnit(numbers.fixed(mean, decimals + 1), unit),
    deviation: withUnit(numbers.significant(deviation, 2), unit),
  };
  return `${numbers.list(values.slice(0, 6).map(text))} ${messages.inputs.more.replace(/\{(\w+)\}/g, (_, name: string) => parts[name]!)}`;
}

/** What a statement says of an input but for its source: what it is, and each figure in a few words. */
export interface StatementParts {
  /** The distribution in words, or that none is stated. */
  readonly distribution: string;
  readonly figures: readonly { readonly field: string; readonly text: string }[];
}

/** A statement in a few words; lists by their length and extremes, of its evidence the files alone. */
export function statementParts(
  statement: unknown,
  inputUnit: string,
  unitsOf: UnitsOf,
  speech: Speech = ENGLISH,
): StatementParts {
  const { messages } = speech;
  const fields = (statement ?? {}) as Fields;
  const kind = fields["distribution"];
  const figures = statedFigures(fields, inputUnit, unitsOf, speech).map((figure) => {
    const value = fields[figure.field];
    const own = typeof fields["unit"] === "string" ? fields["unit"] : inputUnit;
    const unit = unitOfFigure(unitsOf(fields)[figure.field], own);
    return {
      field: figure.field,
      text: Array.isArray(value) ? countText(figure.label, value, unit, speech) : statedText(figure),
    };
  });
  const { files = [] } = (fields["evidence"] ?? {}) as { readonly files?: readonly { readonly name: string }[] };
  if (files.length > 0) {
    const names = files.map(({ name }) => name).join(", ");
    figures.push({ field: "evidence", text: fillText(messages.inputs.evidenceFrom, { files: names }) });
  }
  return {
    distribution:
      typeof kind === "string" && kind !== ""
        ? distributionWords(kind, kind, messages)
        : messages.inputs.noDistribution,
    figures,
  };
}

/** The same in one line: "rectangular: estimate 0, half-width 0.003". */
export function statementWords(
  statement: unknown,
  inputUnit = "1",
  unitsOf: UnitsOf = () => ({}),
  speech: Speech = ENGLISH,
): string {
  const { distribution, figures } = statementParts(statement, inputUnit, unitsOf, speech);
  return `${distribution}: ${figures.map(({ text }) => text).join(", ")}`;
}

/** A list by its length and, where it holds numbers, its extremes. */
function countText(label: string, values: readonly unknown[], unit: string, { messages, numbers }: Speech): string {
  const figures = values.filter((item): item is number => typeof item === "number");
  const counted = `${values.length} ${label}`;
  return figures.length === 0 || figures.length < values.length
    ? counted
    : fillText(messages.inputs.fromTo, {
        values: counted,
        low: numbers.plain(Math.min(...figures)),
        high: withUnit(numbers.plain(Math.max(...figures)), unit),
      });
}
