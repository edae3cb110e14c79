/** A word in one language. */
export interface WordText {
  /** As the standards print it; for words of this program as the page prints them. */
  readonly term: string;
  /** One to three sentences that need no other reading. */
  readonly meaning: string;
}

/** A word of the page, the report and the terminal, with what it means. */
export interface Word {
  /** Stands in addresses: small letters and hyphens, never changed once released. */
  readonly id: string;
  /** With `_` before a subscript, as models write symbols; `null` if the word has none. */
  readonly symbol: string | null;
  readonly en: WordText;
  readonly de: WordText;
  /** Document and clause that define or use it; none for the program's own words. */
  readonly sources: readonly string[];
}
