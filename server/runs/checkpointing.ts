import { VERSION } from "../../engine/index.ts";
import { buildFacts } from "../record/build-facts.ts";
import type { Store } from "../store/store.ts";
import { pack, unpack } from "./pack.ts";
import type { GatheredRun } from "./run-study.ts";

/** Bytes written in one transaction: between two, the server answers. */
const AT_ONCE = 4_000_000;

/** What the rest of a run must have in common with its beginning, or its bits may differ: then it begins anew. */
const MAKER = [
  VERSION,
  buildFacts.engineDigest,
  buildFacts.modelsDigest,
  `V8 ${process.versions.v8}`,
  process.arch,
].join(" ");

/** Keeps what a run has gathered, at intervals, so that it goes on after the server has stopped. */
export interface Checkpoints {
  /** What an earlier server has kept of the run; `null` if nothing is kept from which the figures reproduce exactly. */
  resume(): GatheredRun | null;
  /** Called after each batch: keeps what is gathered if it is time to. */
  offer(trials: number, gathered: () => GatheredRun): void;
  /** Keeps what is gathered, at once. */
  keep(trials: number, gathered: GatheredRun): void;
  /** Writes nothing from now on. */
  close(): void;
}

/**
 * Opens the checkpoints of a run. One measurand's kept trials are pieces that are written once, 8 bytes a trial and 8 kB a
 * batch up to two million trials (18 MB; twice the bytes a trial and measurand if there are several). What is written
 * anew each time is 1 MB a measurand beyond two million trials, and some kilobytes before.
 *
 * @param every milliseconds from one checkpoint to the next
 * @param warn called once if checkpoints cannot be written: the run goes on without
 */
export function openCheckpoints(store: Store, id: string, every: number, warn: (message: string) => void): Checkpoints {
  const numbers = new WeakMap<object, number>();
  let next = 0;
  /** Numbers of the pieces that the store has. */
  let written = new Set<number>();
  let last = performance.now();
  let writing = false;
  let closed = false;

  const numberOf = (array: object): number => {
    let number = numbers.get(array);
    if (number === undefined) numbers.set(array, (number = next++));
    return number;
  };

  const giveUp = (error: unknown): void => {
    closed = true;
    warn(
      `Run ${id} goes on without checkpoints, and would begin anew if the server stopped: ${error instanceof Error ? error.message : String(error)}`,
    );
  };

  /** Writes in steps; the caller decides what happens between them. */
  function* steps(trials: number, gathered: GatheredRun): Generator<void> {
    const { state, pieces } = pack(gathered, numberOf);
    const missing = [...pieces].filter(([piece]) => !written.has(piece));
    while (missing.length > 0) {
      const some = [];
      for (let bytes = 0; bytes < AT_ONCE && missing.length > 0;) {
        const [piece, array] = missing.shift()!;
        // Copied, for the library reads no shared memory of another thread safely.
        some.push({ piece, bytes: new Uint8Array(array.buffer, array.byteOffset, array.byteLength).slice() });
        bytes += array.byteLength;
      }
      store.writePieces(id, some);
      for (const { piece } of some) written.add(piece);
      yield;
    }
    const dropped = [...written].filter((piece) => !pieces.has(piece));
    store.writeCheckpoint(id, { trials, maker: MAKER, state }, dropped);
    written = new Set(pieces.keys());
  }

  const writeMeanwhile = async (trials: number, gathered: GatheredRun): Promise<void> => {
    writing = true;
    try {
      for (const _ of steps(trials, gathered)) {
        await new Promise<void>((resolve) => setImmediate(resolve));
        if (closed) return;
      }
    } catch (error) {
      giveUp(error);
    } finally {
      writing = false;
      last = performance.now();
    }
  };

  return {
    resume() {
      const found = store.readCheckpoint(id);
      try {
        if (found !== null && found.maker === MAKER) {
          next = Math.max(-1, ...found.pieces.keys()) + 1;
          const gathered = unpack(found.state, found.pieces, (array, piece) => {
            numbers.set(array, piece);
            written.add(piece);
          }) as GatheredRun;
          return gathered;
        }
      } catch (error) {
        warn(`The checkpoint of run ${id} cannot be used: ${error instanceof Error ? error.message : String(error)}`);
      }
      // What is left of it would only be in the way.
      written = new Set();
      next = 0;
      store.dropCheckpoint(id);
      return null;
    },
    offer(trials, gathered) {
      if (closed || writing || performance.now() - last < every) return;
      void writeMeanwhile(trials, gathered());
    },
    keep(trials, gathered) {
      if (closed || writing) return;
      try {
        for (const _ of steps(trials, gathered));
      } catch (error) {
        giveUp(error);
      }
    },
    close() {
      closed = true;
    },
  };
}
