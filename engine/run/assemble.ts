import { normalDensity } from "../numerics/standard-normal.ts";
import { tDensity } from "../numerics/standard-t.ts";
import { distributionTitle } from "../distributions/titles.ts";
import type { Distribution } from "../distributions/distribution.ts";
import type { Accumulation } from "./accumulate.ts";
import type { Contribution, LinearBudget } from "../linear/budget.ts";
import type { Model, Quantity } from "../model.ts";
import type { Prepared } from "../prepared/prepare.ts";
import { assessConformity } from "../conformity/assess.ts";
import { linearisedFigures } from "../convolution/linearised-record.ts";
import type { Compared } from "../explanation/compared-propagations.ts";
import { explain } from "../explanation/explain.ts";
import { exactLinearised } from "../prepared/exact-linearised.ts";
import { pairedFigures } from "./paired-figures.ts";
import { curveBand } from "../curve/curve-band.ts";
import { secondOrder } from "../linear/second-order.ts";
import type { SweepRecord } from "../record/sweep.ts";
import { withSentences } from "../sentences/speak.ts";
import { lastBitOf, pairedDecision, secondOrderVerdict, verdictOn } from "./verdict.ts";
import { VERSION } from "../version.ts";
import { analyseSensitivity } from "../sensitivity/analyse.ts";
import { usesFixedBits } from "../evaluator/fixed-bits.ts";
import type { ConformityFigures, MeasurandFigures, RunFigures } from "../record/figures.ts";
import type {
  ContributionRecord,
  InputRecord,
  LinearRecord,
  MonteCarloRecord,
  RunRecord,
  SecondOrderRecord,
} from "../record/record.ts";

const finite = (value: number | null): number | null => (value !== null && Number.isFinite(value) ? value : null);

/**
 * The record of a run, from what was prepared and the trials gathered so far.
 *
 * @param complete also explain why the intervals differ and analyse what the study asks for, which draws trials of
 *   its own
 * @param sweep the points of a sweep, which are runs of their own
 * @param compared what the explanation is made from, where it was found meanwhile
 */
export function assembleRecord(
  prepared: Prepared,
  gathered: Accumulation,
  complete = true,
  sweep: SweepRecord | null = null,
  compared?: Compared,
): RunRecord {
  const { model, study, coverage, source, safety } = prepared;
  const measurands = Object.fromEntries(
    Object.keys(model.measurands).map((name) => [name, measurandRecord(prepared, gathered, name, complete)]),
  );
  // The propagations of an explanation, and a curve's band, compare models trial by trial: all have to be defined.
  const everyTrial = complete && gathered.leftOut === 0;
  const explanations = everyTrial ? explain(prepared, measurands, compared) : {};
  const sensitivities = complete && study.sensitivity !== null ? analyseSensitivity(prepared, study.sensitivity) : {};
  const conformityOf = (name: string): ConformityFigures | null => {
    const requirement = prepared.requirements[name];
    if (!complete || requirement === undefined) return null;
    return assessConformity(requirement, {
      linear: prepared.linear[name]!,
      monteCarlo: measurands[name]!.monteCarlo,
      sample: gathered.sample(name),
      interval: coverage.interval,
    });
  };
  const figures: RunFigures = {
    format: "trialband-record/2",
    engine: { name: "trialband", version: VERSION },
    study,
    model: {
      id: model.id,
      title: model.title,
      equation: model.equation ?? null,
      source: model.source ?? null,
      fixedBits: keepsFixedBits(model),
    },
    coverage: { custom: coverage.custom, probability: coverage.probability, interval: coverage.interval },
    generator: { id: source.generator.id, title: source.generator.title, seed: source.seed },
    trials: {
      count: gathered.trials,
      batch: prepared.batch,
      stop: gathered.stop,
      ...(source.leavesOut ? { leftOut: gathered.leftOut } : {}),
    },
    inputs: Object.fromEntries(Object.keys(model.inputs).map((name) => [name, inputRecord(prepared, name)])),
    ...(prepared.leftOut.length === 0 ? {} : { leftOut: prepared.leftOut }),
    measurands: Object.fromEntries(
      Object.entries(measurands).map(([name, record]) => [
        name,
        {
          ...record,
          explanation: explanations[name] ?? null,
          ...(complete
            ? {
                linearised: linearisedFigures(
                  prepared.linear[name]!,
                  exactLinearised(prepared, name),
                  coverage.probability,
                ),
              }
            : {}),
          conformity: conformityOf(name),
          sensitivity: sensitivities[name] ?? null,
        },
      ]),
    ),
    joint: gathered.joint(),
    calibrationCurve: everyTrial ? curveBand(prepared, gathered.trials, gathered.kept()) : null,
    sweep,
    // Warnings first: they are about this bath, the rest about any.
    cautions: [...safety.warnings.map((warning) => `Warning: ${warning}`), ...safety.cautions],
  };
  return withSentences(figures, { groups: source.groups, correlations: prepared.correlations });
}

/** Whether the model, and the curve that it declares, keep to operations with fixed bits. */
const keepsFixedBits = (model: Model): boolean =>
  usesFixedBits(model) &&
  (model.calibrationCurve === undefined ||
    usesFixedBits({ ...model, evaluate: model.calibrationCurve.evaluate as Model["evaluate"] }));

/** The fields of a quantity, without any others in its declaration. */
const quantityOf = ({ symbol, meaning, unit, difference }: Quantity): Quantity => ({
  symbol,
  meaning,
  unit,
  ...(difference === undefined ? {} : { difference }),
});

function inputRecord({ model, study, knowledge, source }: Prepared, name: string): InputRecord {
  const { budget } = knowledge[name]!;
  const group = source.groups.find(({ members }) => members.includes(name))!;
  const distribution = group.distributions[group.members.indexOf(name)]!;
  const ν = group.degreesOfFreedom;
  const statement = study.inputs[name]!;
  return {
    ...quantityOf(model.inputs[name]!),
    distribution: distributionTitle(statement.distribution, "en"),
    source: statement.source ?? null,
    evidence: statement.evidence ?? null,
    estimate: budget.estimate,
    standardUncertainty: budget.standardUncertainty,
    degreesOfFreedom: finite(budget.degreesOfFreedom),
    ...(ν === undefined || ν === budget.degreesOfFreedom ? {} : { drawnDegreesOfFreedom: ν }),
    evaluation: budget.evaluation,
    mean: distribution.mean,
    standardDeviation: finite(distribution.standardDeviation),
    curve: smallCurve(distribution),
  };
}

/** What can be drawn of a density that is infinite at a limit, or whose unit is too small for a double. */
const drawable = (points: readonly (readonly [number, number])[]): (readonly [number, number])[] =>
  points.filter(([, density]) => Number.isFinite(density));

/** 41 points of a density between its 0.1 % and 99.9 % quantiles (or its limits, where it has them). */
function smallCurve(distribution: Distribution): (readonly [number, number])[] {
  const low = Math.max(distribution.support[0], distribution.quantile(0.001));
  const high = Math.min(distribution.support[1], distribution.quantile(0.999));
  if (!(high > low)) return [];
  return drawable(
    Array.from({ length: 41 }, (_, i) => {
      const x = low + ((high - low) * i) / 40;
      return [x, distribution.density(x)] as const;
    }),
  );
}

function measurandRecord(
  prepared: Prepared,
  gathered: Accumulation,
  name: string,
  complete: boolean,
): MeasurandFigures {
  const { model, coverage, linear } = prepared;
  const quantity = quantityOf(model.measurands[name]!);
  const monteCarlo = gathered.result(name);
  const budget = linear[name]!;
  const paired = complete ? pairedOf(prepared, gathered, name, monteCarlo) : undefined;
  const validation = verdictOn(prepared, budget, monteCarlo, paired);
  return {
    ...quantity,
    linear: linearRecord(budget),
    monteCarlo,
    validation,
    ...(paired === undefined
      ? {}
      : {
          paired: paired.kind === "figures" ? { ...paired, ...pairedDecision(validation, paired, monteCarlo) } : paired,
        }),
    secondOrder: secondOrderRecord(
      prepared,
      name,
      monteCarlo.intervals[coverage.interval],
      validation.numericalTolerance,
    ),
    explanation: null,
    conformity: null,
    sensitivity: null,
  };
}

/** The figures of paired trials, or why there are none. */
function pairedOf(
  prepared: Prepared,
  gathered: Accumulation,
  name: string,
  { intervals }: MonteCarloRecord,
): ReturnType<typeof pairedFigures> {
  const { linear, coverage } = prepared;
  const budget = linear[name]!;
  const none = (because: "shortest" | "leftOut" | "noLinearUncertainty") =>
    ({ kind: "unavailable", because, inputs: [] }) as const;
  if (gathered.leftOut > 0) return none("leftOut");
  if (coverage.interval === "shortest") return none("shortest");
  if (budget.standardUncertainty === 0) return none("noLinearUncertainty");
  const exact = exactLinearised(prepared, name);
  return pairedFigures(
    budget,
    exact,
    exact.kind === "unavailable" ? null : gathered.paired(name, exact.distribution),
    lastBitOf(budget, intervals.symmetric),
  );
}

function secondOrderRecord(
  { model, knowledge, linear, correlations }: Prepared,
  name: string,
  interval: readonly [number, number],
  δ: number,
): SecondOrderRecord | null {
  // The next-order terms are written for independent inputs.
  if (correlations.length > 0) return null;
  const budget = linear[name]!;
  const lines = Object.fromEntries(Object.entries(knowledge).map(([input, { budget: line }]) => [input, line]));
  const found = secondOrder(model, lines, name, budget.standardUncertainty);
  if (found === null) return null;
  const middle = budget.estimate + found.bias;
  const U = budget.coverageFactor * found.standardUncertainty;
  const own = [middle - U, middle + U] as const;
  return { ...found, interval: own, ...secondOrderVerdict(own, interval, δ) };
}

/** A linear budget as a record has it. */
export function linearRecord(budget: LinearBudget): LinearRecord {
  return {
    estimate: budget.estimate,
    standardUncertainty: budget.standardUncertainty,
    coverageFactor: budget.coverageFactor,
    effectiveDegreesOfFreedom: finite(budget.effectiveDegreesOfFreedom),
    expandedUncertainty: budget.expandedUncertainty,
    interval: budget.interval,
    contributions: budget.contributions.map(contributionRecord),
    correlatedTerms: budget.correlatedTerms,
    ...(budget.doubtful.length === 0 ? {} : { doubtful: budget.doubtful }),
    curve: budgetCurve(budget),
  };
}

const contributionRecord = (row: Contribution): ContributionRecord => ({
  ...row,
  degreesOfFreedom: finite(row.degreesOfFreedom),
});

/** The density that a linear budget implies, over ±4.5 u(y). */
function budgetCurve({
  estimate,
  standardUncertainty: u,
  effectiveDegreesOfFreedom: ν,
}: LinearBudget): (readonly [number, number])[] {
  if (u === 0) return [];
  return drawable(
    Array.from({ length: 121 }, (_, i) => {
      const z = -4.5 + (9 * i) / 120;
      return [estimate + u * z, (Number.isFinite(ν) ? tDensity(z, ν) : normalDensity(z)) / u] as const;
    }),
  );
}
