import { own } from "../../present/own.ts";
import type { Kind } from "./fields.ts";

/** What is known of one input, as it stands in the form: texts, whether they can be read or not. */
export interface InputDraft {
  readonly distribution: string;
  /** By field; fields of other kinds stay, so that nothing is lost on the way from one kind to the next. */
  readonly fields: Readonly<Record<string, string>>;
}

export interface CorrelationDraft {
  readonly between: readonly [string, string];
  readonly coefficient: string;
  readonly refersTo: "values" | "ranks";
  readonly source: string;
}

/** A study as it is being written. */
export interface Draft {
  readonly title: string;
  readonly laboratory: string;
  readonly notes: string;
  readonly model: string;
  /** JSON texts, by parameter. */
  readonly parameters: Readonly<Record<string, string>>;
  readonly inputs: Readonly<Record<string, InputDraft>>;
  /** Why an optional input is left out, by its name. */
  readonly negligible: Readonly<Record<string, string>>;
  readonly correlations: readonly CorrelationDraft[];
  readonly custom: "probability" | "factor";
  readonly probability: string;
  readonly factor: string;
  readonly interval: "symmetric" | "shortest";
  readonly significantDigits: "1" | "2";
  readonly trials: "adaptive" | "count";
  readonly count: string;
  readonly maximumTrials: string;
  readonly seed: string;
  /** What the form has no field for, kept as it was. */
  readonly rest: Readonly<Record<string, unknown>>;
}

export const BLANK: Draft = {
  title: "",
  laboratory: "",
  notes: "",
  model: "",
  parameters: {},
  inputs: {},
  negligible: {},
  correlations: [],
  custom: "probability",
  probability: "0.95",
  factor: "2",
  interval: "symmetric",
  significantDigits: "2",
  trials: "adaptive",
  count: "1000000",
  maximumTrials: "",
  seed: "1",
  rest: {},
};

export type StudyDocument = Readonly<Record<string, unknown>>;

export const isDraft = (study: StudyDocument | Draft): study is Draft => "custom" in study && "rest" in study;

/** A number as written, with either minus sign; what is none stays a text, for the check to name. */
function numberOr(text: string): number | string {
  const plain = text
    .trim()
    .replace(/^−/, "-")
    .replaceAll(/[\u202f\u00a0 ]/g, "");
  const value = /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i.test(plain) ? Number(plain) : Number.NaN;
  return Number.isFinite(value) ? value : text.trim();
}

function jsonOr(text: string): unknown {
  try {
    return JSON.parse(text) as unknown;
  } catch {
    return text.trim();
  }
}

const READ: Readonly<Record<Kind["fields"][number]["shape"], (text: string) => unknown>> = {
  number: numberOr,
  numbers: (text) =>
    text
      .trim()
      .split(/[\s;]+/)
      .map(numberOr),
  text: (text) => text.trim(),
  json: jsonOr,
};

const filled = (text: string | undefined): text is string => text !== undefined && text.trim() !== "";

function statement({ distribution, fields }: InputDraft, kinds: readonly Kind[]): StudyDocument {
  const kind = kinds.find(({ name }) => name === distribution);
  const given = (kind?.fields ?? [])
    .filter(({ name }) => filled(fields[name]))
    .map(({ name, shape }) => [name, READ[shape](fields[name]!)] as const);
  return {
    distribution,
    ...Object.fromEntries(given),
    ...(filled(fields["source"]) ? { source: fields["source"].trim() } : {}),
  };
}

/** Whether a draft states an input: once a distribution is chosen for it. */
export const isStated = ({ inputs }: Draft, name: string): boolean => (own(inputs, name)?.distribution ?? "") !== "";

/** The draft with another statement about one input. */
export const withInput = (draft: Draft, name: string, stated: InputDraft): Draft => ({
  ...draft,
  inputs: { ...draft.inputs, [name]: stated },
});

/** The draft with another reason for leaving an optional input out. */
export const withReason = (draft: Draft, name: string, because: string): Draft => ({
  ...draft,
  negligible: { ...draft.negligible, [name]: because },
});

/** The draft with another text for one parameter of its model. */
export const withParameter = (draft: Draft, name: string, text: string): Draft => ({
  ...draft,
  parameters: { ...draft.parameters, [name]: text },
});

/** The parameters that are filled in; what cannot be read as JSON stays a text, for the check to name. */
export const parametersOf = ({ parameters }: Draft): Readonly<Record<string, unknown>> =>
  Object.fromEntries(
    Object.entries(parameters)
      .filter(([, value]) => filled(value))
      .map(([name, value]) => [name, jsonOr(value)]),
  );

/**
 * The study a draft stands for. What cannot be read as a number goes along as it was written: one check, the server's,
 * then tells every problem with its place.
 *
 * @param names inputs of the model, in its order
 */
export function documentOf(draft: Draft, names: readonly string[], kinds: readonly Kind[]): StudyDocument {
  const { inputs, correlations, custom, trials } = draft;
  const text = (name: "laboratory" | "notes"): StudyDocument =>
    filled(draft[name]) ? { [name]: draft[name].trim() } : {};
  const stated = names.filter((name) => isStated(draft, name));
  // A reason stands only for what is left out, and only for an input of this model.
  const reasons = names
    .filter((name) => !stated.includes(name) && filled(own(draft.negligible, name)))
    .map((name) => [name, own(draft.negligible, name)!.trim()] as const);
  const parameters = parametersOf(draft);
  return {
    title: draft.title.trim(),
    ...text("laboratory"),
    ...text("notes"),
    model: draft.model,
    ...(Object.keys(parameters).length === 0 ? {} : { parameters }),
    inputs: Object.fromEntries(stated.map((name) => [name, statement(inputs[name]!, kinds)])),
    ...(reasons.length === 0 ? {} : { negligible: Object.fromEntries(reasons) }),
    ...(correlations.length === 0 ? {} : { correlations: correlations.map(correlation) }),
    coverage: { [custom]: numberOr(draft[custom]), ...(draft.interval === "shortest" ? { interval: "shortest" } : {}) },
    significantDigits: Number(draft.significantDigits),
    trials: trials === "adaptive" ? "adaptive" : numberOr(draft.count),
    ...(trials === "adaptive" && filled(draft.maximumTrials) ? { maximumTrials: numberOr(draft.maximumTrials) } : {}),
    seed: draft.seed,
    ...draft.rest,
  };
}

const correlation = ({ between, coefficient, refersTo, source }: CorrelationDraft): StudyDocument => ({
  between,
  coefficient: numberOr(coefficient),
  ...(refersTo === "ranks" ? { refersTo } : {}),
  ...(filled(source) ? { source: source.trim() } : {}),
});

const textOf = (value: unknown): string =>
  value === undefined || value === null
    ? ""
    : typeof value === "string" || typeof value === "number"
      ? String(value)
      : Array.isArray(value) && value.every((item) => typeof item === "number")
        ? value.join(" ")
        : JSON.stringify(value);

const objectOr = (value: unknown): Readonly<Record<string, unknown>> =>
  typeof value === "object" && value !== null && !Array.isArray(value)
    ? (value as Readonly<Record<string, unknown>>)
    : {};

/** The draft that a study at hand would have been written as. */
export function draftOf(document: StudyDocument): Draft {
  const {
    $schema: _schema,
    title,
    laboratory,
    notes,
    model,
    parameters,
    inputs,
    negligible,
    correlations,
    coverage,
    significantDigits,
    trials,
    maximumTrials,
    seed,
    ...rest
  } = document;
  const { probability, factor, interval } = objectOr(coverage);
  return {
    title: textOf(title),
    laboratory: textOf(laboratory),
    notes: textOf(notes),
    model: textOf(model),
    parameters: Object.fromEntries(
      Object.entries(objectOr(parameters)).map(([name, value]) => [name, JSON.stringify(value)]),
    ),
    inputs: Object.fromEntries(
      Object.entries(objectOr(inputs)).map(([name, stated]) => {
        const { distribution, ...fields } = objectOr(stated);
        return [
          name,
          {
            distribution: textOf(distribution),
            fields: Object.fromEntries(Object.entries(fields).map(([field, value]) => [field, textOf(value)])),
          },
        ];
      }),
    ),
    negligible: Object.fromEntries(
      Object.entries(objectOr(negligible)).map(([name, because]) => [name, textOf(because)]),
    ),
    correlations: (Array.isArray(correlations) ? (correlations as unknown[]) : []).map((stated) => {
      const { between, coefficient, refersTo, source } = objectOr(stated);
      const [a, b] = Array.isArray(between) ? (between as unknown[]) : [];
      return {
        between: [textOf(a), textOf(b)],
        coefficient: textOf(coefficient),
        refersTo: refersTo === "ranks" ? "ranks" : "values",
        source: textOf(source),
      };
    }),
    custom: factor === undefined ? "probability" : "factor",
    probability: probability === undefined ? BLANK.probability : textOf(probability),
    factor: factor === undefined ? BLANK.factor : textOf(factor),
    interval: interval === "shortest" ? "shortest" : "symmetric",
    significantDigits: significantDigits === 1 ? "1" : "2",
    trials: trials === "adaptive" ? "adaptive" : "count",
    count: trials === "adaptive" || trials === undefined ? BLANK.count : textOf(trials),
    maximumTrials: textOf(maximumTrials),
    seed: seed === undefined ? BLANK.seed : textOf(seed),
    // Nothing is not worth carrying along.
    rest: Object.fromEntries(
      Object.entries(rest).filter(
        ([, value]) => value !== null && !(typeof value === "object" && Object.keys(value as object).length === 0),
      ),
    ),
  };
}
