import type { SealedRecord } from "../../engine/index.ts";
import { digestOf } from "../canonical.ts";
import type { WrittenRecord } from "../record/written.ts";
import type { Database } from "./database.ts";
import { parseKept } from "./kept-json.ts";

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
