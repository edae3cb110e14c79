import { dirname, join } from "node:path";
import { refuse } from "../../engine/index.ts";
import { bytesOf, nameOf, type RecordSource } from "./source.ts";

const MOST_BYTES = 20_000_000;

/** Reads a JSON description. @throws {InputError} no file, or no JSON, with line and column */
export async function readJson(source: RecordSource): Promise<unknown> {
  const text = (await bytesOf(source, MOST_BYTES)).toString("utf8").replace(/^\uFEFF/, "");
  try {
    return JSON.parse(text);
  } catch (error) {
    return refuse(nameOf(source), error instanceof Error ? error.message : text.slice(0, 40), "a JSON document");
  }
}

/** The record a description names, beside it. */
export const beside = (description: string, file: string): string => join(dirname(description), file);
