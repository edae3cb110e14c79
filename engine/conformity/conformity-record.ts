import type { Acceptance, GuardBands, RuleName } from "./acceptance.ts";
import type { Prior } from "./conformity-statement.ts";
import type { GlobalRisk } from "./global-risk.ts";
import type { Tolerance } from "./tolerance.ts";

/** Whether one measurand conforms to its tolerance (JCGM 106:2012), by both methods. Plain JSON. */
export interface ConformityRecord {
  readonly tolerance: Tolerance;
  readonly rule: {
    readonly name: RuleName;
    /** r of the guard band w = r·U. */
    readonly guardBandMultiplier: number;
    /** Clause that describes the rule. */
    readonly source: string;
  };
  /** The items before one is measured, and how many of them conform; `null` where the study states no prior. */
  readonly prior: (Prior & { readonly probabilityOfConformity: number }) | null;
  readonly linear: AssessmentRecord;
  readonly monteCarlo: AssessmentRecord;
  /** Whether both methods decide alike. */
  readonly agree: boolean;
  /** Decision and risk in words. */
  readonly sentence: string;
}

/** One method's assessment. */
export interface AssessmentRecord {
  /** The measured value that is compared with the acceptance limits. */
  readonly estimate: number;
  /** `null` where the distribution has no standard deviation. */
  readonly standardUncertainty: number | null;
  /** U: of the budget, k·u(y); of the Monte Carlo, half the length of the study's coverage interval. */
  readonly expandedUncertainty: number;
  /** w = r·U, the wider of the two where they differ; negative for guarded rejection. */
  readonly guardBand: number;
  /** w at each limit, from the distance to that end of the coverage interval. Records before 0.3 have one for both. */
  readonly guardBands?: GuardBands;
  /** `null` where the guard bands leave nothing to accept. */
  readonly acceptance: Acceptance | null;
  readonly decision: "accepted" | "rejected";
  /** Whether the decision stands beyond the scatter of the trials. Not known of records before 0.3. */
  readonly firm?: boolean;
  /** p_c: probability that the measurand lies in its tolerance, given the measurement alone. */
  readonly probabilityOfConformity: number;
  /** Its standard error from the number of trials; `null` for the budget, which has none. */
  readonly standardError: number | null;
  /** P(Y < lower limit) and P(Y > upper limit). */
  readonly below: number;
  readonly above: number;
  /**
   * Risk of this decision on this item: the specific consumer's risk 1 − p_c if accepted (3.3.13), the specific producer's
   * risk p_c if rejected (3.3.14).
   */
  readonly specificRisk: { readonly bearer: "consumer" | "producer"; readonly value: number };
  /** C_m = (T_U − T_L)/(4·u) (7.6.2); `null` with one limit, or without an uncertainty. */
  readonly measurementCapability: number | null;
  /** The item's measurand with the prior taken into account, both normal (7.2); `null` without a prior or a u(y). */
  readonly posterior: {
    readonly estimate: number;
    readonly standardUncertainty: number;
    readonly probabilityOfConformity: number;
    readonly specificRisk: number;
  } | null;
  /** Risks of the next item before it is measured, both distributions normal (9.5); `null` without a prior or a u(y). */
  readonly globalRisk: GlobalRisk | null;
}
