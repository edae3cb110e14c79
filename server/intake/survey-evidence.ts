import type { Evidence, Statement } from "../../engine/index.ts";
import {
  duration,
  showInstant,
  surveyStatements,
  type AxisEvaluation,
  type SurveyChoice,
  type SurveyDescription,
  type SurveyEvaluation,
} from "../../models/index.ts";
import { SURVEY_EVIDENCE } from "../../viewer/present/survey-evidence.ts";
import { withEvidence } from "./with-evidence.ts";

/** The statements of a survey, each with the files, the window or zone, and the figures it rests on. @throws {InputError} */
export function citedStatements(
  evaluation: SurveyEvaluation,
  description: SurveyDescription,
  files: Evidence["files"],
  choice: SurveyChoice,
): Readonly<Record<string, Statement>> {
  const evidence: Readonly<Record<string, Omit<Evidence, "files"> | null>> = {
    bathStability: stabilityEvidence(evaluation, description),
    bathAxial: axisEvidence(evaluation, description, evaluation.axial),
    bathRadial: axisEvidence(evaluation, description, evaluation.radial),
  };
  return Object.fromEntries(
    Object.entries(surveyStatements(evaluation, choice)).map(([name, statement]) => {
      const found = evidence[name] ?? null;
      return [name, found === null ? statement : withEvidence(statement, { ...found, files })];
    }),
  );
}

function stabilityEvidence(
  { stability, stay }: SurveyEvaluation,
  { calibrationMinutes }: SurveyDescription,
): Omit<Evidence, "files"> {
  const { window, windows, worst, sampling } = stability;
  return {
    method: `a window of ${duration(window)} slid over the readings of ${stay.thermometer} while it stayed at ${stay.position}; half the span of the worst of ${windows}`,
    figures: [
      { name: "window", value: window, unit: "s" },
      { name: "calibration takes", value: 60 * calibrationMinutes, unit: "s" },
      { name: SURVEY_EVIDENCE.worstFrom, value: showInstant(worst.from) },
      { name: "worst window to", value: showInstant(worst.to) },
      { name: "readings in it", value: worst.samples },
      { name: "sampling interval", value: sampling.interval, unit: "s" },
      { name: "half-range", value: worst.halfRange, unit: "K" },
      { name: "standard deviation", value: worst.standardDeviation, unit: "K" },
      { name: "drift", value: worst.slope * 3600, unit: "K/h" },
      { name: "standard deviation about the drift", value: worst.fluctuation, unit: "K" },
    ],
  };
}

function axisEvidence(
  { map }: SurveyEvaluation,
  { arrangement, reference }: SurveyDescription,
  found: AxisEvaluation | null,
): Omit<Evidence, "files"> | null {
  if (found === null) return null;
  const positions = new Set(found.lines.flatMap(({ points }) => points.map(({ position }) => position)));
  const used = map.comparisons.filter(({ position }) => positions.has(position));
  const swapped = used.filter(({ method }) => method === "swapped").length;
  const pairs = [...new Set(used.map(({ pair }) => pair.join(" and ")))].join("; ");
  return {
    method:
      `synchronous differences from ${reference} by ${pairs}: ${swapped} positions with the pair swapped, ${used.length - swapped} with one moved; ` +
      `limits over the zone, arrangement ${arrangement}`,
    figures: [
      { name: found.axis === "axial" ? "depth from" : "radius from", value: found.zone[0], unit: "mm" },
      { name: found.axis === "axial" ? "depth to" : "radius to", value: found.zone[1], unit: "mm" },
      { name: "lowest difference", value: found.limits.lowest, unit: "K" },
      { name: "highest difference", value: found.limits.highest, unit: "K" },
      { name: "half-width", value: found.quantity.halfWidth, unit: "K" },
      { name: SURVEY_EVIDENCE.largestUncertainty, value: found.limits.noise, unit: "K" },
      { name: "comparisons", value: used.length },
    ],
  };
}
