/**
 * Most trials whose values are kept, and so their order statistics exact. Of more, values are counted on a finer grid,
 * joint regions are those of the first so many, and memory does not grow.
 */
export const KEPT_TRIALS = 2_000_000;
