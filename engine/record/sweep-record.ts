/** Both methods' result at one point of a sweep. */
export interface SweepPoint {
  readonly at: number;
  readonly trials: number;
  readonly measurands: Readonly<
    Record<
      string,
      {
        readonly linear: {
          readonly estimate: number;
          readonly standardUncertainty: number;
          readonly coverageFactor: number;
          readonly expandedUncertainty: number;
          readonly interval: readonly [number, number];
        };
        readonly monteCarlo: {
          readonly estimate: number | null;
          readonly standardUncertainty: number | null;
          /** Of the kind the study compares with. */
          readonly interval: readonly [number, number];
        };
        readonly validated: boolean;
        readonly coverageFactorNeeded: number | null;
      }
    >
  >;
}

export interface SweepRecord {
  readonly quantity: string;
  readonly unit: string;
  readonly points: readonly SweepPoint[];
}
