// The calibration of tests/reference/joint-calibration.json (invented data, computed independently) as a document.
import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { CalibrationDocument } from "../../../models/index.ts";

interface CurveError {
  readonly t_C: number;
  readonly error_C: number;
  readonly u_C: number;
  readonly fullDerivativeU_C: number;
  readonly exactLinearHalfWidth95_C: number;
  readonly monteCarlo: Readonly<Record<"mean" | "u" | "low95" | "high95", number>> & {
    readonly standardErrors: Readonly<Record<"mean" | "u" | "low95" | "high95", number>>;
  };
}

interface Fit {
  readonly R0_ohm: number;
  readonly A: number;
  readonly B: number;
  readonly covariance_R0_A_B: readonly (readonly number[])[];
  readonly residuals_ohm: readonly number[];
  readonly chiSquared: number;
  readonly p: number;
  readonly monteCarlo: {
    readonly mean_R0_A_B: readonly number[];
    readonly covariance_R0_A_B: readonly (readonly number[])[];
  };
  readonly curveError: readonly CurveError[];
}

interface Reference {
  readonly inputs: {
    readonly certificateCorrection_C: number;
    readonly certificateU_k2_C: number;
    readonly driftHalfWidth_C: number;
    readonly readoutHalfWidth_ohm: number;
    readonly points: readonly {
      readonly bath: string;
      readonly nominal_C: number;
      readonly referenceIndications_C: readonly number[];
      readonly resistances_ohm: readonly number[];
      readonly axialHalfWidth_C: number;
      readonly radialHalfWidth_C: number;
      readonly stabilityHalfWidth_C: number;
    }[];
  };
  readonly results: {
    readonly errors: readonly {
      readonly referenceTemperature_C: number;
      readonly error_C: number;
      readonly u_C: number;
      readonly effectiveDegreesOfFreedom: number;
      readonly linearBudgetU95_C: number;
      readonly exactLinear95_C: readonly [number, number];
      readonly monteCarlo: Readonly<Record<"mean" | "u" | "low95" | "high95", number>> & {
        readonly standardErrors: Readonly<Record<"mean" | "u" | "low95" | "high95", number>>;
      };
    }[];
    readonly covariance_C2: Readonly<Record<"linearBudget" | "distribution", readonly (readonly number[])[]>>;
    readonly correlation: Readonly<Record<"linearBudget", readonly (readonly number[])[]>>;
    readonly classA: {
      readonly limits_C: readonly number[];
      readonly eachExactLinear: readonly number[];
      readonly allExactLinear: number;
      readonly productOfEach_wrong: number;
    };
    readonly residualCovariance_ohm2: readonly (readonly number[])[];
    readonly slopeOfLeastSquaresCurve_ohm_per_C: readonly number[];
    readonly fits: Readonly<Record<"ols" | "gls" | "olsIndependent" | "wlsIndependent", Fit>>;
  };
}

export const REFERENCE = JSON.parse(
  readFileSync(join(import.meta.dirname, "../../reference/joint-calibration.json"), "utf8"),
) as Reference;

const zero = { distribution: "constant", value: 0 } as const;
const rectangular = (halfWidth: number) => ({ distribution: "rectangular", estimate: 0, halfWidth }) as const;

/** Everything but the seed and the number of trials is the reference's. */
export function fiveBaths(more: Partial<CalibrationDocument> = {}): CalibrationDocument {
  const { inputs } = REFERENCE;
  return {
    title: "Pt100 at five baths",
    baths: Object.fromEntries(
      inputs.points.map(({ bath, axialHalfWidth_C, radialHalfWidth_C, stabilityHalfWidth_C }) => [
        bath,
        {
          common: { bathAxial: rectangular(axialHalfWidth_C), bathRadial: rectangular(radialHalfWidth_C) },
          each: { bathStability: rectangular(stabilityHalfWidth_C) },
        },
      ]),
    ),
    instruments: [
      {
        id: "HF-021",
        tolerance: { class: "A", element: "wire" },
        common: {
          probeReadout: rectangular(inputs.readoutHalfWidth_ohm),
          probeResolution: zero,
          selfHeating: zero,
          immersion: zero,
          hysteresis: zero,
          repeatability: zero,
        },
      },
    ],
    common: {
      referenceCertificate: {
        distribution: "normal",
        estimate: inputs.certificateCorrection_C,
        expandedUncertainty: inputs.certificateU_k2_C,
        coverageFactor: 2,
      },
      referenceDrift: rectangular(inputs.driftHalfWidth_C),
      referenceReadout: zero,
    },
    points: inputs.points.map(({ bath, nominal_C, referenceIndications_C, resistances_ohm }) => ({
      nominal: nominal_C,
      bath,
      inputs: { referenceReading: { distribution: "readings", values: [...referenceIndications_C] } },
      instruments: { "HF-021": { probeResistance: { distribution: "readings", values: [...resistances_ohm] } } },
    })),
    trials: 200_000,
    seed: "five-baths",
    ...more,
  };
}
