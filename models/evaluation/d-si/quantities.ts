/** An uncertainty in one of the three ways of the D-SI data model. */
export type DsiUncertainty = {
  /** As the file names it: `normal`, `uniform`…; `null` if it does not. */
  readonly distribution: string | null;
} & (
  | { readonly kind: "standard"; readonly standard: number }
  | {
      readonly kind: "expanded";
      readonly expanded: number;
      readonly coverageFactor: number;
      readonly coverageProbability: number | null;
    }
  | {
      readonly kind: "interval";
      readonly lower: number;
      readonly upper: number;
      readonly coverageProbability: number;
      readonly standard: number;
    }
);

/** One `si:real`: value, unit, and uncertainty. */
export interface DsiReal {
  readonly value: number;
  /** The value as written: trailing zeros state how far it was read. */
  readonly text: string;
  readonly decimals: number;
  /** In D-SI notation: `\degreecelsius`, `\milli\kelvin`. */
  readonly unit: string;
  readonly uncertainty: DsiUncertainty | null;
  /** What the file calls this value, beside the name of its quantity. */
  readonly label: string | null;
}

/** A quantity of a certificate's result: one real, or a list of them. */
export interface DsiQuantity {
  /** Names in the languages of the file. */
  readonly names: readonly string[];
  readonly refType: string | null;
  /** The quantity in each unit the file gives it in; each with as many reals. */
  readonly forms: readonly (readonly DsiReal[])[];
}

/** What a Digital Calibration Certificate or a plain D-SI file holds, as far as it is read. */
export interface DsiFile {
  readonly quantities: readonly DsiQuantity[];
  /** Serial of the item and other identifications. */
  readonly identifications: readonly string[];
  readonly certificate: string | null;
  /** Last day of the calibration, or the day of issue. */
  readonly calibrated: string | null;
  readonly notes: readonly string[];
}
