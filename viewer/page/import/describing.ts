/** What the reader states of the study beside the table. */
export interface Describing {
  readonly title: string;
  readonly symbol: string;
  readonly meaning: string;
  readonly unit: string;
}

export const NOTHING_SAID: Describing = { title: "", symbol: "", meaning: "", unit: "" };
