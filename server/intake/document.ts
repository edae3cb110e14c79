import { dirname, join } from "node:path";
import { parseJson } from "./json.ts";
import { bytesOf, nameOf, type FileSource } from "./source.ts";

const MOST_BYTES = 20_000_000;

/** Reads a JSON description. @throws {InputError} no file; {Fault} no JSON, with line and column */
export const readJson = async (source: FileSource): Promise<unknown> =>
  parseJson(await bytesOf(source, MOST_BYTES), nameOf(source));

/** The log a description names, beside it. */
export const beside = (description: string, file: string): string => join(dirname(description), file);
