/**
 * A large sample kept as sorted runs, one a batch of trials. Order statistics and counts are found by searching the
 * runs, so the whole is never sorted: only the tails that a shortest interval can touch are.
 */
export class OrderedSample {
  readonly #runs: Float64Array[] = [];
  #count = 0;
  #ladder: Ladder | null = null;
  #least = Infinity;
  #greatest = -Infinity;

  /** Takes over a run sorted upwards. */
  add(sortedRun: Float64Array): void {
    if (sortedRun.length === 0) return;
    this.#runs.push(sortedRun);
    this.#count += sortedRun.length;
    this.#ladder = null;
    this.#least = Math.min(this.#least, sortedRun[0]!);
    this.#greatest = Math.max(this.#greatest, sortedRun[sortedRun.length - 1]!);
  }

  get count(): number {
    return this.#count;
  }
  get least(): number {
    return this.#least;
  }
  get greatest(): number {
    return this.#greatest;
  }

  /** How many values are ≤ x. */
  countUpTo(x: number): number {
    let total = 0;
    for (const run of this.#runs) total += upperBound(run, x);
    return total;
  }

  /** The value of this rank, from 1 (least) to `count`. */
  orderStatistic(rank: number): number {
    // Halve the value range until few candidates are left, then sort those. `low` has fewer than `rank` values up to
    // it, `high` at least `rank`.
    const { steps, counts } = (this.#ladder ??= this.#makeLadder());
    const step = upperBound(counts, rank - 1);
    if (step === 0) return steps[0]!;
    let low = steps[step - 1]!;
    let high = steps[step]!;
    let below = counts[step - 1]!;
    let upTo = counts[step]!;
    let from: number;
    while (upTo - below > 256) {
      from = low / 2 + high / 2;
      if (from <= low || from >= high) return high; // neighbouring doubles: all candidates are equal
      const count = this.countUpTo(from);
      if (count >= rank) {
        high = from;
        upTo = count;
      } else {
        low = from;
        below = count;
      }
    }
    return this.#between(low, high)[rank - below - 1]!;
  }

  /** Evenly spaced values from least to greatest, and how many values are up to each: where a search may start. */
  #makeLadder(): Ladder {
    const rungs = Math.max(1, Math.min(4096, Math.floor(this.#count / 64)));
    const width = this.#greatest / rungs - this.#least / rungs;
    const steps = new Float64Array(rungs + 1);
    for (let i = 0; i < rungs; i++) steps[i] = Math.min(this.#greatest, this.#least + i * width);
    steps[rungs] = this.#greatest;
    const counts = new Float64Array(rungs + 1);
    // One walk along each run, which is sorted like the steps.
    for (const run of this.#runs) {
      let at = 0;
      for (let i = 0; i <= rungs; i++) {
        while (at < run.length && run[at]! <= steps[i]!) at += 1;
        counts[i]! += at;
      }
    }
    return { steps, counts };
  }

  /** Values of ranks 1 to `count`, sorted. */
  lowest(count: number): Float64Array {
    const limit = this.orderStatistic(count);
    return this.#between(-Infinity, limit).subarray(0, count);
  }

  /** Values of the `count` highest ranks, sorted upwards. */
  highest(count: number): Float64Array {
    const limit = this.orderStatistic(this.#count - count + 1);
    const parts = this.#runs.map((run) => run.subarray(lowerBound(run, limit)));
    const all = gather(parts);
    return all.subarray(all.length - count);
  }

  /** Sorted values in (low, high]. */
  #between(low: number, high: number): Float64Array {
    return gather(this.#runs.map((run) => run.subarray(low === -Infinity ? 0 : upperBound(run, low), upperBound(run, high))));
  }
}

interface Ladder {
  readonly steps: Float64Array;
  readonly counts: Float64Array;
}

function gather(parts: readonly Float64Array[]): Float64Array {
  const all = new Float64Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    all.set(part, at);
    at += part.length;
  }
  return all.sort();
}

/** Number of values ≤ x in a sorted run. */
function upperBound(run: Float64Array, x: number): number {
  let low = 0;
  let high = run.length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if (run[middle]! <= x) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** Number of values < x in a sorted run. */
function lowerBound(run: Float64Array, x: number): number {
  let low = 0;
  let high = run.length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if (run[middle]! < x) low = middle + 1;
    else high = middle;
  }
  return low;
}
