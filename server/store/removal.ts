import { Fault } from "../errors.ts";
import { tellAudit } from "./audit-trail.ts";
import type { Database } from "./database.ts";
import { asKey, headById } from "./run-rows.ts";

/**
 * Takes a run off the list. Its record, study and notes stay in the store, so that it can be brought back.
 *
 * @throws {Fault} `no-such-run`, or `not-finished` if it waits or goes on
 */
export function removeRun(database: Database, id: string, at: string, actor: string | null): void {
  database.transaction(() => {
    const head = headById(database, id);
    if (head === null) throw noSuchRun(id);
    if (head.state === "waiting" || head.state === "running")
      throw new Fault("not-finished", `Run ${id} is ${head.state}: cancel it before it is removed.`);
    database.run("UPDATE runs SET removed = ? WHERE id = ?", [at, id]);
    tellAudit(database, { at, actor, action: "run removed", subject: id, detail: {} });
  });
}

/** Puts a removed run back on the list; one that is on it stays. @throws {Fault} `no-such-run` */
export function bringBackRun(database: Database, id: string, at: string, actor: string | null): void {
  database.transaction(() => {
    const row = database.get<{ removed: string | null }>("SELECT removed FROM runs WHERE id = ?", [asKey(id)]);
    if (row === undefined) throw noSuchRun(id);
    if (row.removed === null) return;
    database.run("UPDATE runs SET removed = NULL WHERE id = ?", [id]);
    tellAudit(database, { at, actor, action: "run brought back", subject: id, detail: {} });
  });
}

export const noSuchRun = (id: string): Fault => new Fault("no-such-run", `There is no run ${id}.`);
