import type { CalibrationCurve, Model } from "../model.ts";
import type { Program } from "./program.ts";

/** A program that is to be had. */
interface Provided {
  /** `null` if it turns out that there is none. */
  readonly program: () => Program | null;
  /** Blocks that the plain path takes first: shorter runs would wait for the program longer than it saves. */
  readonly after: number;
}

/**
 * What a program costs until it runs, in blocks over which it saves as much; a model of many points takes ten times as long
 * a block as others.
 */
export const PLAIN_BLOCKS = { atHand: 40, fromFile: 100, fromSource: 400, ofManyPoints: 4 } as const;

/** A model's function, or that of its calibration curve: inputs are the parameters and `argument`, the output is `value`. */
type Programmed = Model["evaluate"] | CalibrationCurve["evaluate"];

/** By the function: a model from a file is declared again for each run, with the same function. */
const programs = new WeakMap<Programmed, Provided>();

/**
 * States that a model, or a curve, is to be had as a program too.
 *
 * @param program makes it, once the model has run so often that it is worth it; `null` where it cannot be had
 * @param from where it comes from, which says how long it takes to make
 */
export function provideProgram(
  evaluate: Programmed,
  program: () => Program | null,
  from: keyof typeof PLAIN_BLOCKS = "atHand",
): void {
  let made: Program | null | undefined;
  programs.set(evaluate, {
    program: () => (made === undefined ? (made = program()) : made),
    after: PLAIN_BLOCKS[from],
  });
}

/** The program of a model, if anybody provided one. */
export const programOf = (evaluate: Programmed): Provided | undefined => programs.get(evaluate);
