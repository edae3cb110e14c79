import type { SealedRecord } from "../../engine/index.ts";
import { digestOf } from "../canonical.ts";
import type { Database } from "./database.ts";
import { parseKept } from "./kept-json.ts";

/** A record as it is kept. The bytes keep the order of its fields, which the canonical form would sort: inputs and measurands are shown in it. */
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

export const readWritten = ({ json }: WrittenRecord): SealedRecord =>
  JSON.parse(Buffer.from(json.buffer, json.byteOffset, json.byteLength).toString("utf8")) as SealedRecord;

/** Keeps a record under its digest, once. */
export function keepRecord(database: Database, { digest, json }: WrittenRecord): void {
  database.run("INSERT INTO records VALUES (?, ?) ON CONFLICT DO NOTHING", [digest, json]);
}

/** A record by its digest. @throws {Error} it is not there, or was altered on the disk */
export function readRecord(database: Database, digest: string): SealedRecord {
  const row = database.get<{ bytes: Uint8Array }>("SELECT bytes FROM records WHERE digest = ?", [digest]);
  if (row === undefined) throw new Error(`the record ${digest} is missing`);
  const record = parseKept(new Uint8Array(row.bytes), `the record ${digest}`) as SealedRecord;
  if (digestOf(record) !== digest) throw new Error(`the record ${digest} was altered`);
  return record;
}
