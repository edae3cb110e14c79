import type { Statement } from "../../engine/index.ts";
import { dependentFigure, type Swept } from "./dependent.ts";

/** Makes functions of the point of statements whose figures may depend on what is swept. @throws {InputError} */
export type StatementMaker = (
  inputs: Readonly<Record<string, Readonly<Record<string, unknown>>>>,
  place: string,
) => (at: Swept) => Record<string, Statement>;

/** Fields of a statement that are words or lists depend on nothing. */
const isFigure = (value: unknown): boolean =>
  typeof value === "object" &&
  value !== null &&
  !Array.isArray(value) &&
  Object.keys(value).some((key) => KINDS.has(key));
const KINDS: ReadonlySet<string> = new Set(["table", "function", "resistance"]);

/** Statements as functions of the point. `loadEquationReader` comes first. @throws {InputError} */
export const statementsAlong: StatementMaker = (inputs, place) => {
  const made = Object.entries(inputs).map(([name, statement]) => {
    const fields = Object.entries(statement).map(([field, value]) => {
      if (!isFigure(value)) return [field, () => value] as const;
      return [field, dependentFigure(value, `${place}.${name}.${field}`)] as const;
    });
    return [name, fields] as const;
  });
  return (at) =>
    Object.fromEntries(
      made.map(([name, fields]) => [
        name,
        Object.fromEntries(fields.map(([field, value]) => [field, value(at)])) as Statement,
      ]),
    );
};
