import { inputName } from "../../../models/evaluation/text/quantity-name.ts";
import {
  declaredBy,
  rowOf,
  type ConformityDraft,
  type CorrelationDraft,
  type Draft,
  type ResultDraft,
  type StudyDocument,
  type SweepDraft,
} from "./draft.ts";
import type { Kind } from "./fields.ts";
import { isPlain, isSmallKelvin } from "./from-study.ts";
import { isEmptyRow, isNewKey, statementOf, type Row } from "./row.ts";
import { isFilled, jsonOr, numberOr, numbersOr, readNumber } from "./typed.ts";

type Fields = Readonly<Record<string, unknown>>;

/** The rows that count: an empty one is as if it were not there. */
export const rowsStated = (draft: Draft): readonly Row[] =>
  declaredBy(draft) === null ? draft.rows : draft.rows.filter((row) => !isEmptyRow(row));

/**
 * The names that rows and results have in the study, by their keys. One that came with a study keeps its name, since its
 * random numbers belong to it; a new one is named after its symbol.
 */
export function namesOf(draft: Draft): ReadonlyMap<string, string> {
  const all = [...draft.rows, ...draft.results];
  const names = new Map(all.filter(({ key }) => !isNewKey(key)).map(({ key }) => [key, key]));
  const taken = new Set(names.values());
  const add = ({ key, symbol, meaning }: Row | ResultDraft, otherwise: string): void => {
    if (names.has(key)) return;
    const name = inputName(symbol.trim() || meaning.trim() || otherwise, names.size + 1, taken);
    taken.add(name);
    names.set(key, name);
  };
  for (const row of draft.rows) add(row, "");
  for (const result of draft.results) add(result, "result");
  return names;
}

/**
 * The study that a draft states: no field that is not filled in, and no input that the model does not have.
 *
 * @param known names of the chosen model's inputs, in its order; of no use where the study declares them
 */
export function documentOf(draft: Draft, known: readonly string[], kinds: readonly Kind[]): StudyDocument {
  const declared = declaredBy(draft);
  const names = namesOf(draft);
  const nameOf = (key: string): string => names.get(key) ?? key;
  const text = (name: "laboratory" | "notes"): object => (isFilled(draft[name]) ? { [name]: draft[name].trim() } : {});
  const rows = declared === null ? known.map((name) => rowOf(draft, name)) : rowsStated(draft);
  const stated = rows.filter(({ how }) => how !== "");
  const left = rows.filter(({ how, because }) => how === "" && isFilled(because));
  const parameters = parametersOf(draft);
  const conformity = draft.conformity.filter(
    ({ lower, upper, specification }) => isFilled(lower) || isFilled(upper) || Object.keys(specification).length > 0,
  );
  const bath = Object.entries(draft.bath).filter(([, value]) => isFilled(value));
  const { custom, trials } = draft;
  return {
    title: draft.title.trim(),
    ...text("laboratory"),
    ...text("notes"),
    model: draft.model,
    ...(Object.keys(parameters).length === 0 ? {} : { parameters }),
    inputs: Object.fromEntries(stated.map((row) => [nameOf(row.key), inputOf(draft, row, kinds)])),
    // A reason stands only for what is left out.
    ...(left.length === 0
      ? {}
      : { negligible: Object.fromEntries(left.map(({ key, because }) => [nameOf(key), because.trim()])) }),
    ...(bath.length === 0
      ? {}
      : { bath: Object.fromEntries(bath.map(([name, value]) => [name, bathValue(name, value)])) }),
    ...(draft.correlations.length === 0
      ? {}
      : { correlations: draft.correlations.map((one) => correlation(one, nameOf)) }),
    coverage: { [custom]: numberOr(draft[custom]), ...(draft.interval === "shortest" ? { interval: "shortest" } : {}) },
    significantDigits: Number(draft.significantDigits),
    trials: trials === "adaptive" ? "adaptive" : numberOr(draft.count),
    ...(trials === "adaptive" && isFilled(draft.maximumTrials) ? { maximumTrials: numberOr(draft.maximumTrials) } : {}),
    ...(draft.undefinedTrials === "" ? {} : { undefinedTrials: draft.undefinedTrials }),
    ...(conformity.length === 0
      ? {}
      : {
          conformity: Object.fromEntries(
            conformity.map((one) => [
              one.measurand === "" ? soleResult(draft) : nameOf(one.measurand),
              requirement(one),
            ]),
          ),
        }),
    ...(draft.sensitivity === null
      ? {}
      : { sensitivity: isFilled(draft.sensitivity) ? { trials: numberOr(draft.sensitivity) } : {} }),
    ...(draft.sweep === null ? {} : { sweep: sweep(draft.sweep, nameOf, kinds) }),
    ...(draft.generator === "" ? {} : { generator: draft.generator }),
    seed: draft.seed,
    ...draft.rest,
  };
}

const bathValue = (name: string, text: string): unknown =>
  name === "name" || name === "fluid" ? text.trim() : name === "usableRange" ? numbersOr(text) : numberOr(text);

/** The name of the only result that the study declares. */
const soleResult = (draft: Draft): string => resultName(draft.results[0], namesOf(draft));

/** A sum's result is called `result` unless the study says otherwise. */
const resultName = (result: ResultDraft | undefined, names: ReadonlyMap<string, string>): string =>
  result === undefined || isNewKey(result.key) ? "result" : (names.get(result.key) ?? result.key);

const statedDifference = (ofTemperature: Row["ofTemperature"]): object =>
  ofTemperature === "" ? {} : { difference: ofTemperature === "difference" };

function quantity({ symbol, meaning, unit, ofTemperature }: Omit<ResultDraft, "key">): Fields {
  const texts = Object.entries({ symbol, meaning, unit }).filter(([, text]) => isFilled(text));
  return {
    ...Object.fromEntries(texts.map(([name, text]) => [name, text.trim()])),
    ...statedDifference(ofTemperature),
  };
}

/** A new quantity without a symbol gets one, so that no reader sees its name in the study. */
const named = <Q extends Row | ResultDraft>(one: Q, i: number): Q =>
  isFilled(one.symbol) || !isNewKey(one.key) ? one : { ...one, symbol: `x_${i + 1}` };

const notEmpty = (fields: Fields): boolean => Object.keys(fields).length > 0;

/** The parameters that are filled in; what cannot be read stays a text, for the check to name. */
export function parametersOf(draft: Draft): Fields {
  const others = Object.fromEntries(
    Object.entries(draft.parameters)
      .filter(([, value]) => isFilled(value))
      .map(([name, value]) => [name, parameterValue(value)]),
  );
  const names = namesOf(draft);
  switch (declaredBy(draft)) {
    case null:
      return others;
    case "additive":
      return { ...others, ...sumParameters(draft, names) };
    case "equation": {
      const quantities = [...rowsStated(draft), ...draft.results].map((one): readonly [string, Fields] => [
        names.get(one.key)!,
        quantity(one),
      ]);
      return {
        ...others,
        equation: draft.equation,
        ...(quantities.length === 0 ? {} : { quantities: Object.fromEntries(quantities) }),
      };
    }
  }
}

/** A parameter as people write it: a number, several numbers, yes or no, a word; JSON stays what it is. */
function parameterValue(text: string): unknown {
  const plain = text.trim();
  if (/^(yes|no)$/i.test(plain)) return plain.toLowerCase() === "yes";
  const numbers = numbersOr(plain);
  if (numbers.length > 1 && numbers.every((one) => typeof one === "number")) return numbers;
  return readNumber(plain) ?? jsonOr(plain);
}

function sumParameters(draft: Draft, names: ReadonlyMap<string, string>): Fields {
  const rows = rowsStated(draft);
  const result = draft.results[0];
  const measurand = {
    ...(result === undefined || isNewKey(result.key) ? {} : { name: names.get(result.key) }),
    ...(result === undefined ? {} : quantity(result)),
  };
  const terms = rows
    .map((row, i): readonly [string, Fields] => [names.get(row.key)!, quantity(termOf(draft, named(row, i)))])
    .filter(([, term]) => notEmpty(term));
  return {
    coefficients: Object.fromEntries(
      rows
        .filter(({ sensitivity }) => isFilled(sensitivity))
        .map(({ key, sensitivity }) => [names.get(key)!, numberOr(sensitivity)]),
    ),
    ...(notEmpty(measurand) ? { measurand } : {}),
    ...(terms.length === 0 ? {} : { terms: Object.fromEntries(terms) }),
  };
}

/** Whether a term counts as it is, while its figures are in another unit than the result: the engine converts them. */
function isConverted(draft: Draft, { unit, sensitivity }: Row): boolean {
  const result = draft.results[0]?.unit.trim() ?? "";
  return (
    declaredBy(draft) === "additive" &&
    isPlain(sensitivity) &&
    isFilled(unit) &&
    result !== "" &&
    unit.trim() !== result
  );
}
/** A figure in mK is a difference: nobody states a temperature in mK. */
const termOf = (draft: Draft, row: Row): Row =>
  isConverted(draft, row)
    ? {
        ...row,
        unit: draft.results[0]!.unit,
        ofTemperature: row.ofTemperature === "" && isSmallKelvin(row.unit) ? "difference" : row.ofTemperature,
      }
    : row;

function inputOf(draft: Draft, row: Row, kinds: readonly Kind[]): Fields {
  const unit = isFilled(row.fields["unit"]) ? row.fields["unit"] : isConverted(draft, row) ? row.unit : "";
  const statement = statementOf({ ...row, fields: { ...row.fields, unit: "" } }, kinds);
  return unit === "" ? statement : { ...statement, unit: unit.trim() };
}

const correlation = (
  { between, coefficient, refersTo, series, source }: CorrelationDraft,
  nameOf: (key: string) => string,
): Fields => ({
  between: between.map(nameOf),
  coefficient: numberOr(coefficient),
  ...(refersTo === "ranks" ? { refersTo } : {}),
  ...(series === "" ? {} : { series }),
  ...(isFilled(source) ? { source: source.trim() } : {}),
});

/** Parameters of a class that are numbers, typed as text. */
const CLASS_FIGURES = ["temperature", "nominal"] as const;

/** A specification as the study has it: what was typed as text becomes a number, what was left empty is left out. */
function specificationOf(specification: Fields): Fields {
  const { parameters } = specification;
  if (typeof parameters !== "object" || parameters === null) return specification;
  const stated = Object.entries(parameters).flatMap(([name, value]): [string, unknown][] => {
    if (value === "") return [];
    return [[name, typeof value === "string" && CLASS_FIGURES.some((one) => one === name) ? numberOr(value) : value]];
  });
  return { ...specification, parameters: Object.fromEntries(stated) };
}

function requirement({
  lower,
  upper,
  basis,
  guard,
  priorMean,
  priorDeviation,
  priorSource,
  specification,
}: ConformityDraft): Fields {
  const figures = Object.entries({ lower, upper }).filter(([, text]) => isFilled(text));
  const hasPrior = isFilled(priorMean) || isFilled(priorDeviation);
  return {
    tolerance: {
      ...specificationOf(specification),
      ...Object.fromEntries(figures.map(([name, text]) => [name, numberOr(text)])),
      ...(isFilled(basis) ? { basis: basis.trim() } : {}),
    },
    ...(isFilled(guard) ? { guardBandMultiplier: numberOr(guard) } : {}),
    ...(hasPrior
      ? {
          prior: {
            mean: numberOr(priorMean),
            standardDeviation: numberOr(priorDeviation),
            ...(isFilled(priorSource) ? { source: priorSource.trim() } : {}),
          },
        }
      : {}),
  };
}

const sweep = (
  { quantity: what, unit, points }: SweepDraft,
  nameOf: (key: string) => string,
  kinds: readonly Kind[],
): Fields => ({
  quantity: what.trim(),
  unit: unit.trim(),
  points: points.map(({ at, changes }) => ({
    at: numberOr(at),
    inputs: Object.fromEntries(
      changes.map(({ key, ...part }) => [nameOf(key), statementOf({ ...rowOf({ rows: [] }, key), ...part }, kinds)]),
    ),
  })),
});
