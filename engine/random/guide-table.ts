/**
 * Finds the index of a uniform number among cumulative probabilities in about one step: a guide gives the first index
 * to try for each of n equal slices of (0, 1).
 *
 * Source: H.-C. Chen and Y. Asau, "On generating random variates from an empirical distribution", AIIE Transactions
 * 6(2), 1974.
 *
 * @param cumulative rising, the last exactly 1
 * @returns for u in (0, 1) the least index i with cumulative[i] ≥ u
 */
export function guideTable(cumulative: Float64Array): (u: number) => number {
  const slices = cumulative.length;
  const guide = new Uint32Array(slices);
  let at = 0;
  for (let slice = 0; slice < slices; slice++) {
    while (cumulative[at]! < slice / slices) at += 1;
    guide[slice] = at;
  }
  return (u) => {
    let i = guide[Math.floor(u * slices)]!;
    // u·n may round up into the next slice, whose first index is too high.
    while (i > 0 && cumulative[i - 1]! >= u) i -= 1;
    while (cumulative[i]! < u) i += 1;
    return i;
  };
}
