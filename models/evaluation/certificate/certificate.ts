import * as z from "zod";
import { refuse, type Statement } from "../../../engine/index.ts";
import { daySchema } from "../text/document.ts";
import { figure, millikelvin } from "../check.ts";
import { withMinus } from "../text/minus.ts";
import { limitsStatement } from "../survey/statement.ts";
import { normalQuantile, tQuantile } from "../readings/quantiles.ts";

const pointSchema = z
  .strictObject({
    temperature: z.number().describe("Calibration point, °C"),
    correction: z.number().default(0).describe("To be added to the indication, K"),
    standardUncertainty: z.number().gt(0).optional().describe("u, K"),
    expandedUncertainty: z.number().gt(0).optional().describe("U, K"),
    coverageFactor: z.number().gt(0).optional().describe("k that U was stated with"),
    coverageProbability: z.number().gt(0).lt(1).optional().describe("Coverage probability that U was stated with"),
    effectiveDegreesOfFreedom: z
      .number()
      .gt(0)
      .optional()
      .describe("ν_eff of the point; without it, U is taken as exactly known"),
  })
  .refine(
    (point) =>
      point.standardUncertainty !== undefined
        ? point.expandedUncertainty === undefined &&
          point.coverageFactor === undefined &&
          point.coverageProbability === undefined
        : point.expandedUncertainty !== undefined &&
          (point.coverageFactor === undefined) !== (point.coverageProbability === undefined),
    {
      message:
        "standardUncertainty alone, or expandedUncertainty with exactly one of coverageFactor and coverageProbability",
    },
  );

const earlierSchema = z.strictObject({
  calibrated: daySchema,
  certificate: z.string().optional(),
  points: z.array(z.strictObject({ temperature: z.number(), correction: z.number() })).min(1),
});

/** The certificate of a reference thermometer, as far as a budget needs it. */
export const certificateSchema = z.strictObject({
  $schema: z.string().optional(),
  thermometer: z.string().min(1).describe("Serial of the thermometer"),
  certificate: z.string().optional().describe("Number of the certificate"),
  laboratory: z.string().optional().describe("Who calibrated"),
  calibrated: daySchema.describe("Day of the calibration, YYYY-MM-DD"),
  due: daySchema.optional().describe("Day the next calibration is due"),
  intervalMonths: z.number().gt(0).optional().describe("Interval between calibrations, if no day is given"),
  points: z.array(pointSchema).min(1).describe("Calibration points, any order"),
  history: z.array(earlierSchema).optional().describe("Earlier calibrations of the same thermometer"),
  notes: z.string().optional(),
});

/**
 * The certificate of a reference thermometer that has been checked, as far as a budget needs it. `readCertificate`
 * returns it. Temperatures are in °C, corrections and uncertainties in K.
 */
export type Certificate = z.output<typeof certificateSchema>;
/**
 * One point of a certificate: the temperature, °C, the correction to be added to the indication, K, and its
 * uncertainty, K: u alone, or U with one of its coverage factor and its coverage probability (JCGM 100, 4.3.3 and
 * 4.3.4).
 */
export type CertificatePoint = z.output<typeof pointSchema>;
/** A certificate description as a person writes it. */
export type CertificateDocument = z.input<typeof certificateSchema>;

/** What a certificate states at one temperature. */
export interface CertificateValue {
  readonly temperature: number;
  readonly correction: number;
  readonly standardUncertainty: number;
  /** `Infinity` if the certificate gives none. */
  readonly degreesOfFreedom: number;
  /** U and k as stated, if one k holds. */
  readonly expandedUncertainty: number | null;
  readonly coverageFactor: number | null;
  /** Points it comes from. */
  readonly between: readonly number[];
  /**
   * How far the correction may leave the straight line between them, K: as the parabola through the nearest three points
   * does. `null` at a point, where nothing is interpolated, and if there are only two.
   */
  readonly interpolation: number | null;
  readonly reasoning: readonly string[];
}

/** k of a point: as stated, or the quantile of t (normal without ν_eff) at its coverage probability. */
function factorOf({ coverageFactor, coverageProbability, effectiveDegreesOfFreedom }: CertificatePoint): number {
  if (coverageFactor !== undefined) return coverageFactor;
  const upper = (1 + coverageProbability!) / 2;
  return effectiveDegreesOfFreedom === undefined ? normalQuantile(upper) : tQuantile(upper, effectiveDegreesOfFreedom);
}

const standardOf = (point: CertificatePoint): number =>
  point.standardUncertainty ?? point.expandedUncertainty! / factorOf(point);

/**
 * Correction and uncertainty of a reference at a temperature: as stated at a point, interpolated linearly between two.
 *
 * Linear interpolation of u treats the two corrections as fully correlated, which is the most that interpolating them
 * can give. What the correction does between the points beyond a straight line is the input `referenceInterpolation` of
 * `bath-comparison`: half-width from the parabola through the nearest three points, which shows a smooth bend only.
 *
 * @throws {InputError} a temperature outside the points
 */
export function certificateAt(certificate: Certificate, temperature: number): CertificateValue {
  const { points, upper, lower, weight } = neighbours(certificate, temperature);
  const u = (1 - weight) * standardOf(lower) + weight * standardOf(upper);
  const degreesOfFreedom = Math.min(
    lower.effectiveDegreesOfFreedom ?? Infinity,
    upper.effectiveDegreesOfFreedom ?? Infinity,
  );
  const stated = lower.expandedUncertainty !== undefined && upper.expandedUncertainty !== undefined;
  const k = stated && factorOf(lower) === factorOf(upper) ? factorOf(lower) : null;
  const at = lower === upper;
  const interpolation = at ? null : beyondTheLine(points, lower, upper, temperature);
  return {
    temperature,
    correction: (1 - weight) * lower.correction + weight * upper.correction,
    standardUncertainty: u,
    degreesOfFreedom,
    expandedUncertainty:
      k === null ? null : (1 - weight) * lower.expandedUncertainty! + weight * upper.expandedUncertainty!,
    coverageFactor: k,
    between: at ? [lower.temperature] : [lower.temperature, upper.temperature],
    interpolation,
    reasoning: [
      at
        ? `${plain(temperature)} °C is a point of the certificate`
        : `interpolated between the points ${plain(lower.temperature)} °C and ${plain(upper.temperature)} °C of ${points.length}: correction and u linearly, as for fully correlated corrections`,
      `correction ${millikelvin((1 - weight) * lower.correction + weight * upper.correction)}, u ${millikelvin(u)}` +
        (degreesOfFreedom === Infinity
          ? ""
          : `, ${figure(degreesOfFreedom)} degrees of freedom (the fewer of the two points)`),
      ...(at ? [] : [interpolationInWords(interpolation)]),
    ],
  };
}

const interpolationInWords = (interpolation: number | null): string =>
  interpolation === null
    ? "two points do not show how the correction departs from a straight line between them: state referenceInterpolation yourself"
    : `the parabola through the nearest three points leaves the straight line by ${millikelvin(interpolation)}: half-width of referenceInterpolation`;

/** |c₂|·(t − t₁)(t₂ − t), c₂ the divided second difference with the nearest third point. */
function beyondTheLine(
  points: readonly CertificatePoint[],
  lower: CertificatePoint,
  upper: CertificatePoint,
  t: number,
): number | null {
  const third = points
    .filter((point) => point !== lower && point !== upper)
    .toSorted((a, b) => Math.abs(a.temperature - t) - Math.abs(b.temperature - t))[0];
  if (third === undefined) return null;
  const slope = (a: CertificatePoint, b: CertificatePoint): number =>
    (b.correction - a.correction) / (b.temperature - a.temperature);
  const second = (slope(upper, third) - slope(lower, upper)) / (third.temperature - lower.temperature);
  return Math.abs(second) * (t - lower.temperature) * (upper.temperature - t);
}

/** Points either side of a temperature, and how far it lies from the lower to the upper. */
export function neighbours(certificate: Certificate, temperature: number) {
  const points = [...certificate.points].sort((a, b) => a.temperature - b.temperature);
  points.forEach((point, i) => {
    if (i > 0 && point.temperature === points[i - 1]!.temperature) {
      refuse("points", `${point.temperature} °C twice`, "every calibration point once");
    }
  });
  const index = points.findIndex((point) => point.temperature >= temperature);
  const upper = points[index];
  if (upper === undefined || (index === 0 && upper.temperature > temperature)) {
    return refuse(
      "temperature",
      temperature,
      `a temperature within the points of the certificate, ${points[0]!.temperature} °C to ${points.at(-1)!.temperature} °C`,
    );
  }
  const lower = upper.temperature === temperature ? upper : points[index - 1]!;
  const weight = lower === upper ? 0 : (temperature - lower.temperature) / (upper.temperature - lower.temperature);
  return { points, lower, upper, weight };
}

/** A temperature as it was stated, for people. */
const plain = (temperature: number): string => withMinus(String(temperature));

/** A temperature closer to a point of the certificate than this, K, counts as that point: no bath is known better. */
const BESIDE = 1e-6;

/** What interpolation leaves open as an input quantity (`referenceInterpolation` of `bath-comparison`); `null`: nothing. */
export const interpolationStatement = (certificate: Certificate, value: CertificateValue): Statement | null =>
  value.interpolation === null || value.interpolation < BESIDE
    ? null
    : limitsStatement(
        "rectangular",
        0,
        value.interpolation,
        `certificate of ${certificate.thermometer}: parabola through the three points nearest to ${figure(value.temperature)} °C against a straight line`,
        "interpolation",
      );

/** The certificate at a temperature as an input quantity (`referenceCertificate` of `bath-comparison`). */
export function certificateStatement(certificate: Certificate, value: CertificateValue): Statement {
  const source =
    `certificate${certificate.certificate === undefined ? "" : ` ${certificate.certificate}`} of ${certificate.thermometer}, ${certificate.calibrated}` +
    (value.between.length === 1 ? "" : `, between ${value.between.join(" °C and ")} °C`);
  const { correction: estimate, degreesOfFreedom, standardUncertainty } = value;
  const uncertainty =
    value.expandedUncertainty !== null && value.coverageFactor !== null
      ? { expandedUncertainty: value.expandedUncertainty, coverageFactor: value.coverageFactor }
      : { standardUncertainty };
  return degreesOfFreedom === Infinity
    ? { distribution: "normal", estimate, ...uncertainty, source }
    : { distribution: "t", estimate, ...uncertainty, degreesOfFreedom, source };
}
