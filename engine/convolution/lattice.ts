/** Equally spaced points over which a sum is convolved: k·step for k from −cells/2 to cells/2 − 1, as a circle. */
export interface Lattice {
  /** Half of the circle, a power of two in the measurand's unit. */
  readonly halfWidth: number;
  /** Number of points, a power of two. */
  readonly cells: number;
  readonly step: number;
  /**
   * What lies further from the estimate than this in one term is put at this distance: at half of the half-width, the rest
   * is a guard against wrap-around, unless the terms together cannot reach the half-width.
   */
  readonly reach: number;
  readonly guarded: boolean;
}

export const latticeOf = (halfWidth: number, cells: number, guarded: boolean): Lattice => ({
  halfWidth,
  cells,
  step: (2 * halfWidth) / cells,
  reach: guarded ? halfWidth / 2 : halfWidth,
  guarded,
});
