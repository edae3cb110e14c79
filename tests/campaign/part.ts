/** What a part of the campaign has done. */
export interface PartOutcome {
  /** What was counted, in words: `forgeries tried`. Printed at the end of a campaign. */
  readonly counts: Readonly<Record<string, number>>;
  /** What should not have happened, a sentence each; none where the campaign held. */
  readonly failures: readonly string[];
}

/** A part of the campaign: one line in `parts.ts`. */
export interface Part {
  /** Its option, without the dashes. */
  readonly option: string;
  readonly help: string;
  /** How many there are where the option has no number; a part without one takes no number. */
  readonly usual?: number;
  /** @param count as many as were asked for. @param tell prints how far it is, on one line */
  run(count: number, tell: (line: string) => void): Promise<PartOutcome>;
}
