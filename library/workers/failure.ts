import { InputError, ModelError } from "../../engine/internal.ts";
import type { Failure } from "./messages.ts";

/** An error as it travels. */
export function failureOf(error: unknown): Failure {
  if (error instanceof ModelError) {
    return { kind: "model", message: error.message, trial: error.trial, inputs: error.inputs };
  }
  if (error instanceof InputError) return { kind: "input", problems: error.problems };
  return { kind: "other", message: error instanceof Error ? error.message : String(error) };
}

/** The error that travelled. */
export function errorOf(failure: Failure): Error {
  switch (failure.kind) {
    case "model":
      return new ModelError(failure.message, failure.trial, failure.inputs);
    case "input":
      return new InputError(failure.problems);
    case "other":
      return new Error(failure.message);
  }
}
