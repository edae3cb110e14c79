import { own } from "../../present/own.ts";
import { howOfStatement } from "./hows.ts";
import { BLANK_ROW, type OfTemperature, type Row } from "./row.ts";

export interface CorrelationDraft {
  /** Keys of two rows. */
  readonly between: readonly [string, string];
  readonly coefficient: string;
  readonly refersTo: "values" | "ranks";
  /** Simultaneous readings or separate series (JCGM 102, 5.3.2); "" where nothing is stated. */
  readonly series: "" | "simultaneous" | "separate";
  readonly source: string;
}

/** A result of a model whose quantities the study declares. */
export interface ResultDraft {
  /** Its name in the study, or a key of the form alone. */
  readonly key: string;
  readonly symbol: string;
  readonly meaning: string;
  readonly unit: string;
  readonly ofTemperature: OfTemperature;
}

/** What is known of an input at one point of a range, in place of its row. */
export type ChangeDraft = Pick<Row, "how" | "fields" | "rest"> & { readonly key: string };

/** A point of a range. */
export interface PointDraft {
  readonly at: string;
  readonly changes: readonly ChangeDraft[];
}

export interface SweepDraft {
  readonly quantity: string;
  readonly unit: string;
  readonly points: readonly PointDraft[];
}

/** What conformity of one measurand is judged by (JCGM 106). */
export interface ConformityDraft {
  /** The measurand's name; "" for the only result. */
  readonly measurand: string;
  readonly lower: string;
  readonly upper: string;
  readonly basis: string;
  /** r of the guard band w = r·U. */
  readonly guard: string;
  readonly priorMean: string;
  readonly priorDeviation: string;
  readonly priorSource: string;
  /** A specification in place of limits; its parameters as typed, or as the study has them. */
  readonly specification: Readonly<Record<string, unknown>>;
}

/** A study as it is being written. */
export interface Draft {
  readonly title: string;
  readonly laboratory: string;
  readonly notes: string;
  readonly model: string;
  /** Texts by parameter of a model that has any, other than those that the table and the equation make up. */
  readonly parameters: Readonly<Record<string, string>>;
  /** The text of a typed equation. */
  readonly equation: string;
  readonly rows: readonly Row[];
  /** Results that the study declares: those of a sum of terms or of an equation. */
  readonly results: readonly ResultDraft[];
  readonly correlations: readonly CorrelationDraft[];
  readonly custom: "probability" | "factor";
  readonly probability: string;
  readonly factor: string;
  readonly interval: "symmetric" | "shortest";
  readonly significantDigits: "1" | "2";
  readonly trials: "adaptive" | "count";
  readonly count: string;
  readonly maximumTrials: string;
  readonly undefinedTrials: "" | "refuse" | "leave-out";
  readonly generator: string;
  readonly seed: string;
  readonly conformity: readonly ConformityDraft[];
  /** Trials of a sensitivity analysis without linearisation; `null` if none is asked for, "" for the usual number. */
  readonly sensitivity: string | null;
  readonly sweep: SweepDraft | null;
  /** What is known of the bath, by field. */
  readonly bath: Readonly<Record<string, string>>;
  /** What the form has no field for, kept as it was. */
  readonly rest: Readonly<Record<string, unknown>>;
}

const BLANK_RESULT: ResultDraft = { key: "result-1", symbol: "y", meaning: "", unit: "", ofTemperature: "" };

export const BLANK: Draft = {
  title: "",
  laboratory: "",
  notes: "",
  model: "additive",
  parameters: {},
  equation: "",
  rows: [BLANK_ROW],
  results: [BLANK_RESULT],
  correlations: [],
  custom: "probability",
  probability: "0.95",
  factor: "2",
  interval: "symmetric",
  significantDigits: "2",
  trials: "adaptive",
  count: "1000000",
  maximumTrials: "",
  undefinedTrials: "",
  generator: "",
  seed: "1",
  conformity: [],
  sensitivity: null,
  sweep: null,
  bath: {},
  rest: {},
};

export type StudyDocument = Readonly<Record<string, unknown>>;

export const isDraft = (study: StudyDocument | Draft): study is Draft => "custom" in study && "rest" in study;

/** Models whose quantities the study itself declares, in the table. */
export type Declared = "additive" | "equation";
export const declaredBy = ({ model }: Pick<Draft, "model">): Declared | null =>
  model === "additive" || model === "equation" ? model : null;

/** The row of a key, an empty one if there is none. */
export const rowOf = ({ rows }: Pick<Draft, "rows">, key: string): Row =>
  rows.find((row) => row.key === key) ?? { ...BLANK_ROW, key, sensitivity: "" };

/** The draft with another row in place of the one with its key, or after the others if none has it. */
export const withRow = (draft: Draft, row: Row): Draft => ({
  ...draft,
  rows: draft.rows.some(({ key }) => key === row.key)
    ? draft.rows.map((one) => (one.key === row.key ? row : one))
    : [...draft.rows, row],
});

/** The draft with another text for one parameter of its model. */
export const withParameter = (draft: Draft, name: string, text: string): Draft => ({
  ...draft,
  parameters: { ...draft.parameters, [name]: text },
});

/** The draft without a row, and without what names it. */
export const withoutRow = (draft: Draft, key: string): Draft => ({
  ...draft,
  rows: draft.rows.filter((row) => row.key !== key),
  correlations: draft.correlations.filter(({ between }) => !between.includes(key)),
  sweep:
    draft.sweep === null
      ? null
      : {
          ...draft.sweep,
          points: draft.sweep.points.map((point) => ({
            ...point,
            changes: point.changes.filter((change) => change.key !== key),
          })),
        },
});

/**
 * A draft that a browser kept, perhaps by an earlier version of this page: what it did not know takes its usual value, and
 * inputs that were kept by name become rows. `null` if it is none.
 */
export function keptAsDraft(kept: unknown): Draft | null {
  if (typeof kept !== "object" || kept === null || Array.isArray(kept)) return null;
  const { inputs, negligible, ...known } = kept as Partial<Draft> & {
    readonly inputs?: Readonly<Record<string, { distribution: string; fields: Readonly<Record<string, string>> }>>;
    readonly negligible?: Readonly<Record<string, string>>;
  };
  if (inputs === undefined) return { ...BLANK, ...known };
  // Parameters were JSON texts then.
  const parameter = (name: string): Readonly<Record<string, unknown>> => {
    try {
      return (JSON.parse(known.parameters?.[name] ?? "{}") ?? {}) as Readonly<Record<string, unknown>>;
    } catch {
      return {};
    }
  };
  const [coefficients, terms] = [parameter("coefficients"), parameter("terms")];
  const textIn = (value: unknown): string =>
    typeof value === "string" || typeof value === "number" ? String(value) : "";
  const rows = [...new Set([...Object.keys(coefficients), ...Object.keys(inputs)])].map((key): Row => {
    const { symbol, meaning, unit } = (own(terms, key) ?? {}) as Readonly<Record<string, unknown>>;
    return {
      ...BLANK_ROW,
      key,
      symbol: textIn(symbol),
      meaning: textIn(meaning),
      unit: textIn(unit),
      how: howOfStatement(own(inputs, key)?.distribution ?? "", own(inputs, key)?.fields ?? {}),
      fields: own(inputs, key)?.fields ?? {},
      // One that cannot be read is asked for again.
      sensitivity: textIn(own(coefficients, key)),
      because: own(negligible ?? {}, key) ?? "",
    };
  });
  return { ...BLANK, ...known, rows };
}
