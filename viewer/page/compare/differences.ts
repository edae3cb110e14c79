import { standingOf, standingText } from "../../present/verdict.ts";
import { en } from "../../present/messages/en/index.ts";
import type { InputRecord, MeasurandRecord, RunRecord } from "../../../engine/index.ts";
import { decimalsFor, fixed, freedom, plain, probabilityText, significant, whole } from "../../present/numbers.ts";
import { own } from "../../present/own.ts";
import { statementWords } from "../../present/statement.ts";

/** How two figures stand to each other. */
export type Standing =
  | "same"
  | "differs"
  /** They differ by no more than two draws of the same study would. */
  | "scatter";

/** One figure of both runs. */
export interface Pair {
  readonly label: string;
  readonly first: string;
  readonly second: string;
  /** Second less first if both are numbers; "" elsewhere. */
  readonly change: string;
  readonly standing: Standing;
}

const NONE = "–";

/** Standard errors of the difference within which two draws of the same study lie, 95 times in a hundred. */
const SCATTER = 2;
/** Decimal places beyond those of u(y) that a small difference may take up. */
const MOST_FURTHER = 6;

type Number = number | null;

interface Figure {
  readonly label: string;
  readonly values: readonly [Number, Number];
  /** Standard errors of the two, if they come from trials. */
  readonly errors?: readonly [Number, Number];
}

function pairOf({ label, values: [a, b], errors }: Figure, places: number): Pair {
  if (a === null || b === null) {
    return {
      label,
      first: a === null ? NONE : fixed(a, places),
      second: b === null ? NONE : fixed(b, places),
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
    label,
    first: fixed(a, shown),
    second: fixed(b, shown),
    change: change === 0 ? "" : `${change > 0 ? "+" : ""}${fixed(change, shown)}`,
    standing,
  };
}

/** The results of a measurand that both runs have, in one unit. */
export function resultPairs(a: MeasurandRecord, b: MeasurandRecord): Pair[] {
  const of = (read: (measurand: MeasurandRecord) => Number): readonly [Number, Number] => [read(a), read(b)];
  const smallest = Math.min(
    ...[a, b].map(
      ({ linear, monteCarlo }) =>
        linear.standardUncertainty || (monteCarlo.standardUncertainty ?? monteCarlo.histogram.width),
    ),
  );
  const places = Math.max(0, decimalsFor(smallest, 2) + 1);
  const ends = (kind: "symmetric" | "shortest", i: 0 | 1, label: string): Figure => ({
    label: `Monte Carlo: ${label} endpoint, ${kind === "symmetric" ? "probabilistically symmetric" : "shortest"}`,
    values: of(({ monteCarlo }) => monteCarlo.intervals[kind][i]),
    errors: of(({ monteCarlo }) => monteCarlo.standardErrors[kind]?.[i] ?? null),
  });
  const verdicts = [a, b].map(({ validation }) => standingText(standingOf(validation), en)) as [string, string];
  const free = of(({ linear }) => linear.effectiveDegreesOfFreedom).map(freedom) as [string, string];
  return [
    textPair("verdict", ...verdicts),
    ...[
      { label: "linear: estimate y", values: of(({ linear }) => linear.estimate) },
      { label: "linear: standard uncertainty u(y)", values: of(({ linear }) => linear.standardUncertainty) },
      { label: "linear: expanded uncertainty U", values: of(({ linear }) => linear.expandedUncertainty) },
    ].map((figure) => pairOf(figure, places)),
    pairOf({ label: "linear: coverage factor k", values: of(({ linear }) => linear.coverageFactor) }, 2),
    textPair("linear: effective degrees of freedom", ...free),
    ...[
      {
        label: "Monte Carlo: estimate",
        values: of(({ monteCarlo }) => monteCarlo.estimate),
        errors: of(({ monteCarlo }) => monteCarlo.standardErrors.estimate),
      },
      {
        label: "Monte Carlo: standard uncertainty",
        values: of(({ monteCarlo }) => monteCarlo.standardUncertainty),
        errors: of(({ monteCarlo }) => monteCarlo.standardErrors.standardUncertainty),
      },
      ends("symmetric", 0, "lower"),
      ends("symmetric", 1, "upper"),
      ends("shortest", 0, "lower"),
      ends("shortest", 1, "upper"),
      { label: "tolerance δ", values: of(({ validation }) => validation.numericalTolerance) },
    ].map((figure) => pairOf(figure, places)),
    pairOf({ label: "Monte Carlo: trials", values: of(({ monteCarlo }) => monteCarlo.trials) }, 0),
  ];
}

export const textPair = (label: string, first: string, second: string): Pair => ({
  label,
  first,
  second,
  change: "",
  standing: first === second ? "same" : "differs",
});

/** What each study asks for, beside its inputs. */
export function settingPairs(a: RunRecord, b: RunRecord): Pair[] {
  const pair = (label: string, read: (record: RunRecord) => string): Pair => textPair(label, read(a), read(b));
  return [
    pair("title", ({ study }) => study.title),
    pair("model", ({ model }) => model.id),
    pair("parameters", ({ study }) => (study.parameters === undefined ? NONE : JSON.stringify(study.parameters))),
    pair(
      "coverage",
      ({ coverage, study }) =>
        `${probabilityText(coverage.probability)}${study.coverage.factor === undefined ? "" : `, fixed k = ${plain(study.coverage.factor)}`}`,
    ),
    pair("interval compared with", ({ coverage }) =>
      coverage.interval === "shortest" ? "shortest" : "probabilistically symmetric",
    ),
    pair("digits of u held meaningful", ({ study }) => String(study.significantDigits)),
    pair("trials asked for", ({ study }) =>
      study.trials === "adaptive" ? "as many as the figures need" : whole(study.trials),
    ),
    pair("seed", ({ generator }) => generator.seed),
    pair("generator", ({ generator }) => generator.id),
    pair("program", ({ engine }) => `${engine.name} ${engine.version}`),
  ];
}

/** An input of either run. */
export interface InputPair {
  readonly name: string;
  readonly first: InputRecord | null;
  readonly second: InputRecord | null;
  /** What each study states, in words; "" if it has no such input. */
  readonly statements: readonly [string, string];
  readonly sources: readonly [string | null, string | null];
  /** Shares of u²(y), in texts. */
  readonly shares: readonly [string, string];
  readonly standing: "same" | "differs";
}

/** Every input of both runs, in the order of the first; those of the second alone come last. */
export function inputPairs(a: RunRecord, b: RunRecord, measurand: string): InputPair[] {
  const names = [...new Set([...Object.keys(a.inputs), ...Object.keys(b.inputs)])];
  const share = ({ measurands }: RunRecord, name: string): string => {
    const line = own(measurands, measurand)?.linear.contributions.find(({ input }) => input === name);
    return line === undefined ? "" : `${significant(100 * line.share, 2)} %`;
  };
  return names.map((name) => {
    const stated = [a, b].map(({ study }) => own(study.inputs, name)) as [unknown, unknown];
    const sources = [a, b].map(({ inputs }) => own(inputs, name)?.source ?? null) as [string | null, string | null];
    return {
      name,
      first: own(a.inputs, name) ?? null,
      second: own(b.inputs, name) ?? null,
      statements: stated.map((one) => (one === undefined ? "" : statementWords(one))) as [string, string],
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

/** With its fields in one order, so that the same statement written otherwise is the same. */
function sorted(value: unknown): unknown {
  if (typeof value !== "object" || value === null || Array.isArray(value)) return value;
  return Object.fromEntries(
    Object.entries(value)
      .sort(([x], [y]) => x.localeCompare(y, "en"))
      .map(([key, item]) => [key, sorted(item)]),
  );
}

/** The correlations of each study, in words, one a line. */
export const correlationPairs = (a: RunRecord, b: RunRecord): Pair[] => {
  const of = ({ study }: RunRecord): Map<string, string> =>
    new Map(
      study.correlations.map(({ between, coefficient, refersTo }) => [
        between.toSorted().join(" and "),
        `${coefficient}${refersTo === "ranks" ? " (ranks)" : ""}`,
      ]),
    );
  const [first, second] = [of(a), of(b)];
  return [...new Set([...first.keys(), ...second.keys()])].map((pair) =>
    textPair(pair, first.get(pair) ?? "none", second.get(pair) ?? "none"),
  );
};
