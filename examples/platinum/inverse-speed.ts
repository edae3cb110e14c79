/**
 * Nanoseconds for one resistance → temperature conversion in an inner loop, as a Monte Carlo model makes it: the best
 * of 40 passes over 4096 values, after the engine has compiled the loop.
 *
 * Run: npx esbuild examples/platinum/inverse-speed.ts --bundle --platform=node --log-level=error | node -
 */
import { platinum } from "trialband/models";

const COUNT = 4096;
const PASSES = 40;
const REPEATS = 20;

/** @returns nanoseconds a call, and a sum that keeps the calls from being left out */
function nanoseconds(inverse: (ratio: number) => number, ratios: Float64Array): { best: number; sum: number } {
  let best = Infinity;
  let sum = 0;
  for (let pass = 0; pass < PASSES; pass++) {
    const start = performance.now();
    for (let k = 0; k < REPEATS; k++) for (let i = 0; i < ratios.length; i++) sum += inverse(ratios[i]!);
    best = Math.min(best, ((performance.now() - start) * 1e6) / (REPEATS * ratios.length));
  }
  return { best, sum };
}

const { iec60751, referenceRatio, temperatureFromRatio, temperatureFromReferenceRatio } = platinum;
const spread = (low: number, high: number, ratio: (t: number) => number): Float64Array =>
  Float64Array.from({ length: COUNT }, (_, i) => ratio(low + ((high - low) * (i + 0.5)) / COUNT));
const four = platinum.subRangeOf("4");
const eight = platinum.subRangeOf("8");

for (const [title, inverse, ratios] of [
  ["IEC 60751, 0 °C to 850 °C (closed form)", iec60751.temperatureOf, spread(0, 850, iec60751.resistanceRatio)],
  ["IEC 60751, −200 °C to 0 °C (two Newton steps)", iec60751.temperatureOf, spread(-200, 0, iec60751.resistanceRatio)],
  ["ITS-90, 273.16 K to 1234.93 K", temperatureFromReferenceRatio, spread(273.16, 1234.93, referenceRatio)],
  ["ITS-90, 13.8033 K to 273.16 K", temperatureFromReferenceRatio, spread(13.8033, 273.15, referenceRatio)],
  [
    "ITS-90 with deviation function, sub-range 8",
    (W: number) => temperatureFromRatio(eight, [-2.3e-4, -1e-5], W),
    spread(273.16, 692, referenceRatio),
  ],
  [
    "ITS-90 with deviation function, sub-range 4",
    (W: number) => temperatureFromRatio(four, [-2.5e-4, -1.2e-5], W),
    spread(84, 273, referenceRatio),
  ],
] as const) {
  console.log(`${title.padEnd(50)} ${nanoseconds(inverse, ratios).best.toFixed(1).padStart(7)} ns`);
}
