import { ModelError, refuse } from "../errors.ts";
import type { SensitivityFigures } from "../record/figures.ts";
import type { Prepared } from "../prepared/prepare.ts";
import { BLOCK_TRIALS } from "../random/block.ts";
import { drawBlock, openDraws } from "../trials/draw.ts";
import { evaluateOnce } from "../evaluator/evaluate-once.ts";
import { evaluatorOf } from "../evaluator/evaluator.ts";
import { conditionalPicture, orderBy, type InputOrder } from "./conditional-picture.ts";
import { factorsOf, type Factor } from "./factor.ts";
import { OneAtATime, still } from "./one-at-a-time.ts";
import type { FactorRecord, IndexRecord, SensitivityRecord } from "../record/sensitivity.ts";
import {
  FEWEST_SENSITIVITY_TRIALS,
  MOST_SENSITIVITY_TRIALS,
  type SensitivitySettings,
} from "../study/sensitivity-settings.ts";
import { CONFIDENCE, IndexEstimator, type VarianceIndices } from "./variance-indices.ts";

/** Appended to an input's name for the second, independent set of draws. No input can have such a name. */
const AGAIN = "|again";
/** Trials for the pictures: 2000 in each of 25 bins. */
const PICTURE_TRIALS = 50_000;
const NOTHING: IndexRecord = { value: 0, standardError: 0, interval: [0, 0] };

/**
 * Sensitivity without linearisation: the effect of each input, or group of inputs drawn together, on each measurand.
 * Costs one evaluation per trial for each of two sets of draws, and two more for each factor that varies.
 *
 * Reproduces exactly, bit for bit; the first set of draws is that of the study's own trials.
 *
 * @throws {InputError} a number of trials that cannot be used
 * @throws {ModelError} a model that is not finite for some combination of draws and estimates
 */
export function analyseSensitivity(
  prepared: Prepared,
  { trials }: SensitivitySettings,
): Readonly<Record<string, SensitivityFigures>> {
  if (!Number.isInteger(trials) || trials < FEWEST_SENSITIVITY_TRIALS || trials > MOST_SENSITIVITY_TRIALS) {
    refuse(
      "sensitivity.trials",
      trials,
      `a whole number from ${FEWEST_SENSITIVITY_TRIALS} to ${MOST_SENSITIVITY_TRIALS}`,
    );
  }
  const factors = factorsOf(prepared.source);
  const gathered = gather(prepared, factors, Math.ceil(trials / BLOCK_TRIALS));
  return Object.fromEntries(
    Object.keys(prepared.model.measurands).map((name, at) => [name, recordOf(prepared, name, factors, gathered, at)]),
  );
}

const column = (): Float64Array => new Float64Array(BLOCK_TRIALS);

/** Everything kept of the trials. Lists by measurand are in the model's order. */
interface Gathered {
  readonly trials: number;
  readonly estimators: readonly IndexEstimator[];
  /** By varying factor, then by measurand. */
  readonly alone: ReadonlyMap<Factor, readonly OneAtATime[]>;
  readonly orders: ReadonlyMap<string, InputOrder>;
  /** Measurands in the trials for the pictures. */
  readonly pictured: readonly Float64Array[];
}

function gather(prepared: Prepared, factors: readonly Factor[], blocks: number): Gathered {
  const { model, knowledge } = prepared;
  const inputs = Object.keys(model.inputs);
  const measurands = Object.keys(model.measurands);
  const evaluate = checked(prepared);
  const varying = factors.filter(({ varies }) => varies);

  const estimates = inputs.map((name) => column().fill(knowledge[name]!.budget.estimate));
  const drawn = { first: inputs.map(column), again: inputs.map(column) };
  const draws = { first: openDraws(prepared.source), again: openDraws(prepared.source, AGAIN) };
  // The columns with one factor drawn alone, and with one factor from the second set: references, not copies.
  const mixtures = varying.map((factor) => ({
    factor,
    mixed: drawn.first.map((values, place) => (factor.places.includes(place) ? drawn.again[place]! : values)),
    single: estimates.map((values, place) => (factor.places.includes(place) ? drawn.first[place]! : values)),
  }));
  const outputs = { a: measurands.map(column), b: measurands.map(column), mixed: measurands.map(column) };

  const centre = evaluateOnce(
    model,
    Object.fromEntries(inputs.map((name) => [name, knowledge[name]!.budget.estimate])),
  );
  const estimators = measurands.map(() => new IndexEstimator(varying.length));
  const alone = new Map(
    varying.map((factor) => [factor, measurands.map((name) => new OneAtATime(factor, centre[name]!))]),
  );
  const pictureBlocks = Math.min(blocks, PICTURE_TRIALS / BLOCK_TRIALS);
  const inputsPictured = inputs.map(() => new Float64Array(pictureBlocks * BLOCK_TRIALS));
  const pictured = measurands.map(() => new Float64Array(pictureBlocks * BLOCK_TRIALS));

  for (let block = 0; block < blocks; block++) {
    drawBlock(draws.first, drawn.first, block, BLOCK_TRIALS);
    drawBlock(draws.again, drawn.again, block, BLOCK_TRIALS);
    const from = block * BLOCK_TRIALS;
    evaluate(drawn.first, outputs.a, from);
    evaluate(drawn.again, outputs.b, from);
    if (block < pictureBlocks) {
      inputsPictured.forEach((values, i) => values.set(drawn.first[i]!, from));
      pictured.forEach((values, m) => values.set(outputs.a[m]!, from));
    }
    estimators.forEach((estimator, m) => estimator.begin(outputs.a[m]!, outputs.b[m]!));
    mixtures.forEach(({ factor, mixed, single }, f) => {
      evaluate(mixed, outputs.mixed, from);
      estimators.forEach((estimator, m) => estimator.add(f, outputs.a[m]!, outputs.b[m]!, outputs.mixed[m]!));
      evaluate(single, outputs.mixed, from);
      alone.get(factor)!.forEach((tally, m) => tally.add(drawn.first[factor.places[0]!]!, outputs.mixed[m]!));
    });
  }
  const moving = new Set(
    varying.flatMap(({ inputs: own, distributions }) =>
      own.filter((_, i) => distributions[i]!.standardDeviation !== 0),
    ),
  );
  return {
    trials: blocks * BLOCK_TRIALS,
    estimators,
    alone,
    orders: new Map(
      inputs.filter((name) => moving.has(name)).map((name) => [name, orderBy(inputsPictured[inputs.indexOf(name)]!)]),
    ),
    pictured,
  };
}

/** Evaluates whole blocks; the error for a value that is not finite names the trial and its inputs. */
function checked({
  model,
}: Prepared): (columns: readonly Float64Array[], outputs: readonly Float64Array[], first: number) => void {
  const evaluate = evaluatorOf(model);
  return (columns, outputs, first) => {
    const failed = evaluate(columns, outputs, BLOCK_TRIALS);
    if (failed < 0) return;
    const x = Object.fromEntries(Object.keys(model.inputs).map((name, i) => [name, columns[i]![failed]!]));
    const trial = first + failed;
    evaluateOnce(model, x, trial);
    throw new ModelError(
      `model ${model.id} gave another value when trial ${trial} was repeated; expected a pure function`,
      trial,
      x,
    );
  };
}

function recordOf(
  prepared: Prepared,
  name: string,
  factors: readonly Factor[],
  gathered: Gathered,
  at: number,
): SensitivityFigures {
  const { linear } = prepared;
  const without = factors.filter((factor) => !factor.hasStandardDeviation);
  const found = gathered.estimators[at]!.indices();
  const indices = without.length > 0 ? null : found;
  const { contributions, correlatedTerms } = linear[name]!;
  const varying = factors.filter(({ varies }) => varies);
  const records = factors.map((factor): FactorRecord => {
    const of = (pick: (of: VarianceIndices) => readonly IndexRecord[]): IndexRecord | null =>
      indices === null ? null : factor.varies ? pick(indices)[varying.indexOf(factor)]! : NOTHING;
    return {
      name: factor.name,
      inputs: factor.inputs,
      linearShare: [
        ...contributions.filter(({ input }) => factor.inputs.includes(input)),
        ...correlatedTerms.filter(({ between }) => factor.inputs.includes(between[0])),
      ].reduce((sum, { share }) => sum + share, 0),
      alone: factor.varies ? gathered.alone.get(factor)![at]!.record() : still(factor),
      firstOrder: of(({ firstOrder }) => firstOrder),
      total: of(({ total }) => total),
    };
  });
  const exists = {
    mean: factors.every(({ distributions }) => distributions.every(({ mean }) => mean !== null)),
    deviation: without.length === 0,
  };
  const interaction = indices?.interaction ?? null;
  return {
    trials: gathered.trials,
    confidence: CONFIDENCE,
    estimators: ESTIMATORS,
    standardUncertainty: without.length > 0 ? null : (found?.standardUncertainty ?? 0),
    standardUncertaintyOneAtATime: inQuadrature(records.map(({ alone }) => alone.standardUncertainty)),
    factors: records,
    interaction,
    conditional: Object.fromEntries(
      [...gathered.orders].map(([input, order]) => [input, conditionalPicture(order, gathered.pictured[at]!, exists)]),
    ),
  };
}

/** √(Σ u²), scaled by the largest so that squares neither overflow nor vanish; `null` if a part is. */
function inQuadrature(parts: readonly (number | null)[]): number | null {
  const known = parts.filter((part) => part !== null);
  if (known.length < parts.length) return null;
  const largest = Math.max(...known);
  return largest === 0
    ? 0
    : largest * Math.sqrt(known.reduce((sum, part) => sum + (part / largest) * (part / largest), 0));
}

const ESTIMATORS: SensitivityRecord["estimators"] = {
  contribution: "one input at a time, the others at their estimates (JCGM 101:2008, annex B)",
  firstOrder: "Saltelli et al. 2010, centred",
  total: "Jansen 1999",
  interval: "delete-one-block jackknife",
};
