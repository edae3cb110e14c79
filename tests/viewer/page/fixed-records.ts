import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { RunRecord } from "../../../engine/index.ts";

const readRecord = (name: string): RunRecord =>
  JSON.parse(readFileSync(join(import.meta.dirname, "fixtures", `${name}.json`), "utf8")) as RunRecord;

const CORRELATION = {
  between: ["referenceMass", "balancingMass"],
  coefficient: 0.5,
  term: 0.001,
  share: 0.345,
} as const;

/** A finished record with a second measurand: the first under another name, moved by one, with a correlation. */
function withSecondMeasurand(record: RunRecord): RunRecord {
  const [[name, first]] = Object.entries(record.measurands) as [[string, RunRecord["measurands"][string]]];
  const second = {
    ...first,
    symbol: "d_2",
    meaning: "a second deviation",
    linear: { ...first.linear, estimate: first.linear.estimate + 1, correlatedTerms: [CORRELATION] },
  };
  return {
    ...record,
    study: { ...record.study, title: "Two measurands at once" },
    measurands: { [name]: first, second },
  };
}

/** A record whose calibration curve rises so steeply that nothing is seen of its band: the same line with 5 °C per °C more. */
function withSteepCurve(record: RunRecord): RunRecord {
  const curve = record.calibrationCurve!;
  const raised = (t: number, b: number): number => b + 5 * t;
  const ends = (t: number, [low, high]: readonly [number, number]): readonly [number, number] => [
    raised(t, low),
    raised(t, high),
  ];
  return {
    ...record,
    study: { ...record.study, title: "A steep calibration curve" },
    calibrationCurve: {
      ...curve,
      argument: { symbol: "x", meaning: "indication", unit: "mV" },
      points: curve.points.map(({ at, linear, monteCarlo }) => ({
        at,
        linear: { ...linear, estimate: raised(at, linear.estimate), interval: ends(at, linear.interval) },
        monteCarlo: {
          ...monteCarlo,
          estimate: raised(at, monteCarlo.estimate!),
          interval: ends(at, monteCarlo.interval),
        },
      })),
      observed: curve.observed.map(({ at, value, fitted }) => ({
        at,
        value: raised(at, value),
        fitted: raised(at, fitted),
      })),
    },
  };
}

/** A record whose inputs state figures without the input's unit: a count in °C, and the top of a trapezoid. */
function withUnitlessFields(record: RunRecord): RunRecord {
  const [first, second] = Object.keys(record.inputs) as [string, string];
  const inputs = {
    ...record.study.inputs,
    [first]: { distribution: "gamma", count: 7, scale: 0.5 },
    [second]: { distribution: "trapezoidal", estimate: 20, halfWidth: 2, topRatio: 0.25 },
  } as RunRecord["study"]["inputs"];
  const inDegrees = (name: string): RunRecord["inputs"][string] => ({ ...record.inputs[name]!, unit: "°C" });
  return {
    ...record,
    study: { ...record.study, title: "A count and a trapezoid", inputs },
    inputs: { ...record.inputs, [first]: inDegrees(first), [second]: inDegrees(second) },
  };
}

/** The records that runs end with, by the id of their study. */
export const RECORDS: Readonly<Record<string, RunRecord>> = {
  "harrowfen/cold-store-4": readRecord("cold-store-4"),
  "published/mass-calibration": readRecord("mass-calibration"),
  "published/additive-one-dominant": readRecord("additive-one-dominant"),
  "harrowfen/range": readRecord("range"),
  "harrowfen/pasteuriser-72": readRecord("pasteuriser-72"),
  "verdicts/curvature": readRecord("curvature"),
  "verdicts/another-factor": readRecord("another-factor"),
  "published/polar-010-correlated": readRecord("polar-010-correlated"),
  "published/thermometer-line": readRecord("thermometer-line"),
  "harrowfen/steep-curve": withSteepCurve(readRecord("thermometer-line")),
  "harrowfen/unitless-fields": withUnitlessFields(readRecord("mass-calibration")),
  "harrowfen/two-measurands": withSecondMeasurand(readRecord("mass-calibration")),
};

/** The record as it stood after the first `batches` batches; figures other than the counts are left as they ended. */
export function partOf(record: RunRecord, batches: number): RunRecord {
  const measurands = Object.entries(record.measurands).map(([name, measurand]) => {
    const { settling, histogram } = measurand.monteCarlo;
    const points = settling.points.slice(0, batches);
    const trials = points.at(-1)?.trials ?? 0;
    const share = trials / measurand.monteCarlo.trials;
    const counts = histogram.counts.map((count) => Math.round(count * share));
    const monteCarlo = {
      ...measurand.monteCarlo,
      trials,
      histogram: { ...histogram, counts, below: 0, above: 0 },
      settling: { ...settling, points, settled: false, doubled: points.at(-1)?.doubled ?? settling.doubled },
    };
    return [name, { ...measurand, monteCarlo }] as const;
  });
  const count = measurands[0]![1].monteCarlo.trials;
  return { ...record, trials: { ...record.trials, count }, measurands: Object.fromEntries(measurands) };
}
