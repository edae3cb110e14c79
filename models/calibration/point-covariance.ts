import { prepare, readStudy, type Model, type Quantity, type Study, type StudyDocument } from "../../engine/index.ts";
import { checkedInputs, linearCovariance } from "../../engine/internal.ts";
import { slopeAt } from "../platinum/callendar-van-dusen.ts";
import { fitCoefficients, type ComparisonPoint, type ProbeFit } from "../platinum/fit.ts";
import { fitDeviation, slopeOf } from "../platinum/its90/deviation-fit.ts";
import { subRangeOf, type SubRange } from "../platinum/its90/sub-ranges.ts";
import { composePoints, type ComposedPoints } from "./composed-points.ts";
import { observed } from "./fit-of-points.ts";
import type { Observation } from "./point-model.ts";

/** The points of a calibration as a fit sees them. */
export interface FittedPoints {
  readonly points: readonly ComparisonPoint[];
  /** dR/dt at the points of the curve fitted without weights, Ω/°C. */
  readonly slopes: readonly number[];
  /** Sub-range of ITS-90 whose deviation function is fitted; `null` for the form of IEC 60751. */
  readonly subRange: SubRange | null;
  /**
   * Joint covariance of the points, Ω²: of R_i − (dR/dt)·t_i by the linear budget, what the points share included
   * (JCGM 100, 5.2.2; JCGM 102, 6.2).
   */
  readonly covariance: readonly (readonly number[])[];
}

/**
 * The points of a study of model `calibration-points` that fits, and their joint covariance.
 *
 * @param document its `parameters.fit` may lack the covariance, which is what is computed here
 * @throws {InputError} as `prepare` and `fitCoefficients`
 */
export function fittedPoints(document: StudyDocument): FittedPoints {
  const study = readStudy({ ...document, conformity: {}, sweep: null, sensitivity: null });
  const composed = composePoints(study.parameters ?? {});
  const { fit } = composed.parameters;
  const nominal = fit?.nominalResistance ?? 1;
  const estimates = estimatesOf(composed, study);
  const points = observed(composed, estimates).map(({ temperature, resistance }) => ({ temperature, resistance }));
  const subRange = fit?.subRange === undefined ? null : subRangeOf(fit.subRange);
  const slopes = slopesOf(points, fit?.fitC ?? false, subRange);
  const { linear, correlations } = prepare(residualModel(composed, slopes, nominal), study);
  return { points, slopes, subRange, covariance: linearCovariance(Object.values(linear), correlations) };
}

function slopesOf(points: readonly ComparisonPoint[], fitC: boolean, subRange: SubRange | null): readonly number[] {
  if (subRange !== null) {
    const { parameters } = fitDeviation(points, subRange);
    return points.map(({ temperature }) => slopeOf(subRange, parameters, temperature));
  }
  const { R0, coefficients } = fitCoefficients(points, { fitC });
  return points.map(({ temperature }) => R0 * slopeAt(coefficients, temperature));
}

/** Temperatures of the bath at the instrument, °C, point by point, at the estimates. @throws {InputError} as `prepare` */
export function temperaturesOf(document: StudyDocument): readonly number[] {
  const study = readStudy({ ...document, conformity: {} });
  const composed = composePoints(study.parameters ?? {});
  return observed(composed, estimatesOf(composed, study)).map(({ temperature }) => temperature);
}

/** The coefficients by least squares with the points' joint covariance, and χ² of the residuals (JCGM 100, H.3). */
export const fitWithCovariance = (
  { points, covariance, subRange }: FittedPoints,
  fitC: boolean,
): Pick<ProbeFit, "covariance" | "residuals" | "chiSquare" | "degreesOfFreedom" | "probability"> =>
  subRange === null ? fitCoefficients(points, { covariance, fitC }) : fitDeviation(points, subRange, covariance);

/** Estimates of the inputs, checked like those of any study. */
const estimatesOf = (composed: ComposedPoints, study: Study): Record<string, number> =>
  Object.fromEntries(
    Object.entries(checkedInputs(residualModel(composed, [], 1), study).knowledge).map(([name, { budget }]) => [
      name,
      budget.estimate,
    ]),
  );

/** A model of what the fit weighs: resistance less slope times temperature, at each point. */
function residualModel(composed: ComposedPoints, slopes: readonly number[], nominal: number): Model {
  const { points } = composed.parameters;
  const names = points.map(({ name }) => `r_${name}`);
  const point: Observation = { error: 0, temperature: 0 };
  return {
    id: "calibration-residuals",
    title: "Points of a calibration",
    inputs: composed.inputs,
    optionalInputs: composed.optionalInputs,
    measurands: Object.fromEntries(
      names.map((name): [string, Quantity] => [
        name,
        { symbol: name, meaning: "resistance less slope times temperature", unit: "Ω" },
      ]),
    ),
    safety: () => ({ warnings: [], cautions: [] }),
    evaluate: (x) => {
      const out: Record<string, number> = {};
      names.forEach((name, i) => {
        composed.observe(x, i, point);
        const R = nominal * composed.point.shownRatio(point.temperature + point.error);
        out[name] = R - slopes[i]! * point.temperature;
      });
      return out;
    },
  };
}
