/** The four figures the adaptive procedure watches (JCGM 101, 7.9.4). */
export const FIGURES = ["estimate", "standardUncertainty", "low", "high"] as const;
export type Figure = (typeof FIGURES)[number];

/** How the figures stood when this many trials had been made. */
export interface SettlingPoint {
  readonly trials: number;
  /** Average of each figure over the batches so far, or `null` where the distribution has none. */
  readonly averages: Readonly<Record<Figure, number | null>>;
  /** Twice the standard deviation of that average: 2·s_z. */
  readonly doubled: Readonly<Record<Figure, number | null>>;
}
