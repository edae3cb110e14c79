import type { RunRecord, StudyDocument } from "../../../engine/index.ts";
import type { Finding } from "../../../viewer/api/selfcheck.ts";
import type { Check, CheckGroup } from "../check.ts";
import { FIVE_ERRORS, near, same, STANDARD_ERRORS } from "../judge.ts";

/** A sum of a standard normal and a rectangular quantity, whose interval and its distance from δ are known exactly. */
export interface KnownSum {
  readonly halfWidth: number;
  /** Upper endpoint of the 95 % interval, and of the linear interval 1.959964·√(1 + a²/3). */
  readonly endpoint: number;
  readonly linear: number;
  readonly verdict: "validated" | "not validated" | "not decided";
}

/**
 * At 2 significant digits δ = 0.05 for each. The first two have d_low = d_high = 0.0177 and 0.2488; of the last d = δ to 11
 * digits, and no number of trials decides it.
 */
export const KNOWN_SUMS: readonly KnownSum[] = [
  { halfWidth: 1.2, endpoint: 2.3666885752605, linear: 2.3843990971788, verdict: "validated" },
  { halfWidth: 3, endpoint: 3.6711135407614, linear: 3.9199279690801, verdict: "not validated" },
  { halfWidth: 1.63145801508, endpoint: 2.6425214650293, linear: 2.6925214650292, verdict: "not decided" },
];

/** Verdicts within δ, beyond it, and at it: whether a run says only what its trials decide. */
export const verdicts: CheckGroup = {
  id: "verdicts",
  title: "Verdicts near the limit",
  checks: (quick) => KNOWN_SUMS.map((known) => check(known, quick ? 2 : 12)),
};

const check = (known: KnownSum, seeds: number): Check => ({
  title: `normal and rectangular, half-width ${known.halfWidth}: ${known.verdict}`,
  source:
    "computed independently: distribution function of the sum, with mpmath at 30 digits; JCGM 101:2008, 7.9 and 8",
  async lines(context) {
    const records: RunRecord[] = [];
    for (let seed = 1; seed <= seeds; seed++) records.push(await context.run(studyOf(known, seed)));
    return verdictLines(known, records);
  },
});

const studyOf = ({ halfWidth }: KnownSum, seed: number): StudyDocument => ({
  title: "Verdict near the limit",
  model: "additive",
  parameters: { coefficients: { normal: 1, rectangular: 1 } },
  inputs: {
    normal: { distribution: "normal", estimate: 0, standardUncertainty: 1, source: "definition" },
    rectangular: { distribution: "rectangular", estimate: 0, halfWidth, source: "definition" },
  },
  coverage: { probability: 0.95 },
  significantDigits: 2,
  trials: "adaptive",
  seed: `near the limit ${seed}`,
});

/** @param records adaptive runs of one of the sums, each with a seed of its own */
export function verdictLines(known: KnownSum, records: readonly RunRecord[]): Finding[] {
  const what = `half-width ${known.halfWidth}`;
  return records.flatMap(({ measurands }, run) => {
    const { linear, monteCarlo, validation, explanation } = measurands["result"]!;
    const [, error] = monteCarlo.standardErrors.symmetric;
    const found = !validation.firm ? "not decided" : validation.validated ? "validated" : "not validated";
    const more = explanation?.recommendation.action === "draw-more" ? "draw more trials" : "other advice";
    return [
      ...(run === 0
        ? [near(`${what}: linear upper endpoint`, known.linear, linear.interval[1], 1e-9, "rounding")]
        : []),
      near(
        `${what}, run ${run + 1}: Monte Carlo upper endpoint`,
        known.endpoint,
        monteCarlo.intervals.symmetric[1],
        STANDARD_ERRORS * error,
        FIVE_ERRORS,
      ),
      same(`${what}, run ${run + 1}: verdict`, known.verdict, found, "the same verdict"),
      ...(known.verdict === "not decided"
        ? [same(`${what}, run ${run + 1}: advice`, "draw more trials", more, "the same advice")]
        : []),
    ];
  });
}
