import { basename } from "node:path";
import type { Evidence } from "../../engine/index.ts";
import { calibrationsOfTable, readHistory, type HistoryDocument } from "../../models/index.ts";
import { beside, readJson } from "./document.ts";
import { inFile } from "./in-file.ts";
import { bytesOf } from "./source.ts";
import { watchFile } from "./watched-file.ts";

/** Largest table of a history. */
const MOST_BYTES = 2_000_000;

/** A history with the rows of its table among its calibrations, and the files that it was read from. */
export interface LoadedHistory {
  readonly history: HistoryDocument;
  readonly files: Evidence["files"];
}

/** @throws {InputError | Fault} every problem with its place; those of the table name its file */
export async function loadHistory(path: string): Promise<LoadedHistory> {
  const watched = await watchFile(path);
  const document = await readJson(watched.source);
  const history = await inFile(path, () => readHistory(document));
  const { table } = history;
  if (table === undefined) return { history, files: [watched.trace()] };
  const file = await watchFile(beside(path, table));
  const text = new TextDecoder().decode(await bytesOf(file.source, MOST_BYTES));
  const rows = await inFile(path, () => calibrationsOfTable(text, basename(table), history.quantities));
  return {
    history: await inFile(path, () => readHistory({ ...history, calibrations: [...history.calibrations, ...rows] })),
    files: [watched.trace(), file.trace()],
  };
}
