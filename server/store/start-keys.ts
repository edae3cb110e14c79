import { Fault } from "../errors.ts";
import type { Database } from "./database.ts";

/** An idempotency key, and the request that it came with (draft-ietf-httpapi-idempotency-key-header-07, 2). */
export interface StartKey {
  readonly key: string;
  /** Digest of the request's body. */
  readonly request: string;
}

/** Days for which a key is known: longer than a laboratory is closed for. */
export const KEY_DAYS = 14;

/** Keys belong to who sent them: nobody finds out those of another. */
const ownerOf = (actor: string | null): string => JSON.stringify(actor);

/**
 * The run that a key's first request has started; `null` if the key is new, or was forgotten.
 *
 * @throws {Fault} `key-used`: the first request was another
 */
export function startedBy(
  database: Database,
  actor: string | null,
  { key, request }: StartKey,
  at: string,
): string | null {
  const found = database.get<{ request: string; run: string }>(
    "SELECT request, run FROM start_keys WHERE actor = ? AND key = ? AND at > ?",
    [ownerOf(actor), key, oldest(at)],
  );
  if (found === undefined) return null;
  if (found.request === request) return found.run;
  throw new Fault(
    "key-used",
    `The key ${key} came with another request within the last ${KEY_DAYS} days, which started the run ${found.run}. Give each run a key of its own, and the same key only to the same request sent again.`,
  );
}

/** Keeps a key with the run that its request starts, and forgets those that are too old. */
export function keepKey(
  database: Database,
  actor: string | null,
  { key, request }: StartKey,
  run: string,
  at: string,
): void {
  database.run("DELETE FROM start_keys WHERE at <= ?", [oldest(at)]);
  database.run("INSERT INTO start_keys VALUES (?, ?, ?, ?, ?)", [ownerOf(actor), key, request, run, at]);
}

const oldest = (at: string): string => new Date(Date.parse(at) - KEY_DAYS * 86_400_000).toISOString();
