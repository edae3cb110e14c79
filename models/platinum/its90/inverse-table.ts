/**
 * Parabolas for the inverse of a smooth rising function, cell by cell: a start so close that one step of Newton's, with
 * the parabola's own slope, leaves nothing. It takes the place of the published approximate inverse and of the slope of
 * the reference function: a third of the work.
 */
export interface InverseTable {
  readonly low: number;
  readonly cells: number;
  readonly width: number;
  /** Cells per unit. */
  readonly density: number;
  /** Middle value, slope and half the curvature of each cell. */
  readonly parabolas: Float64Array;
}

/**
 * @param low start of the range of arguments of the inverse
 * @param inverse the exact inverse, asked three times a cell
 */
export function inverseTable(low: number, high: number, cells: number, inverse: (w: number) => number): InverseTable {
  const width = (high - low) / cells;
  const parabolas = new Float64Array(3 * cells);
  // Chebyshev's nodes: the error of the parabola is then as even as can be.
  const reach = (width / 4) * Math.sqrt(3);
  for (let cell = 0; cell < cells; cell++) {
    const middle = low + (cell + 0.5) * width;
    const [before, at, after] = [inverse(middle - reach), inverse(middle), inverse(middle + reach)];
    parabolas.set([at, (after - before) / (2 * reach), (after - 2 * at + before) / (2 * reach * reach)], 3 * cell);
  }
  return { low, cells, width, density: 1 / width, parabolas };
}
