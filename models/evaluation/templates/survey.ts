import type { SurveyDocument } from "../survey/index.ts";
import { formatInstant, secondsOfCivil } from "../text/instant.ts";
import type { Template } from "./template.ts";

const LOG = "survey-log";
/** 2026-01-12, 8 o'clock. */
const START = secondsOfCivil(2026, 1, 12)! + 8 * 3600;
/** Seconds from one line of the log to the next. */
const INTERVAL = 20;
/** Where S-1 and S-2 stand, and for how many minutes: each position with the pair swapped. */
const STEPS = [
  { minutes: 40, at: ["centre", "centre"] },
  { minutes: 12, at: ["low", "centre"] },
  { minutes: 12, at: ["centre", "low"] },
  { minutes: 12, at: ["near", "centre"] },
  { minutes: 12, at: ["centre", "near"] },
  { minutes: 12, at: ["far", "centre"] },
  { minutes: 12, at: ["centre", "far"] },
] as const;
/** Warmer than the centre, K. */
const WARMER = { centre: 0, low: -0.006, near: 0.003, far: -0.002 } as const;
/** S-2 reads higher than S-1, K. */
const OFFSET = 0.004;

const moment = (seconds: number): string => formatInstant(seconds);

/** A wave between −1 and 1, of straight lines: arithmetic alone, so that the file is the same everywhere. */
function wave(seconds: number, period: number): number {
  const phase = (seconds % period) / period;
  return phase < 0.5 ? 4 * phase - 1 : 3 - 4 * phase;
}

const starts = STEPS.map((_, i) => STEPS.slice(0, i).reduce((sum, { minutes }) => sum + 60 * minutes, 0));
const duration = STEPS.reduce((sum, { minutes }) => sum + 60 * minutes, 0);
const rounded = (value: number): number => Math.round(value * 10_000) / 10_000;

function rows(): (string | number)[][] {
  const lines: (string | number)[][] = [];
  for (let t = 0; t < duration; t += INTERVAL) {
    const { at } = STEPS[starts.findLastIndex((start) => start <= t)]!;
    const bath = 37 + 0.004 * wave(t, 700);
    const noise = (which: number): number => 0.0006 * wave(t + 170 * which, 53 + 14 * which);
    lines.push([
      moment(START + t),
      rounded(bath + WARMER[at[0]] + noise(0)),
      rounded(bath + WARMER[at[1]] + OFFSET + noise(1)),
    ]);
  }
  return lines;
}

const description = {
  title: "Survey of the bath at 37 °C",
  bath: { fluid: "water", setTemperature: 37, overTemperatureCutOut: 45 },
  log: { file: `${LOG}.csv` },
  thermometers: { "S-1": {}, "S-2": {} },
  positions: {
    centre: { depth: 250, radius: 0 },
    low: { depth: 290, radius: 0 },
    near: { depth: 250, radius: 40, direction: "towards the stirrer" },
    far: { depth: 250, radius: 40, direction: "away from the stirrer" },
  },
  reference: "centre",
  steps: STEPS.map(({ minutes, at }, i) => ({
    from: moment(START + starts[i]!),
    to: moment(START + starts[i]! + 60 * minutes - INTERVAL),
    at: { "S-1": at[0], "S-2": at[1] },
  })),
  settlingMinutes: 4,
  calibrationMinutes: 20,
} satisfies SurveyDocument;

/** The log of two thermometers moved about in a bath. */
export const surveyLogTemplate: Template = {
  name: LOG,
  for: "survey",
  title: "the log of a survey",
  content: { kind: "table", rows: [["time", "S-1 / °C", "S-2 / °C"], ...rows()] },
};

/** Where thermometers stood while that log was written. */
export const surveyPositionsTemplate: Template = {
  name: "survey-positions",
  for: "survey",
  title: "the positions of a survey",
  content: {
    kind: "table",
    rows: [
      ["position", "depth / mm", "from the axis / mm", "direction"],
      ...Object.entries(description.positions).map(([name, place]) => [
        name,
        place.depth,
        place.radius,
        "direction" in place ? place.direction : null,
      ]),
    ],
  },
};

/** Who stood where and when. */
export const surveyStepsTemplate: Template = {
  name: "survey-steps",
  for: "survey",
  title: "the steps of a survey",
  content: {
    kind: "table",
    rows: [
      ["step", "from", "to", ...Object.keys(description.thermometers)],
      ...description.steps.map(({ from, to, at }, i) => [
        i + 1,
        from.replace("T", " "),
        to.replace("T", " "),
        at["S-1"],
        at["S-2"],
      ]),
    ],
  },
};

/** All of it for the command line, which evaluates it with the log beside it. */
export const surveyDescriptionTemplate: Template = {
  name: "survey",
  for: "program",
  title: "the description of a survey",
  content: { kind: "document", document: description },
};
