import type { InputRecord, MeasurandRecord, RunRecord } from "../../engine/index.ts";
import { fillText } from "./fill.ts";
import type { Messages } from "./messages/messages.ts";
import { decimalsFor } from "./numbers.ts";
import { own } from "./own.ts";
import { labelOf } from "./pictures/label.ts";
import type { Label } from "./pictures/scene.ts";
import { parametersOf, type Parameter } from "./parameters.ts";
import { statementParts, type Speech, type StatementParts, type UnitsOf } from "./statement.ts";
import { standingOf, standingText } from "./verdict.ts";

/** How two figures stand to each other. */
export type Standing =
  | "same"
  | "differs"
  /** They differ by no more than two draws of the same study would. */
  | "scatter";

/** One figure of both runs. */
export interface Pair {
  /** Which figure it is, in any language. */
  readonly id: string;
  readonly label: Label;
  /** Unit of its figures; "1" for what has none. */
  readonly unit: string;
  readonly first: string;
  readonly second: string;
  /** Second less first if both are numbers; "" elsewhere. */
  readonly change: string;
  readonly standing: Standing;
}

/** Standard errors of the difference within which two draws of the same study lie, 95 times in a hundred. */
const SCATTER = 2;
/** Decimal places beyond those of u(y) that a small difference may take up. */
const MOST_FURTHER = 6;

type Number = number | null;

interface Figure {
  readonly id: string;
  readonly label: Label;
  readonly values: readonly [Number, Number];
  /** Standard errors of the two, if they come from trials. */
  readonly errors?: readonly [Number, Number];
}

function pairOf(
  { id, label, values: [a, b], errors }: Figure,
  unit: string,
  places: number,
  { messages, numbers }: Speech,
): Pair {
  const { fixed } = numbers;
  if (a === null || b === null) {
    return {
      id,
      label,
      unit,
      first: a === null ? messages.notApplicable : fixed(a, places),
      second: b === null ? messages.notApplicable : fixed(b, places),
      change: "",
      standing: a === b ? "same" : "differs",
    };
  }
  const change = b - a;
  const scatter =
    errors === undefined || errors[0] === null || errors[1] === null ? 0 : SCATTER * Math.hypot(errors[0], errors[1]);
  const standing = change === 0 ? "same" : Math.abs(change) <= scatter ? "scatter" : "differs";
  // A difference must not vanish in the rounding of what it is a difference of.
  const shown =
    standing === "differs" ? Math.min(places + MOST_FURTHER, Math.max(places, decimalsFor(change, 1))) : places;
  return {
    id,
    label,
    unit,
    first: fixed(a, shown),
    second: fixed(b, shown),
    change: change === 0 ? "" : `${change > 0 ? "+" : ""}${fixed(change, shown)}`,
    standing,
  };
}

/** The name of a figure with the method it is found by: "Estimate y (linear budget)". */
export const byMethod = (figure: Label, method: string, { compared }: Pick<Messages, "compared">): Label =>
  labelOf(compared.by, { figure: "{figure}", method }).flatMap((part) => (part === "{figure}" ? figure : [part]));

/** The results of a measurand that both runs have, in one unit. */
export function resultPairs(a: MeasurandRecord, b: MeasurandRecord, speech: Speech): Pair[] {
  const { messages, numbers } = speech;
  const { compared: words, monteCarlo: results } = messages;
  const y = { symbol: a.symbol };
  const [u, k] = [{ symbol: "u" }, { symbol: "k" }];
  const of = (read: (measurand: MeasurandRecord) => Number): readonly [Number, Number] => [read(a), read(b)];
  const linear = (id: string, figure: Label, read: (of: MeasurandRecord["linear"]) => Number): Figure => ({
    id: `linear ${id}`,
    label: byMethod(figure, results.laneLinear, messages),
    values: of((measurand) => read(measurand.linear)),
  });
  const trials = (
    id: string,
    figure: Label,
    read: (of: MeasurandRecord["monteCarlo"]) => Number,
    error: (of: MeasurandRecord["monteCarlo"]["standardErrors"]) => Number | undefined,
  ): Figure => ({
    id: `trials ${id}`,
    label: byMethod(figure, results.monteCarlo, messages),
    values: of(({ monteCarlo }) => read(monteCarlo)),
    errors: of(({ monteCarlo }) => error(monteCarlo.standardErrors) ?? null),
  });
  const endpoint = (kind: "symmetric" | "shortest", i: 0 | 1): Figure =>
    trials(
      `${kind} ${i === 0 ? "low" : "high"}`,
      fillText(words.endpoint, { endpoint: i === 0 ? results.low : results.high, kind: messages.result[kind] }),
      ({ intervals }) => intervals[kind][i],
      (errors) => errors[kind]?.[i],
    );
  const smallest = Math.min(
    ...[a, b].map(
      (one) => one.linear.standardUncertainty || (one.monteCarlo.standardUncertainty ?? one.monteCarlo.histogram.width),
    ),
  );
  const places = Math.max(0, decimalsFor(smallest, 2) + 1);
  const pair = (figure: Figure): Pair => pairOf(figure, a.unit, places, speech);
  const pure = (figure: Figure, decimals: number): Pair => pairOf(figure, "1", decimals, speech);
  const [estimate, uncertainty] = [labelOf(words.estimate, { y }), labelOf(words.uncertainty, { u, y })];
  const verdicts = [a, b].map(({ validation }) => standingText(standingOf(validation), messages)) as [string, string];
  const free = [a, b].map((one) => numbers.freedom(one.linear.effectiveDegreesOfFreedom)) as [string, string];
  return [
    textPair("verdict", messages.validation.verdict, ...verdicts),
    pair(linear("estimate", estimate, (one) => one.estimate)),
    pair(linear("uncertainty", uncertainty, (one) => one.standardUncertainty)),
    pair(linear("expanded", labelOf(words.expanded, { U: { symbol: "U" } }), (one) => one.expandedUncertainty)),
    pure(
      linear("factor", labelOf(words.factor, { k }), (one) => one.coverageFactor),
      2,
    ),
    textPair(
      "linear freedom",
      byMethod(labelOf(results.freedom, { nu: { symbol: "ν_eff" } }), results.laneLinear, messages),
      ...free,
    ),
    pair(
      trials(
        "estimate",
        estimate,
        (one) => one.estimate,
        (errors) => errors.estimate,
      ),
    ),
    pair(
      trials(
        "uncertainty",
        uncertainty,
        (one) => one.standardUncertainty,
        (errors) => errors.standardUncertainty,
      ),
    ),
    pair(endpoint("symmetric", 0)),
    pair(endpoint("symmetric", 1)),
    pair(endpoint("shortest", 0)),
    pair(endpoint("shortest", 1)),
    pair({
      id: "tolerance",
      label: labelOf(messages.secondOrder.tolerance, { delta: { symbol: "δ" } }),
      values: of(({ validation }) => validation.numericalTolerance),
    }),
    pure({ id: "trials", label: words.trials, values: of(({ monteCarlo }) => monteCarlo.trials) }, 0),
  ];
}

export const textPair = (id: string, label: Label, first: string, second: string): Pair => ({
  id,
  label,
  unit: "1",
  first,
  second,
  change: "",
  standing: first === second ? "same" : "differs",
});

/** What each study asks for, beside its inputs. */
export function settingPairs(a: RunRecord, b: RunRecord, { messages, numbers }: Speech): Pair[] {
  const words = messages.compared;
  const pair = (id: string, label: string, read: (record: RunRecord) => string): Pair =>
    textPair(id, label, read(a), read(b));
  return [
    pair("title", words.study, ({ study }) => study.title),
    pair("coverage", words.coverage, ({ coverage, study }) => {
      const p = numbers.probability(coverage.probability);
      const { factor } = study.coverage;
      return factor === undefined ? p : fillText(words.fixedFactor, { p, k: numbers.plain(factor) });
    }),
    pair("interval", words.interval, ({ coverage }) => messages.result[coverage.interval]),
    pair("digits", words.digits, ({ study }) => String(study.significantDigits)),
    pair("asked", words.asked, ({ study }) =>
      study.trials === "adaptive" ? words.adaptive : numbers.whole(study.trials),
    ),
    pair("seed", messages.provenance.seed, ({ generator }) => generator.seed),
    pair("generator", messages.provenance.generator, ({ generator }) => generator.id),
    pair("program", messages.provenance.engine, ({ engine }) => `${engine.name} ${engine.version}`),
  ];
}

/** The models of two runs and the parameters of each, one a row. */
export function parameterPairs(a: RunRecord, b: RunRecord, speech: Speech): Pair[] {
  const { messages } = speech;
  const found = [a, b].map((record) => new Map(parametersOf(record, speech).map((one) => [one.id, one]))) as [
    Map<string, Parameter>,
    Map<string, Parameter>,
  ];
  const text = (i: 0 | 1, id: string): string => found[i].get(id)?.text ?? messages.compared.none;
  return [
    textPair("model", messages.head.model, a.model.title, b.model.title),
    ...[...new Set([...found[0].keys(), ...found[1].keys()])].map((id) =>
      textPair(`parameter ${id}`, (found[0].get(id) ?? found[1].get(id))!.label, text(0, id), text(1, id)),
    ),
  ];
}

/** A figure of a statement, and whether the other run states it otherwise or not at all. */
export interface StatedPart {
  readonly text: string;
  readonly differs: boolean;
}

/** An input of either run. */
export interface InputPair {
  readonly name: string;
  readonly first: InputRecord | null;
  readonly second: InputRecord | null;
  /** What each study states, its distribution first; none if it has no such input. */
  readonly statements: readonly [readonly StatedPart[], readonly StatedPart[]];
  readonly sources: readonly [string | null, string | null];
  /** Shares of u²(y), in texts. */
  readonly shares: readonly [string, string];
  readonly standing: "same" | "differs";
}

/**
 * Every input of both runs, in the order of the first; those of the second alone come last.
 *
 * @param unitsOf the units that each kind of statement declares for its figures
 */
export function inputPairs(
  a: RunRecord,
  b: RunRecord,
  measurand: string,
  speech: Speech,
  unitsOf: UnitsOf = () => ({}),
): InputPair[] {
  const { numbers } = speech;
  const names = [...new Set([...Object.keys(a.inputs), ...Object.keys(b.inputs)])];
  const share = ({ measurands }: RunRecord, name: string): string => {
    const line = own(measurands, measurand)?.linear.contributions.find(({ input }) => input === name);
    return line === undefined ? "" : numbers.percent(line.share);
  };
  return names.map((name) => {
    const stated = [a, b].map(({ study }) => own(study.inputs, name)) as [unknown, unknown];
    const sources = [a, b].map(({ inputs }) => own(inputs, name)?.source ?? null) as [string | null, string | null];
    return {
      name,
      first: own(a.inputs, name) ?? null,
      second: own(b.inputs, name) ?? null,
      statements: statedParts(
        [a, b].map(({ inputs }, i) =>
          stated[i] === undefined ? null : statementParts(stated[i], own(inputs, name)?.unit ?? "1", unitsOf, speech),
        ) as [StatementParts | null, StatementParts | null],
      ),
      sources,
      shares: [share(a, name), share(b, name)],
      // By what the studies state, not by its words: two lists of readings may read alike.
      standing:
        JSON.stringify(sorted(stated[0])) === JSON.stringify(sorted(stated[1])) &&
        own(a.inputs, name)?.unit === own(b.inputs, name)?.unit
          ? "same"
          : "differs",
    };
  });
}

/** The parts of two statements of an input, those that the other does not have alike marked. */
function statedParts(both: readonly [StatementParts | null, StatementParts | null]): InputPair["statements"] {
  const texts = both.map((one) => (one === null ? [] : [one.distribution, ...one.figures.map(({ text }) => text)]));
  const of = (i: 0 | 1): StatedPart[] =>
    texts[i]!.map((text) => ({ text, differs: both[1 - i] !== null && !texts[1 - i]!.includes(text) }));
  return [of(0), of(1)];
}

/** With its fields in one order, so that the same statement written otherwise is the same. */
function sorted(value: unknown): unknown {
  if (typeof value !== "object" || value === null || Array.isArray(value)) return value;
  return Object.fromEntries(
    Object.entries(value)
      .sort(([x], [y]) => x.localeCompare(y, "en"))
      .map(([key, item]) => [key, sorted(item)]),
  );
}

/** The correlations of each study, one a row. */
export function correlationPairs(a: RunRecord, b: RunRecord, { messages, numbers }: Speech): Pair[] {
  const words = messages.compared;
  const of = ({ study }: RunRecord): Map<string, string> =>
    new Map(
      study.correlations.map(({ between, coefficient, refersTo }) => {
        const text = typeof coefficient === "number" ? numbers.plain(coefficient) : messages.inputs.fromReadings;
        return [
          between.toSorted().join(" "),
          refersTo === "ranks" ? fillText(words.ranks, { coefficient: text }) : text,
        ];
      }),
    );
  const symbolOf = (name: string): { readonly symbol: string } => ({
    symbol: (own(a.inputs, name) ?? own(b.inputs, name))?.symbol ?? name,
  });
  const [first, second] = [of(a), of(b)];
  return [...new Set([...first.keys(), ...second.keys()])].map((pair) => {
    const [x, y] = pair.split(" ") as [string, string];
    return textPair(
      `correlation ${pair}`,
      labelOf(words.correlated, { a: symbolOf(x), b: symbolOf(y) }),
      first.get(pair) ?? words.none,
      second.get(pair) ?? words.none,
    );
  });
}
