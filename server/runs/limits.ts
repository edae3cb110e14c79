import { type Prepared } from "../../engine/index.ts";
import { batchBytes, KEPT_TRIALS } from "../../engine/internal.ts";
import { Fault } from "../errors.ts";

/** What a server gives its runs. */
export interface RunLimits {
  /** Runs that go on at once and share the workers; more wait their turn. */
  readonly atOnce: number;
  /** Runs that wait at most. */
  readonly waiting: number;
  /** Seconds that a run may go on, its waiting not counted. */
  readonly seconds: number;
  /** Bytes that the trials of a run may take. */
  readonly bytes: number;
  /** Milliseconds from one checkpoint of a run to the next. */
  readonly checkpointEvery: number;
  /** Milliseconds after which a run that could not be kept is tried to be kept again. */
  readonly keepAgainEvery: number;
}

export const USUAL_LIMITS: RunLimits = {
  atOnce: 2,
  waiting: 100,
  seconds: 12 * 3600,
  bytes: 2 ** 30,
  checkpointEvery: 5000,
  keepAgainEvery: 10_000,
};

/** Inputs that a study may have in a server, whatever it is asked to do with it. */
export const MOST_INPUTS = 200;

/**
 * Refuses a study that would keep the server from answering before anything is made of it: its linear budget evaluates
 * the model some times an input, which takes as the square of their number (a tenth of a second for 200).
 *
 * @param document a study, or what claims to be one
 * @throws {Fault} `too-large`
 */
export function requireFewInputs(document: unknown): void {
  const { inputs, parameters } = (document ?? {}) as { readonly inputs?: unknown; readonly parameters?: unknown };
  // A model may be made from its parameters: a coefficient for each input, a list of points of a curve.
  const lists = typeof parameters === "object" && parameters !== null ? Object.values(parameters) : [];
  const found = Math.max(...[inputs, ...lists].map((list) => countOf(list)));
  if (found <= MOST_INPUTS) return;
  throw new Fault(
    "too-large",
    `The study has ${found} inputs or parts of a parameter; expected at most ${MOST_INPUTS} in a server, which answers other people meanwhile. The command line takes larger ones: trialband run.`,
  );
}

const countOf = (list: unknown): number => (typeof list === "object" && list !== null ? Object.keys(list).length : 0);

/** Bytes that the trials of a run take at most, in the memory of the thread that gathers them. */
export const bytesOf = ({ model, batch, limit }: Prepared): number =>
  Math.ceil(Math.min(limit, KEPT_TRIALS) / batch) * batchBytes(Object.keys(model.measurands).length, batch);

/** @throws {Fault} `too-large`: a run whose trials take more memory than a run is given */
export function requireRoom(prepared: Prepared, { bytes }: RunLimits): void {
  const needed = bytesOf(prepared);
  if (needed <= bytes) return;
  const mega = (size: number): string => `${Math.ceil(size / 1e6)} MB`;
  throw new Fault(
    "too-large",
    `The trials of this run take ${mega(needed)} of memory; expected at most ${mega(bytes)}. Ask for fewer trials or measurands.`,
  );
}
