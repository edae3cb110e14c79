/**
 * A problem with input: the place, the value found there and the accepted values. One function (`describeProblem`) words
 * it for the terminal, the API and the page.
 */
export interface Problem {
  /** Path to the field, e.g. `inputs.axial.halfWidth`. Empty for the document as a whole. */
  readonly place: string;
  /** The value found, in the form to show. */
  readonly value: string;
  /** The accepted values, as a phrase: "a number greater than 0". */
  readonly accepted: string;
}

/** One problem as a sentence. */
export function describeProblem({ place, value, accepted }: Problem): string {
  return `${place === "" ? "the study" : place}: ${value === "" ? "" : `got ${value}; `}expected ${accepted}`;
}

/** Input that cannot be used. Carries every problem found, so that all can be corrected at once. */
export class InputError extends Error {
  readonly problems: readonly Problem[];

  constructor(problems: readonly Problem[]) {
    super(problems.map(describeProblem).join("\n"));
    this.name = "InputError";
    this.problems = problems;
  }
}

/** A model gave a value that is not a finite number. Carries the trial and its input values. */
export class ModelError extends Error {
  /** Index of the trial from 0, or `null` when the model failed at the estimates of its inputs. */
  readonly trial: number | null;
  readonly inputs: Readonly<Record<string, number>>;

  constructor(message: string, trial: number | null, inputs: Readonly<Record<string, number>>) {
    super(message);
    this.name = "ModelError";
    this.trial = trial;
    this.inputs = inputs;
  }
}

/** Shows any value briefly in a message; never throws. */
export function show(value: unknown): string {
  if (value === undefined) return "nothing";
  if (typeof value === "string") return JSON.stringify(value.length > 60 ? `${value.slice(0, 57)}…` : value);
  if (typeof value === "number" || typeof value === "boolean" || value === null) return String(value);
  if (typeof value === "function") return "a function";
  if (typeof value === "bigint") return `${value}n`;
  const json =
    jsonOf(value) ?? (Array.isArray(value) ? "a list" : typeof value === "object" ? "an object" : typeof value);
  return json.length > 60 ? `${json.slice(0, 57)}…` : json;
}

/** `undefined` for what has no JSON: nested beyond the stack, in a circle, or a symbol. */
function jsonOf(value: unknown): string | undefined {
  try {
    return JSON.stringify(value);
  } catch {
    return undefined;
  }
}

/** Throws an `InputError` with a single problem. */
export function refuse(place: string, value: unknown, accepted: string): never {
  throw new InputError([{ place, value: show(value), accepted }]);
}
