import { refuse, type Statement } from "../../../engine/index.ts";
import { bathSafety, type BathSafety } from "../../safety/cautions.ts";
import { duration, figure, millikelvin, ROUNDING, type Check } from "../check.ts";
import type { SurveyDescription } from "./description.ts";
import { describeGap, samplingOf, type Sampling, type ThermometerLog } from "../log/thermometer-log.ts";
import { outlineOf, type Outline } from "./outline.ts";
import { evaluateStability, type StabilityEvaluation } from "./stability.ts";
import { limitsStatement, type LimitsDistribution } from "./statement.ts";
import {
  logOfStay,
  pairSteps,
  stabilityStay,
  usableSteps,
  type PairStep,
  type Stay,
  type UsableStep,
} from "./steps.ts";
import {
  placeAlong,
  reachOf,
  zoneLimits,
  zoneLines,
  zoneQuantity,
  type ZoneAxis,
  type ZoneLimits,
  type ZoneLine,
  type ZoneQuantity,
} from "./zone.ts";
import { zoneMap, type ZoneMap } from "./zone-map.ts";

/** A smaller zone and what it would leave of a half-width. */
export interface SmallerZone {
  /** Depths or radii, mm. */
  readonly from: number;
  readonly to: number;
  readonly halfWidth: number;
  /** What is gained against the zone chosen, K. */
  readonly gain: number;
}

export interface AxisEvaluation {
  readonly axis: ZoneAxis;
  /** Zone along this axis, mm: depths, or radii. */
  readonly zone: readonly [number, number];
  readonly limits: ZoneLimits;
  readonly quantity: ZoneQuantity;
  readonly lines: readonly ZoneLine[];
  readonly smaller: readonly SmallerZone[];
  readonly checks: readonly Check[];
  readonly reasoning: readonly string[];
}

/** Everything a survey gives, as plain data. */
export interface SurveyEvaluation {
  readonly title: string;
  readonly samplings: Readonly<Record<string, Sampling>>;
  readonly steps: readonly UsableStep[];
  readonly pairs: readonly PairStep[];
  readonly stay: Stay;
  readonly stability: StabilityEvaluation;
  readonly map: ZoneMap;
  /** `null` if no position differs along this axis alone. */
  readonly axial: AxisEvaluation | null;
  readonly radial: AxisEvaluation | null;
  readonly outlines: readonly Outline[];
  readonly safety: BathSafety | null;
  readonly checks: readonly Check[];
  readonly reasoning: readonly string[];
}

/**
 * Evaluates a survey: stability, differences over the zone, and what each makes as an input quantity.
 *
 * @param logs one per thermometer of the description, in °C
 * @throws {InputError} a description that does not fit its logs, or a log too short for what is asked
 */
export function evaluateSurvey(description: SurveyDescription, logs: readonly ThermometerLog[]): SurveyEvaluation {
  const samplings = Object.fromEntries(
    logs.map((log) => [log.thermometer, samplingOf(log, description.maximumGapSeconds)]),
  );
  const steps = usableSteps(description, logs);
  const stay = stabilityStay(description, steps);
  const stability = evaluateStability(logOfStay(stay, logs), {
    calibration: 60 * description.calibrationMinutes,
    window: description.stability?.windowMinutes === undefined ? undefined : 60 * description.stability.windowMinutes,
    maximumGap: description.maximumGapSeconds,
    cycle: description.stability?.cycleMinutes === undefined ? undefined : 60 * description.stability.cycleMinutes,
  });
  const pairs = pairSteps(description, logs, steps);
  const map = zoneMap(description, pairs);
  const lines = zoneLines(map.points, map.reference);
  const axial = axisOf(description, map, lines, "axial");
  const radial = axisOf(description, map, lines, "radial");
  const checks = [
    ...stability.checks,
    ...alikeChecks("readings of the stability", stability.halfWidth),
    ...gapChecks(samplings, steps),
    ...settlingChecks(pairs),
    ...map.checks,
    ...(axial?.checks ?? []),
    ...(radial?.checks ?? []),
    ...oneDirectionChecks(lines),
    ...cornerChecks(map, lines, axial, radial),
  ];
  return {
    title: description.title,
    samplings,
    steps,
    pairs,
    stay,
    stability,
    map,
    axial,
    radial,
    outlines: logs.map((log) => outlineOf(log)),
    safety: description.bath === undefined ? null : bathSafety(description.bath),
    checks,
    reasoning: [
      `stability from ${stay.thermometer}, which stayed at ${stay.position} for ${duration(stay.to - stay.from)}`,
      ...stability.reasoning,
      `${map.comparisons.length} comparisons with ${description.reference}: ${map.comparisons.filter(({ method }) => method === "swapped").length} by swapping the pair, ` +
        `${map.comparisons.filter(({ method }) => method === "moved").length} by moving one against a fixed one; differences are of readings at the same moment, so drift of the bath cancels`,
      ...(axial?.reasoning ?? [
        "no position differs from the reference position in depth alone: no vertical difference",
      ]),
      ...(radial?.reasoning ?? [
        "no zone of radii: positions that differ from the reference position in radius alone are needed in two directions",
      ]),
      ...map.unresolved.map(
        (position) =>
          `${position} is not compared with ${description.reference}: it needs the pair swapped, or both at ${description.reference} once`,
      ),
    ],
  };
}

function axisOf(
  { zone, arrangement }: SurveyDescription,
  map: ZoneMap,
  lines: readonly ZoneLine[],
  axis: ZoneAxis,
): AxisEvaluation | null {
  const along = lines.filter((line) => line.axis === axis);
  if (along.length === 0) return null;
  const at = axis === "axial" ? map.reference.depth : map.reference.radius;
  const surveyed = reachOf(along, axis);
  // A radius surveyed in one direction alone gives no information about the other side: no zone, and a stated one is refused.
  if (axis === "radial" && along.length < 2 && zone.radius === undefined) return null;
  if (axis === "axial" && zone.depth !== undefined && !(zone.depth[0] < zone.depth[1])) {
    refuse("zone.depth", zone.depth, "a least depth and a greater one, mm");
  }
  const chosen: readonly [number, number] =
    axis === "axial" ? (zone.depth ?? surveyed) : [Math.min(at, surveyed[0]), zone.radius ?? surveyed[1]];
  const limits = zoneLimits(lines, axis, chosen[0], chosen[1])!;
  const quantity = zoneQuantity(limits, arrangement);
  const smaller = [0.75, 0.5, 0.25].map((part) => {
    const from = at + part * (chosen[0] - at);
    const to = at + part * (chosen[1] - at);
    const { halfWidth } = zoneQuantity(zoneLimits(lines, axis, from, to)!, arrangement);
    return { from, to, halfWidth, gain: quantity.halfWidth - halfWidth };
  });
  const half = smaller[1]!;
  const name = axis === "axial" ? "vertical" : "horizontal";
  return {
    axis,
    zone: chosen,
    limits,
    quantity,
    lines: along,
    smaller,
    checks: [
      {
        check: `noise of the ${name} differences below a third of their half-width (common practice)`,
        passed: limits.noise <= quantity.ofDifferences / 3,
        found: `u ${millikelvin(limits.noise)} at most; half-width ${millikelvin(quantity.ofDifferences)}`,
      },
      ...(axis === "radial" ? [directionCheck(along, chosen[1])] : []),
      ...alikeChecks(`${name} differences`, quantity.halfWidth),
    ],
    reasoning: [
      `${name} differences from ${millikelvin(limits.lowest)} to ${millikelvin(limits.highest)} over ${axis === "axial" ? "depths" : "radii"} of ${figure(chosen[0])} mm to ${figure(chosen[1])} mm: ` +
        `half-width ${millikelvin(quantity.halfWidth)}, ${quantity.distribution}; ${quantity.because}`,
      `the differences found reach ${millikelvin(quantity.ofDifferences)} and have a standard uncertainty of ${millikelvin(limits.noise)} at most; ` +
        `added in quadrature, it makes the half-width ${millikelvin(quantity.halfWidth)}`,
      `half of that zone (${figure(half.from)} mm to ${figure(half.to)} mm) would leave ${millikelvin(half.halfWidth)}, a gain of ${millikelvin(half.gain)}`,
    ],
  };
}

/** If all readings are alike, the thermometers did not resolve the difference: no bath is exactly uniform or steady. */
function alikeChecks(what: string, halfWidth: number): Check[] {
  if (halfWidth > ROUNDING) return [];
  return [
    {
      check: `${what} that the thermometers resolve`,
      passed: false,
      found: "all equal: stated as a constant 0; state the resolution of the readings as an input of its own",
    },
  ];
}

/** Whether every direction that was surveyed reaches as far as the zone does. */
function directionCheck(along: readonly ZoneLine[], radius: number): Check {
  const at = placeAlong("radial");
  const short = along
    .map(({ direction, points }) => ({ direction, reach: Math.max(...points.map(at)) }))
    .filter(({ reach }) => reach < radius - 0.5);
  return {
    check: "every direction that was surveyed reaches the edge of the zone",
    passed: short.length === 0,
    found:
      short.length === 0
        ? `${along.length} directions reach ${figure(radius)} mm`
        : short.map(({ direction, reach }) => `${direction ?? "no direction stated"}: ${figure(reach)} mm`).join("; "),
  };
}

function oneDirectionChecks(lines: readonly ZoneLine[]): Check[] {
  const along = lines.filter(({ axis }) => axis === "radial");
  if (along.length !== 1) return [];
  return [
    {
      check: "radii surveyed in at least two directions, so that they make a zone",
      passed: false,
      found: `one alone (${along[0]!.direction ?? "not named"}): no horizontal half-width`,
    },
  ];
}

function gapChecks(samplings: Readonly<Record<string, Sampling>>, steps: readonly UsableStep[]): Check[] {
  return Object.entries(samplings).map(([name, { gaps, maximumGap }]) => {
    const inside = gaps.filter((gap) => steps.some(({ from, to }) => gap.to > from && gap.from < to));
    return {
      check: `log of ${name} without gaps in the steps used`,
      passed: inside.length === 0,
      found:
        inside.length === 0
          ? `none longer than ${duration(maximumGap)}`
          : inside.slice(0, 3).map(describeGap).join("; "),
    };
  });
}

function settlingChecks(pairs: readonly PairStep[]): Check[] {
  return pairs.map(({ step, positions, difference }) => ({
    check: `step ${step + 1}, ${difference.first} at ${positions[0]} and ${difference.second} at ${positions[1]}: settled (difference moves by less than three standard uncertainties)`,
    passed: Math.abs(difference.movement) <= 3 * difference.movementStandardUncertainty + ROUNDING,
    found: `moved by ${millikelvin(difference.movement)}, u ${millikelvin(difference.movementStandardUncertainty)}`,
  }));
}

/** Positions off both axes test whether the two half-widths together cover the zone. */
function cornerChecks(
  map: ZoneMap,
  lines: readonly ZoneLine[],
  axial: AxisEvaluation | null,
  radial: AxisEvaluation | null,
): Check[] {
  const onLines = new Set(lines.flatMap(({ points }) => points));
  const corners = map.points.filter((point) => !onLines.has(point) && point !== map.reference);
  if (corners.length === 0) return [];
  const reach = [axial, radial].map((axis) =>
    axis === null ? 0 : Math.max(Math.abs(axis.limits.lowest), Math.abs(axis.limits.highest)),
  );
  return corners.map(({ position, difference, standardUncertainty }) => ({
    check: `${position}, off both axes: within the vertical and horizontal limits together`,
    passed: Math.abs(difference) <= reach[0]! + reach[1]! + 3 * standardUncertainty + ROUNDING,
    found: `${millikelvin(difference)} against ${millikelvin(reach[0]! + reach[1]!)}`,
  }));
}

/** Names of the input quantities of the model `bath-comparison` that a survey gives. */
export type SurveyQuantity = "bathAxial" | "bathRadial" | "bathStability";

/**
 * Distribution of each, if the user wants another than the default. A normal distribution takes its standard
 * uncertainty from the deviation of the readings, which only the stability has.
 */
export interface SurveyChoice {
  readonly bathAxial?: LimitsDistribution;
  readonly bathRadial?: LimitsDistribution;
  readonly bathStability?: LimitsDistribution | "normal";
}

/** Limits as a statement; what was all alike is a constant, beside a check that is not met. */
function limitsOrConstant(...stated: Parameters<typeof limitsStatement>): Statement {
  const [, , halfWidth, source] = stated;
  if (halfWidth > ROUNDING) return limitsStatement(...stated);
  return { distribution: "constant", value: 0, source: `${source}; all equal within the resolution of the readings` };
}

/** The input statements of a survey, by the input names of `bath-comparison`; what was not surveyed is missing. */
export function surveyStatements(
  evaluation: SurveyEvaluation,
  choice: SurveyChoice = {},
): Readonly<Partial<Record<SurveyQuantity, Statement>>> {
  const { title } = evaluation;
  const statements: Partial<Record<SurveyQuantity, Statement>> = {
    bathStability: stabilityStatement(evaluation, choice.bathStability),
  };
  for (const [name, axis] of [
    ["bathAxial", evaluation.axial],
    ["bathRadial", evaluation.radial],
  ] as const) {
    if (axis === null) continue;
    const { estimate, halfWidth, distribution } = axis.quantity;
    statements[name] = limitsOrConstant(
      choice[name] ?? distribution,
      estimate,
      halfWidth,
      `${title}: ${axis.axis === "axial" ? "depths" : "radii"} ${figure(axis.zone[0])} mm to ${figure(axis.zone[1])} mm, ` +
        `${evaluation.map.comparisons.length} comparisons, their u of ${millikelvin(axis.limits.noise)} at most included`,
      `${axis.axis}.halfWidth`,
    );
  }
  return statements;
}

function stabilityStatement(
  { stability, stay, title }: SurveyEvaluation,
  distribution: SurveyChoice["bathStability"] = "rectangular",
): Statement {
  const { cycle } = stability;
  const where =
    `${stay.thermometer} in the worst ${duration(cycle?.length ?? stability.window)} of ${duration(stay.to - stay.from)}` +
    (cycle === null ? "" : ", the time of one drift-corrected cycle");
  if (distribution !== "normal") {
    return limitsOrConstant(
      distribution,
      0,
      stability.halfWidth,
      `${title}: half the span of ${where}`,
      "stability.halfWidth",
    );
  }
  const standardUncertainty = (cycle?.worst ?? stability.worst).standardDeviation;
  const source = `${title}: standard deviation of ${where}`;
  if (standardUncertainty <= ROUNDING) return limitsOrConstant("rectangular", 0, 0, source, "stability");
  return { distribution, estimate: 0, standardUncertainty, source };
}
