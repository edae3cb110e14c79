import { canonicalJson } from "../../../server/canonical.ts";
import { sealRecord, type SealedRecord } from "../../../server/record/seal.ts";
import { runExample } from "../../read-example.ts";

const made = new Map<string, SealedRecord>();

/** The filed record of an example, with an environment that never changes; made once. */
export function filedExample(id: string, changes: Record<string, unknown> = {}): SealedRecord {
  const key = `${id} ${canonicalJson(changes)}`;
  const known = made.get(key);
  if (known !== undefined) return known;
  const run = runExample(id, { trials: 100_000, ...changes });
  const environment = {
    startedAt: "2026-03-04T09:12:33.000Z",
    seconds: 1.24,
    workers: 2,
    runtime: "Node.js v20.19.0, V8 11.3, linux x64",
  };
  const record = sealRecord({ ...run, environment }, null);
  made.set(key, record);
  return record;
}

/** The text of an HTML document as it is read: no tags, no style sheet, entities resolved. */
export const textOf = (document: string): string =>
  document
    .replace(/<style>.*?<\/style>/s, "")
    .replace(/<[^>]*>/g, "")
    .replaceAll("&lt;", "<")
    .replaceAll("&gt;", ">")
    .replaceAll("&quot;", '"')
    .replaceAll("&#39;", "'")
    .replaceAll("&amp;", "&")
    .replaceAll("\u200b", "");
