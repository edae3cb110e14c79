// The one place where the page runs the engine itself: the same code as a full run, on fewer trials.
import { InputError, ModelError, prepare, readStudy, type Model, type Prepared } from "../../../engine/index.ts";
import {
  Accumulation,
  assembleRecord,
  linearisedRecord,
  linearRecord,
  numericalTolerance,
  openTrials,
} from "../../../engine/internal.ts";
import { models } from "../../../models/index.ts";
import {
  FIRST_TRIALS,
  REFINED_TRIALS,
  type ComputedMeasurand,
  type Preview,
  type PreviewAnswer,
  type PreviewQuestion,
} from "./protocol.ts";

/** A preview that is being drawn, batch by batch: the first trials of a study, with which a full run of its seed begins. */
interface Drawing {
  /** Draws one more batch; the preview when it was the last, until then `null`. */
  next(): Preview | null;
}

async function preparedOf(document: unknown, trials: number): Promise<Prepared> {
  const study = { ...readStudy(document), trials, sweep: null, sensitivity: null, conformity: {} };
  const found = models.find(({ id }) => id === study.model);
  if (found === undefined) {
    throw new InputError([
      {
        place: "model",
        value: study.model,
        accepted: "a model of the program's own: a model from a file cannot be previewed on a page",
      },
    ]);
  }
  if ("build" in found) await found.load?.();
  const model: Model = "build" in found ? found.build(study.parameters ?? {}) : found;
  return prepare(model, study);
}

async function open(document: unknown, trials: number): Promise<Drawing> {
  const prepared = await preparedOf(document, trials);
  const draw = openTrials(prepared.source);
  const gathered = new Accumulation(prepared);
  return {
    next() {
      gathered.add(draw(gathered.trials, gathered.next));
      return gathered.next > 0 ? null : previewOf(assembleRecord(prepared, gathered, false).measurands);
    },
  };
}

const previewOf = (measurands: ReturnType<typeof assembleRecord>["measurands"]): Preview =>
  Object.fromEntries(
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
        validation: {
          validated: validation.validated,
          firm: validation.firm,
          ...(validation.nothingVaries === true ? { nothingVaries: true as const } : {}),
          numericalTolerance: validation.numericalTolerance,
          coverageFactorNeeded: validation.coverageFactorNeeded,
        },
      },
    ]),
  );

/** By convolution, without a trial. */
async function computedOf(document: unknown): Promise<Readonly<Record<string, ComputedMeasurand>>> {
  const { linear, source, correlations, coverage, study } = await preparedOf(document, FIRST_TRIALS);
  return Object.fromEntries(
    Object.entries(linear).map(([name, budget]) => {
      const { estimate, standardUncertainty, coverageFactor, expandedUncertainty, interval, curve } =
        linearRecord(budget);
      const linearised = linearisedRecord(
        budget,
        source.groups,
        correlations,
        {
          probability: coverage.probability,
          tolerance: numericalTolerance(standardUncertainty, study.significantDigits),
        },
        false,
      );
      return [
        name,
        {
          linear: { estimate, standardUncertainty, coverageFactor, expandedUncertainty, interval, curve },
          linearised,
        },
      ];
    }),
  );
}

/** Most answers about kept changes that are remembered. */
const MOST_REMEMBERED = 50;

/** Answers about kept changes by their text, which stay as they are while another change is tried. */
function remembering<T>(find: (document: unknown, trials: number) => Promise<T>) {
  const known = new Map<string, T | null>();
  return async (document: unknown, trials: number): Promise<T | null> => {
    const text = `${trials} ${JSON.stringify(document)}`;
    const before = known.get(text);
    if (before !== undefined) return before;
    let found: T | null = null;
    try {
      found = await find(document, trials);
      // What a newer question cut short is asked for again.
      if (found === null) return null;
    } catch (error) {
      // A kept change that cannot be computed leaves the one that is tried.
      if (!(error instanceof InputError || error instanceof ModelError)) throw error;
    }
    if (known.size > MOST_REMEMBERED) known.clear();
    known.set(text, found);
    return found;
  };
}

const computedOther = remembering((document) => computedOf(document));
const drawnOther = remembering((document, trials) => drawn(document, trials));

/** What is known of the study as stated that was last asked for: a change alone is then computed and drawn. */
interface Known {
  readonly text: string;
  computed: Readonly<Record<string, ComputedMeasurand>> | null;
  /** Its previews by their trials. */
  readonly previews: Map<number, Preview>;
}

let known: Known = { text: "", computed: null, previews: new Map() };
let waiting: PreviewQuestion | null = null;
let working = false;

/** Lets the messages in that have come meanwhile. */
const turn = (): Promise<void> =>
  new Promise((resolve) => {
    const { port1, port2 } = new MessageChannel();
    const heard = (): void => {
      port1.close();
      resolve();
    };
    port1.addEventListener("message", heard, { once: true });
    port1.start();
    port2.postMessage(null);
  });

/** Draws a preview to its end, or leaves it (`null`) as soon as a newer question waits. */
async function drawn(document: unknown, trials: number): Promise<Preview | null> {
  const drawing = await open(document, trials);
  for (;;) {
    const preview = drawing.next();
    if (preview !== null) return preview;
    await turn();
    if (waiting !== null) return null;
  }
}

function knownOf(stated: unknown): Known {
  const text = JSON.stringify(stated);
  if (known.text !== text) known = { text, computed: null, previews: new Map() };
  return known;
}

async function statedPreview(stated: unknown, trials: number): Promise<Preview | null> {
  const { previews } = knownOf(stated);
  const preview = previews.get(trials) ?? (await drawn(stated, trials));
  if (preview !== null) previews.set(trials, preview);
  return preview;
}

async function work({ id, stated, changed, others }: PreviewQuestion): Promise<void> {
  // In a worker this answers the page; the types know only a window here.
  const answer = postMessage as (message: PreviewAnswer) => void;
  try {
    const own = knownOf(stated);
    own.computed ??= await computedOf(stated);
    answer({
      id,
      computed: {
        stated: own.computed,
        changed: changed === null ? null : await computedOf(changed),
        others: await Promise.all(others.map((other) => computedOther(other, 0))),
      },
    });
    await turn();
    if (waiting !== null) return;
    for (const trials of [FIRST_TRIALS, REFINED_TRIALS]) {
      const before = await statedPreview(stated, trials);
      const after = before === null || changed === null ? null : await drawn(changed, trials);
      if (before === null || (changed !== null && after === null)) return;
      answer({ id, trials, stated: before, changed: after });
      await turn();
      if (waiting !== null) return;
      if (others.length === 0) continue;
      const judged: (Preview | null)[] = [];
      for (const other of others) {
        judged.push(await drawnOther(other, trials));
        if (waiting !== null) return;
      }
      answer({ id, trials, judged });
    }
  } catch (error) {
    const message = error instanceof Error ? error.message : String(error);
    answer({ id, message, problems: error instanceof InputError ? error.problems : [] });
  }
}

addEventListener("message", async ({ data }: MessageEvent<PreviewQuestion>) => {
  waiting = data;
  if (working) return;
  working = true;
  while (waiting !== null) {
    const question: PreviewQuestion = waiting;
    waiting = null;
    await work(question);
  }
  working = false;
});
