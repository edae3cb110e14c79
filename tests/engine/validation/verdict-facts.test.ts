// Where the Monte Carlo interval lies beside the linear one, for every way in which its two endpoints can move.
import { expect, test } from "vitest";
import { sayOne } from "../../../engine/sentences/messages.ts";
import { en } from "../../../engine/sentences/en/index.ts";
import { verdictFacts } from "../../../engine/validation/verdict-facts.ts";
import { normal, of, one, runOf } from "./near-the-limit.ts";

const run = runOf(one, { a: normal(0, 1) }, { trials: 20_000 });
const plain = of(one, { a: normal(0, 1) }, { trials: 20_000 });
const ERROR = 0.002;

/** The measurand with a linear interval from −2 to 2, and a Monte Carlo one whose endpoints are moved by this much. */
function said(low: number, high: number): string {
  const interval: [number, number] = [-2 + low, 2 + high];
  const facts = verdictFacts(run, {
    ...plain,
    symbol: "e",
    linear: { ...plain.linear, interval: [-2, 2], standardUncertainty: 1 },
    monteCarlo: {
      ...plain.monteCarlo,
      intervals: { ...plain.monteCarlo.intervals, symmetric: interval },
      standardErrors: { ...plain.monteCarlo.standardErrors, symmetric: [ERROR, ERROR] },
    },
    validation: {
      ...plain.validation,
      validated: false,
      firm: true,
      settled: true,
      dLow: Math.abs(low),
      dHigh: Math.abs(high),
      numericalTolerance: 0.0005,
      atDigits: [],
      coverageFactorNeeded: (interval[1] - interval[0]) / 2,
    },
  });
  return facts
    .slice(1)
    .map((fact) => sayOne(en.verdict, fact))
    .join(" ");
}

const SCATTER = ERROR;

test.each<[low: number, high: number, words: RegExp, not?: RegExp]>([
  // Both out, alike and not; both in, alike and not.
  [-0.1, 0.1, /4\.8 % too narrow\. A coverage factor k = 2\.10/, /centred/],
  [-0.1, 0.3, /9\.1 % too narrow, and the Monte Carlo interval is not centred/],
  [0.1, -0.1, /5\.3 % wider than necessary\. A coverage factor k = 1\.90/, /centred/],
  [0.3, -0.1, /11 % wider than necessary, and the Monte Carlo interval is not centred/],
  // Less than a per cent of the width, and yet no displacement.
  [-0.01, 0.01, /0\.50 % too narrow|0\.5 % too narrow/, /equally|higher|lower/],
  [0.01, -0.01, /0\.5\d? % wider/, /equally|higher|lower/],
  // Shifted, and as wide; shifted, and wider or narrower.
  [
    0.1,
    0.1,
    /^The two intervals are equally wide to within 1 %, but the Monte Carlo interval lies higher at both/,
    /k =/,
  ],
  [
    -0.1,
    -0.1,
    /^The two intervals are equally wide to within 1 %, but the Monte Carlo interval lies lower at both/,
    /k =/,
  ],
  [
    0.1,
    0.3,
    /^The Monte Carlo interval lies higher at both endpoints, and the linear interval is 4\.8 % too narrow\.$/,
    /k =/,
  ],
  [0.3, 0.1, /^The Monte Carlo interval lies higher at both endpoints, and the linear interval is 5\.3 % wider/, /k =/],
  [
    -0.1,
    -0.3,
    /^The Monte Carlo interval lies lower at both endpoints, and the linear interval is 5\.3 % wider/,
    /k =/,
  ],
  [
    -0.3,
    -0.1,
    /^The Monte Carlo interval lies lower at both endpoints, and the linear interval is 4\.8 % too narrow/,
    /k =/,
  ],
  // One endpoint within the scatter.
  [SCATTER, 0.02, /^The upper Monte Carlo endpoint lies further out .* agree within the scatter/, /equally|k =/],
  [SCATTER, -0.02, /^The upper Monte Carlo endpoint lies further in/, /equally|k =/],
  [-0.02, -SCATTER, /^The lower Monte Carlo endpoint lies further out/, /equally|k =/],
  [0.02, -SCATTER, /^The lower Monte Carlo endpoint lies further in/, /equally|k =/],
  [SCATTER, 0.2, /4\.7 % too narrow, and the Monte Carlo interval is not centred/, /equally/],
  [0.2, SCATTER, /5\.2 % wider than necessary, and the Monte Carlo interval is not centred/, /equally/],
  // Both: what has decided is not these trials.
  [SCATTER, SCATTER, /^Which way its endpoints differ, the trials by themselves do not show\.$/],
])("endpoints moved by %d and %d", (low, high, words, not) => {
  expect(said(low, high)).toMatch(words);
  if (not !== undefined) expect(said(low, high)).not.toMatch(not);
});
