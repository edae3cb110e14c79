import type { RemovedRun, RunHead } from "../../viewer/api/runs.ts";
import type { AuditReport } from "./audit-check.ts";
import type { ChainedEntry } from "./audit-trail.ts";
import type { Backup } from "./backup.ts";
import type { EvidenceStore } from "./evidence.ts";
import type { Checkpoint, Piece } from "./checkpoints.ts";
import type { Desk } from "./desk.ts";
import type { Restored } from "./restore.ts";
import type { UnfinishedRun } from "./run-rows.ts";
import type { StartKey } from "./start-keys.ts";
import type { AcceptedRun, Ending, RunBody } from "./runs.ts";

/**
 * Where runs, records, studies, notes and the audit trail are kept. Every call returns once what it did is on the disk;
 * what it cannot write it refuses with the fault `cannot-keep`. Nothing of it is kept in memory: what another program
 * restores is seen by the next call.
 */
export interface Store {
  /** Heads of the runs, newest first, without those removed. */
  heads(): RunHead[];
  head(id: string): RunHead | null;
  /** The rest of a run; `null` if there is none, or it was removed. @throws {Fault} `internal`: altered on the disk */
  read(id: string): RunBody | null;
  /** Runs that wait or go on, in the order they were accepted. */
  unfinished(): UnfinishedRun[];
  accept(run: AcceptedRun): RunHead;
  /** As `startedBy`. */
  startedBy(actor: string | null, key: StartKey): string | null;
  begin(id: string): void;
  /** @returns false if the run has ended already, or a restore took it away */
  end(id: string, ending: Ending, actor?: string | null): boolean;
  /** As `writeNote`. */
  annotate(id: string, text: string | null, expected: number | null, actor?: string | null): number;
  /** As `removeRun`. */
  remove(id: string, actor?: string | null): void;
  /** As `bringBackRun`. */
  bringBack(id: string, actor?: string | null): void;
  writePieces(id: string, pieces: readonly Piece[]): void;
  writeCheckpoint(id: string, checkpoint: Checkpoint, dropped: readonly number[]): void;
  readCheckpoint(id: string): (Checkpoint & { readonly pieces: ReadonlyMap<number, Uint8Array> }) | null;
  dropCheckpoint(id: string): void;
  /** The runs that were removed, the last first. */
  removed(): RemovedRun[];
  /** The last entries of the audit trail, in order. */
  trail(most: number): ChainedEntry[];
  /** What the laboratory has beside its runs. */
  readonly desk: Desk;
  /** As `checkAudit`. */
  audit(expected?: string | null): AuditReport;
  /** As `writeBackup`. */
  backup(file: string): Backup;
  /** As `restoreBackup`. */
  restore(file: string): Restored;
  /** Surveys of one's own. */
  readonly evidence: EvidenceStore;
  /** Whether another program has written to the store since this was asked last: it may have restored a backup. */
  changedElsewhere(): boolean;
  close(): void;
}
