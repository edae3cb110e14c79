import { InputError } from "../../engine/index.ts";
import { Fault } from "../errors.ts";

/** Does some work on a file, and names the file if something in it cannot be used. @throws {Fault} `bad-input` */
export async function inFile<T>(name: string, work: () => T | Promise<T>): Promise<T> {
  try {
    return await work();
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    const count = error.problems.length;
    throw new Fault(
      "bad-input",
      `${count === 1 ? "One thing" : `${count} things`} in ${name} cannot be used.`,
      error.problems.map((problem) => (problem.place === "" ? { ...problem, place: name } : problem)),
    );
  }
}
