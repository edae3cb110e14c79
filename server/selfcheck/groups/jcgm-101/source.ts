import type { MeasurandRecord } from "../../../../engine/index.ts";

/** A clause of the document, as a source. */
export const printedIn = (clause: string): string => `JCGM 101:2008, ${clause}`;
/** A figure that was not printed, as a source. */
export const computed = (how: string): string => `computed independently: ${how}`;
export const verdict = ({ validation }: MeasurandRecord): string =>
  validation.validated ? "validated" : "not validated";
/** Trials of the runs that the document prints. */
export const THEIR_TRIALS = 1_000_000;

/** Standard error at the document's number of trials of a figure that settles with their square root. */
export const scaled = (error: number, trials: number, theirs = THEIR_TRIALS): number =>
  error * Math.sqrt(trials / theirs);
