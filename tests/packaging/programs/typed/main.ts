// What a program in TypeScript sees: names to the end, and a refusal of those that are not there.
import { defineModel, defineStudy, drawTrials, propagate, propagation } from "trialband";
import { evaluateStability, type StabilityEvaluation } from "trialband/evaluation";
import { platinum } from "trialband/models";
import { propagateOnThreads } from "trialband/node";
import { propagateOnWorkers, serveTrials } from "trialband/workers";

const polar = defineModel({
  id: "polar",
  title: "A point in polar coordinates",
  measurands: {
    x: { symbol: "x", meaning: "abscissa", unit: "m" },
    y: { symbol: "y", meaning: "ordinate", unit: "m" },
  },
  inputs: {
    radius: { symbol: "r", meaning: "distance from the pole", unit: "m" },
    slope: { symbol: "s", meaning: "tangent of the angle", unit: "1" },
  },
  evaluate: ({ radius, slope }) => {
    const x = radius / Math.sqrt(1 + slope * slope);
    return { x, y: slope * x };
  },
});

const study = defineStudy(polar, {
  title: "A corner",
  inputs: {
    radius: { distribution: "normal", estimate: 1, standardUncertainty: 0.01 },
    slope: { distribution: "rectangular", lower: 0.9, upper: 1.1 },
  },
  trials: 50_000,
});

const record = propagate(study, { signal: new AbortController().signal, onProgress: ({ trials }) => void trials });
const sentence: string = record.measurands.x.validation.sentence;
const u: number | null = record.measurands.y.monteCarlo.standardUncertainty;
const share: number | undefined = record.measurands.x.linear.contributions[0]?.share;
// @ts-expect-error no such measurand
void record.measurands.z;
// @ts-expect-error the study lacks an input
defineStudy(polar, { title: "t", inputs: { radius: { distribution: "constant", value: 1 } } });
// @ts-expect-error no such field of a distribution
defineStudy(polar, { title: "t", inputs: { ...study, radius: { distribution: "constant", values: 1 } } });

let widest = 0;
for (const { measurands } of drawTrials(study, { trials: 10_000 })) widest = Math.max(widest, ...measurands.y);
const running = propagation(study);
for (let step = running.next(); !step.done; step = running.next()) void step.value.limit;

export const later = (): Promise<unknown> =>
  Promise.all([
    propagateOnThreads<typeof polar>("file:///polar.js", {
      title: "t",
      inputs: { radius: { distribution: "constant", value: 1 }, slope: { distribution: "constant", value: 1 } },
    }).then(({ measurands }) => measurands.x.linear.estimate),
    propagateOnWorkers(study, {
      start: () => ({ postMessage: () => undefined, addEventListener: () => undefined, terminate: () => undefined }),
    }).then(({ measurands }) => measurands.y.linear.estimate),
    serveTrials(polar, { addEventListener: () => undefined, postMessage: () => undefined }),
  ]);

export const stability = (given: Parameters<typeof evaluateStability>[0]): StabilityEvaluation =>
  evaluateStability(given, { calibration: 600 });

if (!(sentence.length > 0 && u !== null && share !== undefined && widest > 0.6)) throw new Error("no figures");
if (!(platinum.iec60751.resistanceRatio(0) === 1)) throw new Error("R(0 °C)/R₀ is 1");
