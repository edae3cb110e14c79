import { countedOn } from "../statistics/counted-sample.ts";
import { KEPT_TRIALS } from "../statistics/kept-trials.ts";
import { ownRoom, type Room } from "../statistics/binned-run.ts";
import { openTrials, type Batch, type TrialSource } from "./batch.ts";

const NONE = new Float64Array(0);
const NO_STARTS = new Uint16Array(0);

/**
 * Opens a study's trials for a machine far away: as `openTrials`, but batches whose trials a run does not keep come
 * condensed. Their values are counted on the run's grid, as `Accumulation` would count them; moments, intervals and sums of
 * the batch stay as they are. Added in order, they give the same accumulation, bit for bit.
 *
 * Of a run of known length the first condensed batch has the counts of all: the accumulation is whole only after the last.
 * An adaptive run may end after any batch, so each has its own.
 *
 * @returns draws the batches of these sizes, from trial `first` on; `stopped` is asked before each, and ends them
 * @throws {ModelError} as `openTrials`
 */
export function openCondensed(
  source: TrialSource,
): (first: number, counts: readonly number[], stopped: () => boolean) => readonly Batch[] {
  // Arrays of batches that are counted at once and not sent serve the next batch.
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
    const batches: Batch[] = [];
    let gathering: ReturnType<typeof countedOn>[] | null = null;
    let holder = -1;
    let at = first;
    const close = (): void => {
      if (gathering === null) return;
      const samples = gathering;
      const batch = batches[holder]!;
      batches[holder] = {
        ...batch,
        measurands: batch.measurands.map((part, i) => ({ ...part, counted: samples[i]!.state })),
      };
      gathering = null;
    };
    for (const count of counts) {
      if (stopped()) break;
      keeping = at + count <= KEPT_TRIALS;
      const batch = draw(at, count);
      if (keeping) batches.push(batch);
      else {
        if (gathering === null || source.settling) {
          close();
          gathering = batch.measurands.map(({ grid }) => countedOn(grid));
          holder = batches.length;
        }
        const samples = gathering;
        batch.measurands.forEach(({ values }, i) => samples[i]!.add(values));
        batches.push(condensed(batch));
        spare.push(...used.splice(0));
      }
      at += count;
    }
    close();
    return batches;
  };
}

/** A batch without its values. */
const condensed = (batch: Batch): Batch => ({
  ...batch,
  measurands: batch.measurands.map((part) => ({ ...part, values: NONE, starts: NO_STARTS })),
  joint: batch.joint === null ? null : { ...batch.joint, columns: batch.joint.columns.map(endsOf) },
});

/** All that is asked of the values of trials that are not kept: whether they vary (`JointGathering`). */
function endsOf(column: Float64Array): Float64Array {
  let [least, greatest] = [Infinity, -Infinity];
  for (const value of column) {
    if (value < least) least = value;
    if (value > greatest) greatest = value;
  }
  return Float64Array.of(least, greatest);
}
