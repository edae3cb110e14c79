import { KEPT_TRIALS } from "../statistics/kept-trials.ts";
import { ownRoom, type Room } from "../statistics/binned-run.ts";
import { openTrials, type Batch, type TrialSource } from "./batch.ts";
import { openCondensing, type CondensedBatches } from "./condensed-batches.ts";

/** Trials as they are sent. */
export interface Condensed {
  /** Batches whose trials a run keeps: they come first. */
  readonly kept: readonly Batch[];
  /** All others, in order. */
  readonly condensed: readonly CondensedBatches[];
}

/**
 * Opens a study's trials for a machine far away: as `openTrials`, but batches whose trials a run does not keep come
 * condensed. Added in order (`batchesIn`), they give the same accumulation, bit for bit.
 *
 * Of a run of known length they are condensed together: the accumulation is whole only after the last. An adaptive run may
 * end after any batch, so each is condensed by itself.
 *
 * @returns draws the batches of these sizes, from trial `first` on; `null` if `stopped`, which is asked before each, ends them
 * @throws {ModelError} as `openTrials`
 */
export function openCondensed(
  source: TrialSource,
): (first: number, counts: readonly number[], stopped: () => boolean) => Condensed | null {
  // Arrays of batches that are condensed and not sent serve the next batch.
  const spare: { readonly bytes: number; readonly buffer: ArrayBuffer }[] = [];
  const used: typeof spare = [];
  let keeping = true;
  const room: Room = (bytes) => {
    if (keeping) return ownRoom(bytes);
    const at = spare.findIndex((one) => one.bytes >= bytes);
    const found = at < 0 ? { bytes, buffer: new ArrayBuffer(bytes) } : spare.splice(at, 1)[0]!;
    used.push(found);
    return { buffer: found.buffer, offset: 0 };
  };
  const draw = openTrials(source, room);
  return (first, counts, stopped) => {
    const kept: Batch[] = [];
    const condensing: ReturnType<typeof openCondensing>[] = [];
    let at = first;
    for (const [i, count] of counts.entries()) {
      if (stopped()) return null;
      keeping = at + count <= KEPT_TRIALS;
      const batch = draw(at, count);
      if (keeping) kept.push(batch);
      else {
        if (condensing.length === 0 || source.settling)
          condensing.push(openCondensing(at, source.settling ? 1 : counts.length - i));
        condensing.at(-1)!.add(batch);
        spare.push(...used.splice(0));
      }
      at += count;
    }
    return { kept, condensed: condensing.map((one) => one.result()) };
  };
}
