import type { Correlation, Dependence } from "../dependence/dependence.ts";
import type { Group } from "../dependence/group.ts";
import { tDistributionFunction, tQuantile } from "../numerics/standard-t.ts";
import { symbolOf, type MeasurandFigures, type RunFigures } from "../record/figures.ts";
import { effectiveSampleSize } from "../statistics/autocorrelation.ts";
import { recommendedTrials } from "../trials/batch.ts";

/** Facts that a reader needs to interpret the figures. */
export type RemarkFact =
  /** Inputs whose standard uncertainty the two methods take differently. */
  | { readonly kind: "tDiffers"; readonly symbols: readonly string[] }
  | { readonly kind: "noStandardDeviation"; readonly symbols: readonly string[] }
  /** Inputs with 2 < ν ≤ 4: u(y) exists, its standard error does not. */
  | {
      readonly kind: "noFourthMoment";
      readonly symbols: readonly string[];
      /** Symbols of the measurands. */
      readonly results: readonly string[];
    }
  /** Tails so heavy that u(y), and perhaps the mean, does not settle: it does not exist as far as the trials tell. */
  | { readonly kind: "heavyTail"; readonly symbol: string; readonly index: number; readonly mean: boolean }
  /** Fewer trials than 10⁴/(1 − p) (JCGM 101, 7.2.2). */
  | { readonly kind: "fewTrials"; readonly trials: number; readonly recommended: number; readonly probability: number }
  /** Rounding of doubles is no longer small beside δ. */
  | { readonly kind: "rounding"; readonly symbol: string }
  /** Shares of u² that add to more than the whole, since a correlation takes from it. */
  | {
      readonly kind: "sharesAbove";
      readonly symbol: string;
      readonly sum: number;
      readonly taken: number;
      readonly between: readonly (readonly [string, string])[];
    }
  | {
      readonly kind: "drawnTogether";
      readonly symbols: readonly string[];
      readonly from: NonNullable<Group["kind"]>;
      /** Correlations of the values. */
      readonly correlations: readonly { readonly between: readonly [string, string]; readonly coefficient: number }[];
      /** ν of a multivariate t; `null` for the others. */
      readonly degreesOfFreedom: number | null;
      /** Whether the study says that the series are simultaneous, or takes the coefficient from them. */
      readonly stated: boolean;
    }
  | { readonly kind: "fixedFactor"; readonly factor: number; readonly probability: number }
  /** A fixed factor that presumes more degrees of freedom than the budget has. */
  | {
      readonly kind: "fewDegreesOfFreedom";
      readonly symbol: string;
      readonly factor: number;
      readonly degreesOfFreedom: number;
      /** What the factor covers of a t distribution with these, and the factor that covers what it claims. */
      readonly covered: number;
      readonly needed: number;
    }
  /** Inputs at whose estimates the model has a kink or a step. */
  | { readonly kind: "notSmooth"; readonly symbol: string; readonly symbols: readonly string[] }
  /** One input that makes up all of u(y). */
  | {
      readonly kind: "dominant";
      readonly symbol: string;
      readonly input: string;
      readonly share: number;
      readonly unit: string;
    }
  /** Readings that follow one another closely: fewer independent ones than there are. */
  | {
      readonly kind: "autocorrelated";
      readonly symbol: string;
      readonly count: number;
      readonly lagOne: number;
      readonly effective: number;
    }
  /** Trials for which the model is undefined, of all that were drawn. */
  | { readonly kind: "undefinedTrials"; readonly count: number; readonly drawn: number }
  /** Covariances that leave the range of a double, so that there are no joint figures. */
  | { readonly kind: "noJointFigures"; readonly symbols: readonly string[] }
  | { readonly kind: "noSource"; readonly symbols: readonly string[] }
  /** A fitted curve: how far its points lie from it, and how much the points show of that. */
  | {
      readonly kind: "fitted";
      readonly symbol: string;
      readonly unit: string;
      readonly points: number;
      readonly degreesOfFreedom: number;
      readonly residualDeviation: number | null;
      readonly largest: number;
      readonly argument: { readonly symbol: string; readonly unit: string };
    }
  | { readonly kind: "engineBits" }
  /** Trials counted in bins: how far that can move an endpoint, and δ as a multiple of it. */
  | {
      readonly kind: "counted";
      readonly symbol: string;
      readonly resolution: number;
      readonly unit: string;
      readonly timesSmaller: number;
    };

/** @param dependence how the study's inputs are drawn together */
export function remarkFacts(run: RunFigures, { groups, correlations }: Dependence): RemarkFact[] {
  const { inputs, study, coverage } = run;
  const names = Object.keys(inputs);
  const measurands = Object.values(run.measurands);
  const symbols = (of: readonly string[]): string[] => of.map((name) => symbolOf(run, name));
  const few = names.filter((name) => {
    const { degreesOfFreedom, standardUncertainty } = inputs[name]!;
    const kind = study.inputs[name]!.distribution;
    return (kind === "t" || kind === "readings") && standardUncertainty > 0 && degreesOfFreedom !== null;
  });
  const without = groups.flatMap(({ members, distributions }) =>
    members.filter((_, i) => !isFinite(distributions[i]!.standardDeviation)),
  );
  const withoutFourth = groups.flatMap(({ members, distributions }) =>
    members.filter((_, i) => {
      const { momentsBelow, standardDeviation } = distributions[i]!;
      return momentsBelow !== undefined && momentsBelow <= 4 && isFinite(standardDeviation);
    }),
  );
  const recommended = recommendedTrials(coverage.probability);
  const unsourced = names.filter((name) => inputs[name]!.source === null);
  return [
    ...(few.length === 0 ? [] : [{ kind: "tDiffers" as const, symbols: symbols(few) }]),
    ...(without.length === 0 ? [] : [{ kind: "noStandardDeviation" as const, symbols: symbols(without) }]),
    ...names.flatMap((name) => autocorrelated(run, name)),
    ...(withoutFourth.length === 0
      ? []
      : [
          {
            kind: "noFourthMoment" as const,
            symbols: symbols(withoutFourth),
            results: measurands.map(({ symbol }) => symbol),
          },
        ]),
    ...(study.trials !== "adaptive" && run.trials.count < recommended
      ? [{ kind: "fewTrials" as const, trials: run.trials.count, recommended, probability: coverage.probability }]
      : []),
    ...Object.values(run.measurands).flatMap((measurand) => [
      ...heavyTail(measurand),
      ...(measurand.validation.doubts?.includes("rounding") === true
        ? [{ kind: "rounding" as const, symbol: measurand.symbol }]
        : []),
      ...sharesAbove(run, measurand),
    ]),
    ...groups.flatMap((group) => drawnTogether(run, group, correlations)),
    ...(coverage.custom === "factor"
      ? [{ kind: "fixedFactor" as const, factor: study.coverage.factor!, probability: coverage.probability }]
      : []),
    ...measurands.flatMap((measurand) => fewDegreesOfFreedom(run, measurand)),
    ...measurands.flatMap(({ symbol, linear: { doubtful } }) =>
      doubtful === undefined ? [] : [{ kind: "notSmooth" as const, symbol, symbols: symbols(doubtful) }],
    ),
    ...measurands.flatMap((measurand) => dominant(run, measurand)),
    ...(run.trials.leftOut === undefined
      ? []
      : [
          {
            kind: "undefinedTrials" as const,
            count: run.trials.leftOut,
            drawn: run.trials.count + run.trials.leftOut,
          },
        ]),
    ...(measurands.length < 2 || run.joint !== null
      ? []
      : [{ kind: "noJointFigures" as const, symbols: measurands.map(({ symbol }) => symbol) }]),
    ...(unsourced.length === 0 ? [] : [{ kind: "noSource" as const, symbols: symbols(unsourced) }]),
    ...fittedFacts(run.calibrationCurve ?? null),
    ...(run.model.fixedBits ? [] : [{ kind: "engineBits" as const }]),
    ...measurands.flatMap(({ symbol, unit, monteCarlo: { resolution }, validation }) =>
      resolution === undefined
        ? []
        : [
            {
              kind: "counted" as const,
              symbol,
              resolution,
              unit,
              timesSmaller: validation.numericalTolerance / resolution,
            },
          ],
    ),
  ];
}

/** A tail that falls off with this power, or one that its estimate cannot distinguish from it, has no mean. */
const HEAVIEST_WITH_MEAN = 1.1;

const heavyTail = ({ symbol, monteCarlo: { tailIndex } }: MeasurandFigures): RemarkFact[] =>
  tailIndex === undefined
    ? []
    : [{ kind: "heavyTail", symbol, index: tailIndex, mean: tailIndex > HEAVIEST_WITH_MEAN }];

/** Shares above this are more than rounding. */
const WHOLE = 1 + 1e-9;

function sharesAbove(run: RunFigures, { symbol, linear }: MeasurandFigures): RemarkFact[] {
  if (linear.contributions.every(({ share }) => share <= WHOLE)) return [];
  const taking = linear.correlatedTerms.filter(({ share }) => share < 0);
  if (taking.length === 0) return [];
  return [
    {
      kind: "sharesAbove",
      symbol,
      sum: linear.contributions.reduce((sum, { share }) => sum + share, 0),
      taken: -taking.reduce((sum, { share }) => sum + share, 0),
      between: taking.map(({ between: [a, b] }) => [symbolOf(run, a), symbolOf(run, b)] as const),
    },
  ];
}

/** Below this a fixed factor misses what it claims by more than a per cent of itself (JCGM 100, G.6.4; EA-4/02, clause 5, "Expanded uncertainty of measurement", by its contents page). */
const ENOUGH = 50;

function fewDegreesOfFreedom({ coverage, study }: RunFigures, { symbol, linear }: MeasurandFigures): RemarkFact[] {
  const ν = linear.effectiveDegreesOfFreedom;
  if (coverage.custom !== "factor" || ν === null || ν >= ENOUGH) return [];
  const factor = study.coverage.factor!;
  return [
    {
      kind: "fewDegreesOfFreedom",
      symbol,
      factor,
      degreesOfFreedom: ν,
      covered: 1 - 2 * tDistributionFunction(-factor, ν),
      needed: tQuantile((1 + coverage.probability) / 2, ν),
    },
  ];
}

function fittedFacts(curve: RunFigures["calibrationCurve"]): RemarkFact[] {
  if (curve?.fit === undefined) return [];
  const { value, argument, observed, fit } = curve;
  return [
    {
      kind: "fitted",
      symbol: value.symbol,
      unit: value.unit,
      points: observed.length,
      degreesOfFreedom: fit.degreesOfFreedom,
      residualDeviation: fit.residualDeviation,
      largest: fit.largestInArgument,
      argument: { symbol: argument.symbol, unit: argument.unit },
    },
  ];
}

/** A share of u² beyond which nothing else counts: usual of a slip in a unit, rare in a budget. */
const ALL = 0.999;

function dominant(run: RunFigures, { symbol, linear: { contributions } }: MeasurandFigures): RemarkFact[] {
  // With one input that varies there is nothing to compare.
  if (contributions.filter(({ contribution }) => contribution !== 0).length < 2) return [];
  return contributions
    .filter(({ share }) => share > ALL)
    .map(({ input, share }) => ({
      kind: "dominant",
      symbol,
      input: symbolOf(run, input),
      share,
      unit: run.inputs[input]!.unit,
    }));
}

/** JCGM 100, 4.2.7: the mean's s/√n is for independent readings. */
function autocorrelated(run: RunFigures, name: string): RemarkFact[] {
  const statement = run.study.inputs[name]!;
  if (statement.distribution !== "readings") return [];
  const { count, effective, lagOne, lagOneLimit } = effectiveSampleSize(statement.values);
  if (lagOne <= lagOneLimit) return [];
  return [{ kind: "autocorrelated", symbol: symbolOf(run, name), count, lagOne, effective }];
}

const isFinite = (value: number | null): boolean => value !== null && Number.isFinite(value);

function drawnTogether(
  run: RunFigures,
  { members, kind, degreesOfFreedom }: Group,
  correlations: readonly Correlation[],
): readonly RemarkFact[] {
  if (kind === null) return [];
  const stated = run.study.correlations
    .filter(({ between }) => between.every((name) => members.includes(name)))
    .some(({ coefficient, series }) => coefficient === "readings" || series !== undefined);
  return [
    {
      kind: "drawnTogether",
      symbols: members.map((name) => symbolOf(run, name)),
      from: kind,
      correlations: correlations
        .filter(({ between }) => members.includes(between[0]))
        .map(({ between: [a, b], coefficient }) => ({ between: [symbolOf(run, a), symbolOf(run, b)], coefficient })),
      degreesOfFreedom: degreesOfFreedom ?? null,
      stated,
    },
  ];
}
