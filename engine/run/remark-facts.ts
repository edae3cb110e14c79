import type { Correlation, Dependence, Group } from "../dependence/dependence.ts";
import { symbolOf, type RunFigures } from "../record/figures.ts";

/** What a reader must know to read the figures. */
export type RemarkFact =
  /** Inputs whose standard uncertainty the two methods take differently. */
  | { readonly kind: "tDiffers"; readonly symbols: readonly string[] }
  | { readonly kind: "noStandardDeviation"; readonly symbols: readonly string[] }
  | {
      readonly kind: "drawnTogether";
      readonly symbols: readonly string[];
      readonly from: NonNullable<Group["kind"]>;
      /** Correlations of the values. */
      readonly correlations: readonly { readonly between: readonly [string, string]; readonly coefficient: number }[];
    }
  | { readonly kind: "fixedFactor"; readonly factor: number; readonly probability: number }
  | { readonly kind: "noSource"; readonly symbols: readonly string[] }
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
  const symbols = (of: readonly string[]): string[] => of.map((name) => symbolOf(run, name));
  const few = names.filter((name) => {
    const { degreesOfFreedom, standardUncertainty } = inputs[name]!;
    const kind = study.inputs[name]!.distribution;
    return (kind === "t" || kind === "readings") && standardUncertainty > 0 && degreesOfFreedom !== null;
  });
  const without = groups.flatMap(({ members, distributions }) =>
    members.filter((_, i) => !isFinite(distributions[i]!.standardDeviation)),
  );
  const unsourced = names.filter((name) => inputs[name]!.source === null);
  return [
    ...(few.length === 0 ? [] : [{ kind: "tDiffers" as const, symbols: symbols(few) }]),
    ...(without.length === 0 ? [] : [{ kind: "noStandardDeviation" as const, symbols: symbols(without) }]),
    ...groups.flatMap((group) => drawnTogether(run, group, correlations)),
    ...(coverage.custom === "factor"
      ? [{ kind: "fixedFactor" as const, factor: study.coverage.factor!, probability: coverage.probability }]
      : []),
    ...(unsourced.length === 0 ? [] : [{ kind: "noSource" as const, symbols: symbols(unsourced) }]),
    ...(run.model.fixedBits ? [] : [{ kind: "engineBits" as const }]),
    ...Object.values(run.measurands).flatMap(({ symbol, unit, monteCarlo: { resolution }, validation }) =>
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

const isFinite = (value: number | null): boolean => value !== null && Number.isFinite(value);

function drawnTogether(
  run: RunFigures,
  { members, kind }: Group,
  correlations: readonly Correlation[],
): readonly RemarkFact[] {
  if (kind === null) return [];
  return [
    {
      kind: "drawnTogether",
      symbols: members.map((name) => symbolOf(run, name)),
      from: kind,
      correlations: correlations
        .filter(({ between }) => members.includes(between[0]))
        .map(({ between: [a, b], coefficient }) => ({ between: [symbolOf(run, a), symbolOf(run, b)], coefficient })),
    },
  ];
}
