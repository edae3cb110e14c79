/**
 * Greatest number of trials whose values are kept, so that their order statistics are exact. Further values are counted
 * on a finer grid, joint regions come from this number of first trials, and memory does not grow.
 */
export const KEPT_TRIALS = 2_000_000;
