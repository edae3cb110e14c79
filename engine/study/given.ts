import type { Model } from "../model.ts";
import { readStudy, type DefinedStudy, type Study, type StudyOf } from "./study.ts";

/** How a program gives a study: with `defineStudy`, or a model with a study beside it; then options. */
export type Given<Options> =
  | readonly [defined: DefinedStudy, options?: Options | undefined]
  | readonly [model: Model, study: Study | StudyOf<string, string>, options?: Options | undefined];

/** The checked study and its model. @throws {InputError} a study that cannot be used */
export function readGiven<Options>([first, second, third]: Given<Options>): {
  readonly model: Model;
  readonly study: Study;
  readonly options: Options | undefined;
} {
  if ("study" in first) {
    return { model: first.model, study: readStudy(first.study), options: second as Options | undefined };
  }
  // A study may leave out the name of a model that is given beside it; what is no object is refused as it is.
  const study = isObject(second) ? { model: first.id, ...second } : second;
  return { model: first, study: readStudy(study), options: third };
}

const isObject = (value: unknown): value is object =>
  typeof value === "object" && value !== null && !Array.isArray(value);
