/**
 * Trials in a block, the unit of a substream. Twelve columns of a block take 240 kB, so its inputs stay in a core's
 * second-level cache between drawing and evaluation. Four blocks make the 10⁴ trials that JCGM 101, 7.9.4 requires of a
 * batch. Changing it changes every draw.
 */
export const BLOCK_TRIALS = 2500;
