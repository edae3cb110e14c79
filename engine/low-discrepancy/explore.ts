import { InputError, refuse } from "../errors.ts";
import type { Model } from "../model.ts";
import { prepare, type Prepared } from "../prepared/prepare.ts";
import type { Study } from "../study/study.ts";
import { BLOCK_TRIALS } from "../random/block.ts";
import { evaluateOnce } from "../evaluator/evaluate-once.ts";
import { drawBlock, openDraws, placedGroups } from "../trials/draw.ts";
import { evaluatorOf } from "../evaluator/evaluator.ts";
import { VERSION } from "../version.ts";
import type { Exploration, ExploredFigure, ExploredMeasurand } from "./exploration.ts";
import { comparedFigure, CONFIDENCE, estimators, figuresOf, type SetFigures } from "./repetitions.ts";
import { nestedScrambling, openScrambling } from "./scramble.ts";
import { LARGEST_DIMENSION, sobolCoordinates } from "./sobol.ts";

/** Bounds of the settings. */
export const FEWEST_POINTS = 64;
export const MOST_POINTS = 1_048_576;
export const FEWEST_SCRAMBLINGS = 4;
export const MOST_SCRAMBLINGS = 64;

const NOTICE =
  "This is an exploration by low-discrepancy points, not a result to report: it makes no record, compares no budget and gives no verdict.";

/** How an exploration is made. */
export interface ExplorationSettings {
  /** Sobol' points per scrambling: a power of two from 64 to 1048576. */
  readonly points: number;
  /** Independent scramblings: from 4 to 64. */
  readonly scramblings: number;
}

/** Whether `points` accepts a number. */
export const isNumberOfPoints = (points: number): boolean =>
  Number.isInteger(points) && points >= FEWEST_POINTS && points <= MOST_POINTS && (points & (points - 1)) === 0;

/** Fills a block of the inputs' columns with trials `first` … `first + count − 1`. */
type Draw = (first: number, columns: readonly Float64Array[], count: number) => void;

/**
 * Explores a study by scrambled Sobol' points instead of random trials. Independent scramblings give the estimate, the
 * standard uncertainty and both endpoints of the coverage interval of every measurand, with standard errors from their
 * spread; the same number of sets of plain trials gives the comparison. If the model is smooth, the same standard error
 * needs far fewer evaluations; if it is not, about as many as plain trials.
 *
 * Every input is drawn by inversion of its distribution function, correlated ones through the underlying normals
 * (`Group.fromUniforms`). The standard errors describe the spread only; they do not include the bias of the shortest
 * interval of finitely many values.
 *
 * A point set and its plain trials reproduce exactly, bit for bit. Memory: 4 bytes per point and dimension.
 *
 * Source: A. B. Owen, "Scrambled net variance for integrals of smooth functions", Ann. Statist. 25(4), 1541–1562 (1997);
 * replicated scramblings for the error: A. B. Owen, Lecture Notes in Statistics 106 (1995), section 4.
 *
 * @param onProgress called after every set with the number of trials made and the total
 * @throws {InputError} settings, study or number of dimensions that cannot be used
 * @throws {ModelError} a model value that is not a finite number
 */
export function explore(
  model: Model,
  study: Study,
  { points, scramblings }: ExplorationSettings,
  onProgress?: (trials: number, limit: number) => void,
): Exploration {
  if (!isNumberOfPoints(points)) refuse("points", points, `a power of two from ${FEWEST_POINTS} to ${MOST_POINTS}`);
  if (!Number.isInteger(scramblings) || scramblings < FEWEST_SCRAMBLINGS || scramblings > MOST_SCRAMBLINGS) {
    refuse("scramblings", scramblings, `a whole number from ${FEWEST_SCRAMBLINGS} to ${MOST_SCRAMBLINGS}`);
  }
  const prepared = prepare(model, study);
  const { coverage, source } = prepared;
  const dimensions = source.groups.reduce((sum, group) => sum + group.dimensions, 0);
  if (dimensions > LARGEST_DIMENSION) {
    const value = `${dimensions} dimensions, one per input that varies and one more per multivariate t`;
    throw new InputError([
      {
        place: "inputs",
        value,
        accepted: `at most ${LARGEST_DIMENSION}, the number of dimensions with direction numbers`,
      },
    ]);
  }
  const evaluate = evaluation(prepared, points);
  const limit = 2 * scramblings * points;
  const sets = (drawOf: (number: number) => Draw, done: number): SetFigures[][] =>
    Array.from({ length: scramblings }, (_, number) => {
      const figures = evaluate(drawOf(number)).map((values) => figuresOf(values, coverage));
      onProgress?.((done + number + 1) * points, limit);
      return figures;
    });
  const scrambled = sets((number) => scrambledDraw(prepared, points, number), 0);
  const plain = sets((number) => plainDraw(prepared, number), scramblings);
  return {
    format: "trialband-exploration/1",
    notice: NOTICE,
    version: VERSION,
    title: study.title,
    model: model.id,
    seed: study.seed,
    generator: source.generator.title,
    points,
    scramblings,
    dimensions,
    coverage: { probability: coverage.probability, interval: coverage.interval },
    confidence: CONFIDENCE,
    measurands: Object.fromEntries(
      Object.keys(model.measurands).map((name, i) => [
        name,
        measurandOf(
          prepared,
          name,
          scrambled.map((set) => set[i]!),
          plain.map((set) => set[i]!),
        ),
      ]),
    ),
  };
}

function measurandOf(
  { model, source }: Prepared,
  name: string,
  scrambled: readonly SetFigures[],
  plain: readonly SetFigures[],
): ExploredMeasurand {
  const { symbol, meaning, unit } = model.measurands[name]!;
  const figure = (of: keyof typeof estimators): ExploredFigure =>
    comparedFigure(estimators[of](scrambled), estimators[of](plain), scrambled.length);
  // A measurand that depends on a t without a variance has none either, and its mean has no standard error.
  const hasDeviation = source.groups.every(({ distributions }) =>
    distributions.every(({ standardDeviation: s }) => s !== null && Number.isFinite(s)),
  );
  return {
    symbol,
    meaning,
    unit,
    estimate: hasDeviation ? figure("estimate") : null,
    standardUncertainty: hasDeviation ? figure("standardUncertainty") : null,
    low: figure("low"),
    high: figure("high"),
  };
}

/** Runs the model over a set of `points` trials and returns the model values, one array per measurand. */
function evaluation({ model }: Prepared, points: number): (draw: Draw) => Float64Array[] {
  const inputs = Object.keys(model.inputs);
  const evaluate = evaluatorOf(model);
  const columns = inputs.map(() => new Float64Array(BLOCK_TRIALS));
  return (draw) => {
    const values = Object.keys(model.measurands).map(() => new Float64Array(points));
    for (let first = 0; first < points; first += BLOCK_TRIALS) {
      const count = Math.min(BLOCK_TRIALS, points - first);
      draw(first, columns, count);
      const failed = evaluate(
        columns,
        values.map((array) => array.subarray(first, first + count)),
        count,
      );
      // The plain path evaluates it again and throws an error that names the inputs.
      if (failed >= 0)
        evaluateOnce(model, Object.fromEntries(inputs.map((name, i) => [name, columns[i]![failed]!])), first + failed);
    }
    return values;
  };
}

/** Trials of scrambling `number`; groups take their dimensions in the model's order. */
function scrambledDraw({ source }: Prepared, points: number, number: number): Draw {
  const open = openScrambling(source.generator, source.seed, number);
  const levels = 31 - Math.clz32(points);
  const coordinates = new Uint32Array(BLOCK_TRIALS);
  let dimension = 0;
  const draws = placedGroups(source).map(({ group, places }) => {
    const axes = Array.from({ length: group.dimensions }, () => {
      const axis = {
        sobol: sobolCoordinates(dimension),
        scramble: nestedScrambling(open, dimension, levels),
        uniforms: new Float64Array(BLOCK_TRIALS),
      };
      dimension += 1;
      return axis;
    });
    return { group, places, axes };
  });
  return (first, columns, count) => {
    for (const { group, places, axes } of draws) {
      for (const { sobol, scramble, uniforms } of axes) {
        sobol(first, coordinates, count);
        scramble(coordinates, first, uniforms, count);
      }
      group.fromUniforms(
        axes.map(({ uniforms }) => uniforms),
        places.map((i) => columns[i]!),
        count,
      );
    }
  };
}

/** Plain random trials as a run draws them, from a separate seed. */
function plainDraw({ source }: Prepared, number: number): Draw {
  const draws = openDraws({ ...source, seed: `${source.seed} plain ${number}` });
  return (first, columns, count) => drawBlock(draws, columns, first / BLOCK_TRIALS, count);
}
