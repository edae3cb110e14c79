/**
 * Trials in a block: the unit that a substream belongs to. Twelve columns of it take 240 kB, so a block's inputs stay
 * in a core's second-level cache between being drawn and being used. Four blocks make the 10⁴ trials that JCGM 101,
 * 7.9.4 asks of a batch. Changing it changes every draw.
 */
export const BLOCK_TRIALS = 2500;
