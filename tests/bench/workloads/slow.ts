import { defineModel, defineStudy } from "trialband";

/** Steps of a trial: about 1 ms, whatever runs them. */
const STEPS = 200_000;

const model = defineModel({
  id: "slow",
  title: "A model of which a trial takes about a millisecond: a cooling body in many small steps",
  measurands: { temperature: { symbol: "t", meaning: "temperature after an hour", unit: "°C" } },
  inputs: {
    start: { symbol: "t_0", meaning: "temperature at first", unit: "°C" },
    around: { symbol: "t_a", meaning: "temperature around", unit: "°C" },
    rate: { symbol: "k", meaning: "part of the difference that goes in an hour", unit: "1" },
  },
  evaluate: ({ start, around, rate }) => {
    let t = start;
    // By Euler's method; each step waits for the one before.
    for (let i = 0; i < STEPS; i++) t += ((around - t) * rate) / STEPS;
    return t;
  },
});

/** A slow model (invented): what a queue is for. */
export default defineStudy(model, {
  title: "A slow model: a probe that cools for an hour",
  inputs: {
    start: { distribution: "normal", estimate: 90, standardUncertainty: 0.2 },
    around: { distribution: "normal", estimate: 21, standardUncertainty: 0.3 },
    rate: { distribution: "rectangular", estimate: 1.2, halfWidth: 0.05 },
  },
  coverage: { probability: 0.95 },
  trials: 40_000,
});
