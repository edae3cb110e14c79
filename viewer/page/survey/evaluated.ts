/** A survey in the list of those at hand. */
export interface SurveySummary {
  readonly id: string;
  readonly title: string;
  readonly notes: string | null;
  readonly log: string;
  /** Its files were opened on this page; the server keeps them until it stops. */
  readonly opened?: boolean;
}

/** A study that the survey's quantities can go into. */
export interface FittingStudy {
  readonly id: string;
  readonly title: string;
  readonly sameBath: boolean;
}

/** A thermometer's log, drawn small: lowest and highest reading, °C, in equal times, s. */
export interface Outline {
  readonly thermometer: string;
  readonly times: readonly number[];
  readonly lowest: readonly number[];
  readonly highest: readonly number[];
}

/** Times in s, differences in K. */
export interface StabilityWindow {
  readonly from: number;
  readonly to: number;
  readonly samples: number;
  readonly halfRange: number;
  readonly standardDeviation: number;
  readonly slope: number;
  readonly fluctuation: number;
}

export interface AllanPoint {
  readonly time: number;
  readonly averaged: number;
  readonly deviation: number;
  readonly differences: number;
}

/** mm and K. */
export interface ZonePoint {
  readonly position: string;
  readonly depth: number;
  readonly radius: number;
  readonly direction: string | null;
  readonly difference: number;
  readonly standardUncertainty: number;
  /** `null` where there are infinitely many. */
  readonly degreesOfFreedom: number | null;
}

export interface ZoneComparison {
  readonly position: string;
  readonly pair: readonly [string, string];
  readonly method: "swapped" | "moved";
  /** Steps of the description it rests on, from 0. */
  readonly steps: readonly number[];
  readonly difference: number;
  readonly offset: number;
  readonly standardUncertainty: number;
  readonly degreesOfFreedom: number | null;
}

export interface OffsetDetermination {
  readonly pair: readonly [string, string];
  readonly offset: number;
  readonly standardUncertainty: number;
  readonly from: string;
}

export interface AxisEvaluation {
  readonly axis: "axial" | "radial";
  readonly zone: readonly [number, number];
  readonly limits: { readonly lowest: number; readonly highest: number; readonly noise: number };
  readonly quantity: {
    readonly estimate: number;
    readonly halfWidth: number;
    readonly distribution: string;
    readonly because: string;
  };
  readonly smaller: readonly {
    readonly from: number;
    readonly to: number;
    readonly halfWidth: number;
    readonly gain: number;
  }[];
}

export interface Check {
  readonly check: string;
  readonly passed: boolean;
  readonly found: string;
}

/** An evaluated survey as the server gives it. */
export interface EvaluatedSurvey {
  readonly id: string;
  readonly files: readonly { readonly name: string; readonly sha256: string }[];
  readonly opened: boolean;
  readonly calibrationMinutes: number;
  readonly arrangement: string;
  readonly remark: string | null;
  readonly notes: readonly string[];
  /** Lowest and highest reading in the worst window, °C. */
  readonly worst: readonly [number, number];
  readonly statements: Readonly<Record<string, Readonly<Record<string, unknown>>>>;
  readonly evaluation: {
    readonly title: string;
    readonly samplings: Readonly<
      Record<
        string,
        { readonly samples: number; readonly from: number; readonly to: number; readonly interval: number }
      >
    >;
    /** Settled parts of the steps. */
    readonly steps: readonly {
      readonly step: number;
      readonly from: number;
      readonly to: number;
      readonly at: Readonly<Record<string, string>>;
    }[];
    readonly stay: {
      readonly thermometer: string;
      readonly position: string;
      readonly from: number;
      readonly to: number;
    };
    readonly stability: {
      readonly window: number;
      readonly windows: number;
      readonly worst: StabilityWindow;
      readonly best: StabilityWindow;
      readonly whole: StabilityWindow;
      readonly allan: readonly AllanPoint[];
      readonly reasoning: readonly string[];
    };
    readonly map: {
      readonly points: readonly ZonePoint[];
      readonly reference: ZonePoint;
      readonly comparisons: readonly ZoneComparison[];
      readonly offsets: readonly OffsetDetermination[];
      readonly unresolved: readonly string[];
    };
    readonly axial: AxisEvaluation | null;
    readonly radial: AxisEvaluation | null;
    readonly outlines: readonly Outline[];
    readonly safety: {
      readonly warnings: readonly { readonly place: string; readonly warning: string; readonly because: string }[];
      readonly unknown: readonly string[];
      readonly cautions: readonly string[];
    } | null;
    readonly checks: readonly Check[];
    readonly reasoning: readonly string[];
  };
}

/** The survey on the sheet, with the studies it can go into, those of its own bath first. */
export interface ShownSurvey {
  readonly survey: EvaluatedSurvey;
  readonly studies: readonly FittingStudy[];
}
