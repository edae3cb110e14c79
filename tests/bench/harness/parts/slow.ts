import { trialObjects } from "../../../../engine/evaluator/trial-object.ts";
import { openTrials, openTrialColumns } from "../../../../engine/internal.ts";
import { defineModel, elementary, prepare, readStudy, type Model } from "../../../../engine/index.ts";
import { ratiosOf } from "../arithmetic.ts";
import { row, type Row } from "../row.ts";

const STEPS = 200;
/** Trials of a piece, which is short beside what else the machine may do; and pieces of either way in a round. */
const TRIALS = 500;
const EACH = 30;

/** A damped pendulum after two seconds, by 200 steps of Runge and Kutta: a model that takes its time. */
const pendulum = defineModel({
  id: "bench-pendulum",
  title: "Angle of a damped pendulum after two seconds",
  measurands: { angle: { symbol: "φ", meaning: "angle after two seconds", unit: "rad" } },
  inputs: {
    start: { symbol: "φ_0", meaning: "angle at the start", unit: "rad" },
    length: { symbol: "l", meaning: "length", unit: "m" },
    damping: { symbol: "d", meaning: "damping", unit: "1/s" },
  },
  evaluate: (x) => {
    const step = 2 / STEPS;
    const pull = (angle: number, speed: number): number =>
      -(9.81 / x.length) * elementary.sin(angle) - x.damping * speed;
    let angle = x.start;
    let speed = 0;
    for (let i = 0; i < STEPS; i++) {
      const a1 = pull(angle, speed);
      const v2 = speed + (step / 2) * a1;
      const a2 = pull(angle + (step / 2) * speed, v2);
      const v3 = speed + (step / 2) * a2;
      const a3 = pull(angle + (step / 2) * v2, v3);
      const v4 = speed + step * a3;
      const a4 = pull(angle + step * v3, v4);
      angle += (step / 6) * (speed + 2 * v2 + 2 * v3 + v4);
      speed += (step / 6) * (a1 + 2 * a2 + 2 * a3 + a4);
    }
    return angle;
  },
}) as Model;

const DOCUMENT = {
  title: "Pendulum",
  model: "bench-pendulum",
  trials: 100_000,
  seed: "1",
  inputs: {
    start: { distribution: "rectangular", estimate: 1, halfWidth: 0.01 },
    length: { distribution: "normal", estimate: 0.8, standardUncertainty: 0.002 },
    damping: { distribution: "normal", estimate: 0.1, standardUncertainty: 0.01 },
  },
};

/** What the engine adds to a model that takes some 10 µs a trial: a batch of trials, beside the model's own calls. */
export function measureSlow(rounds: number): Row[] {
  const { source } = prepare(pendulum, readStudy(DOCUMENT));
  const draw = openTrials(source);
  const [start, length, damping] = openTrialColumns(source)(0, TRIALS).inputs;
  // Of the shape that the engine's trials have: a function that meets two shapes is slower for both.
  const x = trialObjects(pendulum.inputs)();
  let sum = 0;
  const alone = (): void => {
    for (let t = 0; t < TRIALS; t++) {
      x["start"] = start![t]!;
      x["length"] = length![t]!;
      x["damping"] = damping![t]!;
      sum += pendulum.evaluate(x) as number;
    }
  };
  const ways = [() => draw(0, TRIALS), alone];
  for (const work of ways) for (let i = 0; i < 5; i++) work();
  const times: [number[], number[]] = [[], []];
  for (let round = 0; round < rounds; round++) {
    const least = [Infinity, Infinity];
    for (let i = 0; i < EACH; i++)
      ways.forEach((work, which) => {
        const clock = performance.now();
        work();
        least[which] = Math.min(least[which]!, performance.now() - clock);
      });
    least.forEach((time, which) => times[which]!.push(time));
  }
  if (!Number.isFinite(sum)) throw new Error("the pendulum has no angle");
  const spread = ratiosOf(...times);
  const own = (1e3 * Math.min(...times[1])) / TRIALS;
  return [
    row("slow", "A slow model: a batch of trials over the model's own calls", "≤1.02", spread.median, {
      spread,
      unit: "×",
      note: `an equation of motion in ${STEPS} steps, ${own.toFixed(1)} µs a trial; one thread, ${TRIALS} trials by turns, least of ${EACH} in a round, median of ${rounds} rounds`,
    }),
  ];
}
