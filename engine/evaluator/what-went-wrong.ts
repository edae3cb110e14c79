import { show } from "../errors.ts";
import { everyInput, type Model } from "../model.ts";
import { closestName } from "../closest-name.ts";

/** The message of a thrown value. */
export const messageOf = (cause: unknown): string =>
  JSON.stringify(cause instanceof Error ? cause.message : String(cause));

/** A place in a stack of calls, as V8 and the other engines write it: file, line, column at a line's end. */
const PLACE = /(?:\(|@|at )((?:file|https?):\/\/[^\s()]+|\/[^\s()]+|[A-Za-z]:\\[^()\n]+):(\d+:\d+)\)?$/m;

/** Where an error was thrown (file:line:column), as the end of a message; empty where the host does not say. */
export function whereThrown(cause: unknown): string {
  const found = PLACE.exec(cause instanceof Error ? (cause.stack ?? "") : "");
  if (found === null) return "";
  return `; thrown at ${found[1]!.replace(/^file:\/\//, "")}:${found[2]}`;
}

/** What a model returned in place of a finite number for one of its measurands. */
export function returnedText(outputs: unknown, measurand: string, measurands: readonly string[]): string {
  if (isPromise(outputs)) return "returned a Promise (evaluate must return its value at once, and not be async)";
  if (typeof outputs === "number") {
    if (measurands.length === 1) return `returned ${outputs} for ${measurand}`;
    return `returned the number ${outputs} in place of ${measurands.join(", ")} by name`;
  }
  if (typeof outputs !== "object" || outputs === null) {
    const kind = outputs === undefined ? "" : `, a ${typeof outputs},`;
    return `returned ${show(outputs)}${kind} for ${measurand}`;
  }
  if (!Object.hasOwn(outputs, measurand)) {
    const names = Object.keys(outputs);
    return `returned ${names.length === 0 ? "an object without values" : names.join(", ")} and no ${measurand}`;
  }
  const value = (outputs as Readonly<Record<string, unknown>>)[measurand];
  if (isPromise(value)) return `returned a Promise for ${measurand} (a measurand must be a number, not awaited)`;
  return `returned ${show(value)}${typeof value === "number" || value === undefined ? "" : `, a ${typeof value},`} for ${measurand}`;
}

const isPromise = (value: unknown): boolean =>
  typeof value === "object" && value !== null && typeof (value as { then?: unknown }).then === "function";

/**
 * The names that a model reads and does not declare, as the end of a message: in JavaScript they are `undefined`, and what is
 * computed from them is NaN. Empty if there are none.
 */
export function undeclaredReads(model: Model, inputs: Readonly<Record<string, number>>): string {
  const declared = Object.keys(everyInput(model));
  const strangers = new Set<string>();
  const watched = new Proxy(
    { ...inputs },
    {
      get(values, name) {
        if (typeof name === "string" && !Object.hasOwn(values, name) && !declared.includes(name)) strangers.add(name);
        return Reflect.get(values, name) as unknown;
      },
    },
  );
  try {
    model.evaluate(watched);
  } catch {
    // What it read before it threw is what matters here.
  }
  return [...strangers]
    .map((name) => {
      const meant = closestName(name, declared);
      const hint = meant === null ? `the inputs are ${declared.join(", ")}` : `did you mean ${meant}?`;
      return `; it reads ${name}, which is no input: ${hint}`;
    })
    .join("");
}
