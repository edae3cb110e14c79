import { kernelOfThread } from "./block-generator.ts";
import type { Kernel } from "./kernel/kernel.ts";

/** One term of a sum: coefficient·(x − mean) of a column's numbers. */
export interface WeightedTerm {
  /** The column's index. */
  readonly column: number;
  readonly coefficient: number;
  readonly mean: number;
}

/** Writes the sum for the first `count` numbers of the columns. */
export type WeightedSum = (columns: readonly Float64Array[], out: Float64Array, count: number) => void;

/** Bytes of a term in the kernel's memory, as in kernel.wat. */
const TERM = 24;

/**
 * A sum of columns. Terms with a mean other than 0 are added first, in their order, then the others, by the kernel if all
 * columns lie in its memory, otherwise by the plain loops: identical bits.
 */
export function weightedSumOf(terms: readonly WeightedTerm[]): WeightedSum {
  const away = terms.filter(({ mean }) => mean !== 0);
  const ordered = [...away, ...terms.filter(({ mean }) => mean === 0)];
  const known: Known = { columns: [], addresses: new Int32Array(ordered.length) };
  return (columns, out, count) => {
    const kernel = kernelOfThread();
    if (kernel === null || !byKernel(kernel, ordered, known, away.length, columns, out, count))
      byLoops(ordered, columns, out, count);
  };
}

/** Columns of the last block, by term, and their addresses: the host takes long to answer where an array lies. */
interface Known {
  readonly columns: Float64Array[];
  readonly addresses: Int32Array;
}

function byKernel(
  kernel: Kernel,
  ordered: readonly WeightedTerm[],
  known: Known,
  away: number,
  columns: readonly Float64Array[],
  out: Float64Array,
  count: number,
): boolean {
  // The terms take the place of the notes on unfinished draws, none of which are left between fills.
  const { noteWords: words, noteDoubles: doubles } = kernel;
  const to = kernel.addressOf(out);
  if (to < 0 || ordered.length * TERM > doubles.byteLength) return false;
  for (let i = 0; i < ordered.length; i++) {
    const { column, coefficient, mean } = ordered[i]!;
    const numbers = columns[column]!;
    if (known.columns[i] !== numbers) {
      known.columns[i] = numbers;
      known.addresses[i] = kernel.addressOf(numbers);
    }
    const address = known.addresses[i]!;
    if (address < 0) return false;
    words[(TERM / 4) * i] = address;
    doubles[(TERM / 8) * i + 1] = coefficient;
    doubles[(TERM / 8) * i + 2] = mean;
  }
  const terms = doubles.byteOffset;
  kernel.weightedSum(to, terms, terms + TERM * away, terms + TERM * ordered.length, count);
  return true;
}

/** The plain loops: the reference for the kernel. */
export function byLoops(
  ordered: readonly WeightedTerm[],
  columns: readonly Float64Array[],
  out: Float64Array,
  count: number,
): void {
  out.fill(0, 0, count);
  for (const { column, coefficient, mean } of ordered) {
    const numbers = columns[column]!;
    for (let t = 0; t < count; t++) out[t] = out[t]! + coefficient * (numbers[t]! - mean);
  }
}
