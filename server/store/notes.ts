import { createHash } from "node:crypto";
import { Fault } from "../errors.ts";
import { tellAudit } from "./audit-trail.ts";
import type { Database } from "./database.ts";
import { asKey, headById } from "./run-rows.ts";
import { noSuchRun } from "./removal.ts";

/**
 * Writes the next version of a run's note; `null` takes the note away. Earlier versions stay.
 *
 * @param expected the version that the writer has seen, 0 where there was no note; `null` writes over any
 * @returns the new version
 * @throws {Fault} `no-such-run`; `not-finished`; `changed-meanwhile` if the note has another version than expected
 */
export function writeNote(
  database: Database,
  id: string,
  text: string | null,
  expected: number | null,
  at: string,
  actor: string | null,
): number {
  return database.transaction(() => {
    const head = headById(database, id);
    if (head === null) throw noSuchRun(id);
    if (head.state === "waiting" || head.state === "running")
      throw new Fault("not-finished", `Run ${id} is ${head.state}: a note can be written once it has ended.`);
    if (expected !== null && expected !== head.noteVersion) {
      throw new Fault(
        "changed-meanwhile",
        `The note of run ${id} has version ${head.noteVersion}; expected version ${expected}. Read it again before you write over it.`,
      );
    }
    const version = head.noteVersion + 1;
    const row = database.get<{ seq: number }>("SELECT seq FROM runs WHERE id = ?", [asKey(id)])!;
    const kept = text === null ? null : JSON.stringify(text);
    database.run("INSERT INTO notes VALUES (?, ?, ?, ?)", [row.seq, version, kept, at]);
    tellAudit(database, {
      at,
      actor,
      action: "note written",
      subject: id,
      detail: { version, text: kept === null ? null : createHash("sha256").update(kept).digest("hex") },
    });
    return version;
  });
}
