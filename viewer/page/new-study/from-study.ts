import {
  BLANK,
  declaredBy,
  type ConformityDraft,
  type CorrelationDraft,
  type Draft,
  type ResultDraft,
  type StudyDocument,
  type SweepDraft,
} from "./draft.ts";
import { BLANK_ROW, rowPart, textOf, type OfTemperature, type Row } from "./row.ts";

type Fields = Readonly<Record<string, unknown>>;

const objectOr = (value: unknown): Fields =>
  typeof value === "object" && value !== null && !Array.isArray(value) ? (value as Fields) : {};
const listOr = (value: unknown): readonly unknown[] => (Array.isArray(value) ? value : []);
const textsOf = (value: unknown): Record<string, string> =>
  Object.fromEntries(Object.entries(objectOr(value)).map(([name, item]) => [name, textOf(item)]));

/** Nothing is not worth carrying along. */
const isSomething = (value: unknown): boolean =>
  value !== null && value !== undefined && !(typeof value === "object" && Object.keys(value).length === 0);
const restOf = (fields: Fields): Fields =>
  Object.fromEntries(Object.entries(fields).filter(([, one]) => isSomething(one)));

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
    undefinedTrials,
    generator,
    seed,
    conformity,
    sensitivity,
    sweep,
    bath,
    ...rest
  } = document;
  const { probability, factor, interval } = objectOr(coverage);
  const id = textOf(model);
  return {
    ...BLANK,
    title: textOf(title),
    laboratory: textOf(laboratory),
    notes: textOf(notes),
    model: id,
    ...quantitiesOf(id, objectOr(parameters), objectOr(inputs), objectOr(negligible)),
    correlations: listOr(correlations).map(correlationOf),
    custom: factor === undefined ? "probability" : "factor",
    probability: probability === undefined ? BLANK.probability : textOf(probability),
    factor: factor === undefined ? BLANK.factor : textOf(factor),
    interval: interval === "shortest" ? "shortest" : "symmetric",
    significantDigits: significantDigits === 1 ? "1" : "2",
    // A study that states no number of trials is run as the form would: until the figures have settled.
    trials: trials === "adaptive" || trials === undefined ? "adaptive" : "count",
    count: trials === "adaptive" || trials === undefined ? BLANK.count : textOf(trials),
    maximumTrials: textOf(maximumTrials),
    undefinedTrials: undefinedTrials === "refuse" || undefinedTrials === "leave-out" ? undefinedTrials : "",
    generator: textOf(generator),
    seed: seed === undefined ? BLANK.seed : textOf(seed),
    conformity: Object.entries(objectOr(conformity)).map(conformityOf),
    sensitivity: isAsked(sensitivity) ? textOf(objectOr(sensitivity)["trials"]) : null,
    sweep: isAsked(sweep) ? sweepOf(objectOr(sweep)) : null,
    bath: textsOf(bath),
    rest: restOf(rest),
  };
}

const isAsked = (value: unknown): boolean => value !== null && value !== undefined;

type Quantities = Pick<Draft, "parameters" | "equation" | "rows" | "results">;

function quantitiesOf(model: string, parameters: Fields, inputs: Fields, negligible: Fields): Quantities {
  const row = (key: string, declared: Partial<Row> = {}): Row => ({
    ...BLANK_ROW,
    sensitivity: "",
    ...declared,
    key,
    ...rowPart(objectOr(inputs[key])),
    because: textOf(negligible[key]),
  });
  switch (declaredBy({ model })) {
    case "additive": {
      const { coefficients, terms, measurand, ...others } = parameters;
      const [factors, quantities] = [objectOr(coefficients), objectOr(terms)];
      const { name, ...result } = objectOr(measurand);
      const results = [{ ...quantityOf(result), key: name === undefined ? BLANK.results[0]!.key : textOf(name) }];
      return {
        equation: "",
        parameters: textsOf(others),
        results,
        rows: [...new Set([...Object.keys(factors), ...Object.keys(quantities), ...Object.keys(inputs)])].map((key) =>
          inStatedUnit(
            { ...row(key, { ...quantityOf(objectOr(quantities[key])), sensitivity: textOf(factors[key]) }) },
            results[0]!,
          ),
        ),
      };
    }
    case "equation": {
      const { equation, quantities, ...others } = parameters;
      const text = textOf(equation);
      const declared = objectOr(quantities);
      const defined = definedIn(text);
      const isResult = (name: string): boolean =>
        inputs[name] === undefined && (defined.has(name) || defined.has(textOf(objectOr(declared[name])["symbol"])));
      const names = [...new Set([...Object.keys(declared), ...Object.keys(inputs)])];
      return {
        equation: text,
        parameters: textsOf(others),
        results: names.filter(isResult).map((key) => ({ ...quantityOf(objectOr(declared[key])), key })),
        rows: names.filter((name) => !isResult(name)).map((key) => row(key, quantityOf(objectOr(declared[key])))),
      };
    }
    case null:
      return {
        equation: "",
        results: BLANK.results,
        parameters: Object.fromEntries(Object.entries(parameters).map(([name, value]) => [name, parameterText(value)])),
        rows: [...new Set([...Object.keys(inputs), ...Object.keys(negligible)])].map((key) => row(key)),
      };
  }
}

/** A text that a number or a word would be read from is kept in quotation marks, so that it stays a text. */
const parameterText = (value: unknown): string =>
  typeof value === "string" && /^\s*([\d"[{+-]|true|false|null)/.test(value) ? JSON.stringify(value) : textOf(value);

/** What an equation defines: all that stands left of its signs of equality. */
export const definedIn = (equation: string): ReadonlySet<string> =>
  new Set(
    equation
      .split("\n")
      .filter((line) => line.includes("="))
      .map((line) => line.slice(0, line.indexOf("=")).trim()),
  );

const quantityOf = ({ symbol, meaning, unit, difference }: Fields): Omit<ResultDraft, "key"> => ({
  symbol: textOf(symbol),
  meaning: textOf(meaning),
  unit: textOf(unit),
  ofTemperature: temperatureOf(difference),
});
const temperatureOf = (difference: unknown): OfTemperature =>
  difference === true ? "difference" : difference === false ? "temperature" : "";

/** A term that counts as it is has the unit its figures are stated in; the study says so of the statement alone. */
function inStatedUnit(row: Row, { unit }: ResultDraft): Row {
  const stated = row.fields["unit"] ?? "";
  // Without a word that it is a difference, the engine takes it for a temperature, as nobody would type it.
  if (isSmallKelvin(stated) && row.ofTemperature !== "difference") return row;
  if (stated === "" || row.unit !== unit || !isPlain(row.sensitivity)) return row;
  const { unit: _unit, ...fields } = row.fields;
  return { ...row, unit: stated, fields };
}
/** Whether a unit is one of small differences of temperatures. */
export const isSmallKelvin = (unit: string): boolean => /^[munµ]K$/.test(unit.trim());

/** Whether a coefficient is 1 or −1, so that a term has the unit of the result. */
export const isPlain = (sensitivity: string): boolean => /^[+\-−]?1([.,]0*)?$/.test(sensitivity.trim());

function correlationOf(stated: unknown): CorrelationDraft {
  const { between, coefficient, refersTo, series, source } = objectOr(stated);
  const [a, b] = listOr(between);
  return {
    between: [textOf(a), textOf(b)],
    coefficient: textOf(coefficient),
    refersTo: refersTo === "ranks" ? "ranks" : "values",
    series: series === "simultaneous" || series === "separate" ? series : "",
    source: textOf(source),
  };
}

function conformityOf([measurand, stated]: readonly [string, unknown]): ConformityDraft {
  const { tolerance, guardBandMultiplier, prior } = objectOr(stated);
  const { lower, upper, basis, ...specification } = objectOr(tolerance);
  const { mean, standardDeviation, source } = objectOr(prior);
  return {
    measurand,
    lower: textOf(lower),
    upper: textOf(upper),
    basis: textOf(basis),
    guard: textOf(guardBandMultiplier),
    priorMean: textOf(mean),
    priorDeviation: textOf(standardDeviation),
    priorSource: textOf(source),
    specification,
  };
}

const sweepOf = ({ quantity, unit, points }: Fields): SweepDraft => ({
  quantity: textOf(quantity),
  unit: textOf(unit),
  points: listOr(points).map((point) => {
    const { at, inputs } = objectOr(point);
    return {
      at: textOf(at),
      changes: Object.entries(objectOr(inputs)).map(([key, stated]) => ({ key, ...rowPart(objectOr(stated)) })),
    };
  }),
});
