import type { SealedRecord } from "../../engine/index.ts";
import { digestOf } from "../canonical.ts";

/**
 * A record as it is kept. The bytes keep the order of its fields, which the canonical form would sort: inputs and measurands
 * are shown in it.
 */
export interface WrittenRecord {
  /** SHA-256 of its canonical JSON (RFC 8785). */
  readonly digest: string;
  /** Its JSON. */
  readonly json: Uint8Array;
}

/** Writes a record out: of a large one it takes long, and is done on another thread. */
export const writtenRecord = (record: SealedRecord): WrittenRecord => ({
  digest: digestOf(record),
  json: Buffer.from(JSON.stringify(record), "utf8"),
});

/** The record again. */
export const readWritten = ({ json }: WrittenRecord): SealedRecord =>
  JSON.parse(Buffer.from(json.buffer, json.byteOffset, json.byteLength).toString("utf8")) as SealedRecord;
