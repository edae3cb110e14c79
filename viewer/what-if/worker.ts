// The one place where the page runs the engine itself: the same code as a full run, on fewer trials.
import { Accumulation, assembleRecord, InputError, openTrials, prepare, readStudy, type Model } from "../../engine/index.ts";
import { models } from "../../models/index.ts";
import { SKETCH_TRIALS, type SketchAnswer, type SketchedMeasurand, type SketchQuestion } from "./protocol.ts";

/** Draws the first trials of a study: those a full run of the same seed begins with. */
function sketch(document: unknown): Readonly<Record<string, SketchedMeasurand>> {
  const study = { ...readStudy(document), trials: SKETCH_TRIALS, sweep: null, sensitivity: null, conformity: {} };
  const found = models.find(({ id }) => id === study.model);
  if (found === undefined) {
    throw new InputError([{ place: "model", value: study.model, accepted: "a model of the program's own: a model from a file cannot be sketched on a page" }]);
  }
  const model: Model = "build" in found ? found.build(study.parameters ?? {}) : found;
  const prepared = prepare(model, study);
  const draw = openTrials(prepared.source);
  const gathered = new Accumulation(prepared);
  for (let count = gathered.next; count > 0; count = gathered.next) gathered.add(draw(gathered.trials, count));
  const { measurands } = assembleRecord(prepared, gathered, false);
  return Object.fromEntries(
    Object.entries(measurands).map(([name, { symbol, meaning, unit, linear, monteCarlo, validation }]) => [
      name,
      {
        symbol,
        meaning,
        unit,
        linear: {
          estimate: linear.estimate,
          standardUncertainty: linear.standardUncertainty,
          coverageFactor: linear.coverageFactor,
          expandedUncertainty: linear.expandedUncertainty,
          interval: linear.interval,
        },
        monteCarlo: {
          estimate: monteCarlo.estimate,
          standardUncertainty: monteCarlo.standardUncertainty,
          intervals: monteCarlo.intervals,
          histogram: monteCarlo.histogram,
          trials: monteCarlo.trials,
        },
        validation: { validated: validation.validated, numericalTolerance: validation.numericalTolerance, coverageFactorNeeded: validation.coverageFactorNeeded },
      },
    ]),
  );
}

function answer({ id, study }: SketchQuestion): SketchAnswer {
  const start = performance.now();
  try {
    return { id, measurands: sketch(study), milliseconds: performance.now() - start };
  } catch (error) {
    const message = error instanceof Error ? error.message : String(error);
    return { id, message, problems: error instanceof InputError ? error.problems : [] };
  }
}

addEventListener("message", ({ data }: MessageEvent<SketchQuestion>) => {
  // In a worker this answers the page; the types know only a window here.
  (postMessage as (message: SketchAnswer) => void)(answer(data));
});
