import type { ReportedRecord } from "../../engine/index.ts";
import { readNamed } from "../intake/named-file.ts";
import { alteredFault, openRecord } from "./open.ts";

/** Largest record file that is read; a study with the longest lists makes a far smaller one. */
const LARGEST = 256 * 1024 * 1024;

/**
 * The record in a file that a person named, from which something is to be made for others.
 *
 * @throws {Fault} a file that is missing, too large, not JSON or no record, or a record altered after it was sealed
 */
export async function unalteredRecord(file: string): Promise<ReportedRecord> {
  const { record, altered } = openRecord(await readNamed(file, LARGEST), file);
  if (altered.length > 0) throw alteredFault(record, altered, file);
  return record;
}
