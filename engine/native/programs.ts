import type { Model } from "../model.ts";
import type { Program } from "./program.ts";

/** By the model's function: a model from a file is declared again for each run, with the same function. */
const programs = new WeakMap<Model["evaluate"], () => Program | null>();

/**
 * States that a model is to be had as a program too.
 *
 * @param program makes it, once the model has run so often that it is worth it; `null` where it cannot be had
 */
export function provideProgram(evaluate: Model["evaluate"], program: () => Program | null): void {
  let made: Program | null | undefined;
  programs.set(evaluate, () => (made === undefined ? (made = program()) : made));
}

/** What makes the program of a model, if anybody stated it. */
export const programOf = (evaluate: Model["evaluate"]): (() => Program | null) | undefined => programs.get(evaluate);
