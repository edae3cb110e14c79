import type { Interval } from "../coverage/coverage-interval.ts";

/** What can make a Monte Carlo interval differ from the linear one. */
export const CAUSES = ["curvature", "shape", "degreesOfFreedom"] as const;
export type Cause = (typeof CAUSES)[number];

/** Moves of the two ends of the interval, in the measurand's unit: lower, upper. */
export type EndMoves = Interval;

/** How much one cause moves the ends. */
export interface CausePart {
  /** Its Shapley value: its move averaged over all orders in which the causes can be let in. */
  readonly shapley: EndMoves;
  /** Its move when it is let in alone. */
  readonly alone: EndMoves;
  /** Its part of the whole difference, 0 to 1, by the larger end. */
  readonly share: number;
  /** The inputs that make it, the strongest first. */
  readonly inputs: readonly string[];
}

/** Why the linear interval and the Monte Carlo interval of one measurand differ. */
export interface ExplanationRecord {
  /** Trials of each of the compared propagations, all on the same random numbers. */
  readonly trials: number;
  /** Monte Carlo ends minus linear ends. */
  readonly difference: EndMoves;
  readonly parts: Readonly<Record<Cause, CausePart>>;
  /** What the causes do together beyond what each does alone. Already shared out in the Shapley values. */
  readonly interplay: EndMoves;
  /** What is left: the scatter of the compared propagations. */
  readonly remainder: EndMoves;
  /** The difference and its causes in a sentence. */
  readonly sentence: string;
  readonly recommendation: Recommendation;
}

export interface Recommendation {
  readonly action:
    | "keep"
    | "keep-with-factor"
    | "add-second-order"
    | "report-monte-carlo"
    | "gather-readings"
    | "draw-more";
  /** The factor, where one is recommended. */
  readonly factor: number | null;
  /** The inputs it is about. */
  readonly inputs: readonly string[];
  readonly sentence: string;
}
