/** Fewer values than this are sorted, which is faster. */
const FEW = 24;

/**
 * Puts the value of rank `rank` (from 1) of the finite values from index `from` to below `to` in its place, smaller
 * ones before it, larger ones behind, and returns it.
 *
 * Source: C. A. R. Hoare, Algorithm 65 "Find", Comm. ACM 4(7), 1961, with the median of three as the pivot.
 */
export function select(values: Float64Array, rank: number, from = 0, to = values.length): number {
  const k = from + rank - 1;
  let low = from;
  let high = to - 1;
  while (high - low > FEW) {
    const a = values[low]!;
    const b = values[(low + high) >>> 1]!;
    const c = values[high]!;
    const pivot = a < b ? (b < c ? b : a < c ? c : a) : a < c ? a : b < c ? c : b;
    let i = low;
    let j = high;
    while (i <= j) {
      while (values[i]! < pivot) i += 1;
      while (values[j]! > pivot) j -= 1;
      if (i > j) break;
      const value = values[i]!;
      values[i] = values[j]!;
      values[j] = value;
      i += 1;
      j -= 1;
    }
    if (k <= j) high = j;
    else if (k >= i) low = i;
    else return values[k]!;
  }
  for (let i = low + 1; i <= high; i++) {
    const value = values[i]!;
    let j = i - 1;
    while (j >= low && values[j]! > value) {
      values[j + 1] = values[j]!;
      j -= 1;
    }
    values[j + 1] = value;
  }
  return values[k]!;
}

/** From this number of values on, a sample of them bounds the search. */
const MANY = 20_000;
const SAMPLE = 1024;
/** Standard deviations of a rank in the sample that the value asked for is looked for within. */
const MARGIN = 6;

/** Two values between which the one of a rank lies, and more values than lie between them as a rule. */
export interface RankLimits {
  readonly low: number;
  readonly high: number;
  readonly room: number;
}

/** The limits of the value of rank `rank` among `count`, from a sample of them, which is sorted by this. */
export function limitsOfRank(sample: Float64Array, rank: number, count: number): RankLimits {
  const size = sample.length;
  sample.sort();
  const share = rank / count;
  const margin = MARGIN * Math.sqrt(size * share * (1 - share)) + 1;
  const lower = Math.floor(share * size - margin);
  const upper = Math.ceil(share * size + margin);
  return {
    low: lower < 0 ? -Infinity : sample[lower]!,
    high: upper >= size ? Infinity : sample[upper]!,
    room: Math.ceil((2 * count * (upper - lower + 1)) / size),
  };
}

/**
 * The value of rank `rank` (from 1) of finite values in random order. A sample of them gives two values between which
 * it lies; one pass then counts the values below and collects those between. Reorders `values`.
 *
 * Source: R. W. Floyd, R. L. Rivest, "Expected time bounds for selection", Comm. ACM 18(3), 1975.
 */
export function selectOfMany(values: Float64Array, rank: number): number {
  const count = values.length;
  if (count < MANY) return select(values, rank);
  const sample = new Float64Array(SAMPLE);
  for (let i = 0; i < SAMPLE; i++) sample[i] = values[Math.floor((i * count) / SAMPLE)]!;
  const { low, high, room } = limitsOfRank(sample, rank, count);
  const between = new Float64Array(room);
  let below = 0;
  let found = 0;
  for (let i = 0; i < count; i++) {
    const value = values[i]!;
    if (value < low) below += 1;
    else if (value <= high) between[found++] = value; // past its end nothing is written
  }
  // The values are not in random order, or many are equal: search all of them.
  if (rank <= below || rank > below + found || found > between.length) return select(values, rank);
  return select(between, rank - below, 0, found);
}
