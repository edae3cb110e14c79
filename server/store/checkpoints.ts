import { createHash } from "node:crypto";
import type { Database } from "./database.ts";

/** A piece of a checkpoint: written once, under a number of its own, and never changed. */
export interface Piece {
  readonly piece: number;
  readonly bytes: Uint8Array;
}

/** What an unfinished run resumes from. */
export interface Checkpoint {
  readonly trials: number;
  /** What must be alike for the rest to reproduce exactly, bit for bit: versions of the engine and of the machine's JavaScript. */
  readonly maker: string;
  /** Refers to pieces by their numbers. */
  readonly state: Uint8Array;
}

const sha256 = (bytes: Uint8Array): string => createHash("sha256").update(bytes).digest("hex");

const SEQ = "(SELECT seq FROM runs WHERE id = ?)";

/** Writes pieces that a checkpoint to come will refer to. Without one they do not count. */
export function writePieces(database: Database, id: string, pieces: readonly Piece[]): void {
  database.transaction(() => {
    for (const { piece, bytes } of pieces)
      database.run(`INSERT OR REPLACE INTO checkpoint_pieces VALUES (${SEQ}, ?, ?, ?)`, [
        id,
        piece,
        sha256(bytes),
        bytes,
      ]);
  });
}

/**
 * Puts a checkpoint in the place of the one before, and drops pieces that are no longer referred to: the old one or the
 * new one, never half of either.
 *
 * @param dropped numbers of pieces that only the checkpoint before referred to
 */
export function writeCheckpoint(
  database: Database,
  id: string,
  { trials, maker, state }: Checkpoint,
  dropped: readonly number[],
): void {
  database.transaction(() => {
    const changed = database.run("UPDATE runs SET trials = ? WHERE id = ? AND state = 'running'", [trials, id]);
    // It ended, or a restore took it away.
    if (changed === 0) return;
    database.run(`INSERT OR REPLACE INTO checkpoints VALUES (${SEQ}, ?, ?, ?)`, [id, trials, maker, state]);
    for (const piece of dropped)
      database.run(`DELETE FROM checkpoint_pieces WHERE run = ${SEQ} AND piece = ?`, [id, piece]);
  });
}

/** The last checkpoint of a run and its pieces; `null` if there is none, or a byte of it was altered. */
export function readCheckpoint(
  database: Database,
  id: string,
): (Checkpoint & { readonly pieces: ReadonlyMap<number, Uint8Array> }) | null {
  const found = database.get<Checkpoint>(`SELECT trials, maker, state FROM checkpoints WHERE run = ${SEQ}`, [id]);
  if (found === undefined) return null;
  const rows = database.all<{ piece: number; digest: string; bytes: Uint8Array | ArrayBuffer }>(
    `SELECT piece, digest, bytes FROM checkpoint_pieces WHERE run = ${SEQ} ORDER BY piece`,
    [id],
  );
  const pieces = new Map<number, Uint8Array>();
  for (const { piece, digest, bytes } of rows) {
    const array = new Uint8Array(bytes);
    if (sha256(array) !== digest) return null;
    pieces.set(piece, array);
  }
  const { trials, maker, state } = found;
  return { trials, maker, state, pieces };
}

/** Forgets what a run would resume from. */
export function dropCheckpoint(database: Database, id: string): void {
  database.run(`DELETE FROM checkpoint_pieces WHERE run = ${SEQ}`, [id]);
  database.run(`DELETE FROM checkpoints WHERE run = ${SEQ}`, [id]);
}
