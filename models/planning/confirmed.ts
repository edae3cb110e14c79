import { refuse, type ReportedRecord } from "../../engine/index.ts";
import type { Plan, PlanPoint } from "./plan.ts";
import type { Predicted } from "./predict.ts";
import { leftOpenBy, standingOf, type TargetStanding } from "./standing.ts";

/** What the run of the proposed study found at a point, beside what was predicted. */
export interface ConfirmedPoint {
  readonly at: number;
  readonly part: string | null;
  readonly target: number;
  readonly predicted: number;
  /** The greater of the linear budget's U and the distance of the trials' interval from its estimate. */
  readonly claimed: number;
  readonly linear: number;
  readonly distribution: number;
  readonly meets: boolean;
  /** Undecided where the target lies within twice the standard error of the interval's farther endpoint (`leftOpenBy`). */
  readonly standing: TargetStanding;
}

/** What of a plan its confirmation needs. */
export interface PlanToConfirm extends Pick<Plan, "measurand"> {
  readonly points: readonly (Pick<PlanPoint, "at" | "part" | "target"> & {
    readonly proposed: Pick<Predicted, "linear" | "claimed">;
  })[];
}

/** Part of itself by which the linear budget of a run may differ from that of its plan. */
const SAME = 1e-6;

/** The proposal as a run of it found it. */
export interface Confirmation {
  readonly points: readonly ConfirmedPoint[];
  /** Whether the target is met at every point. */
  readonly meets: boolean;
  /** Missed if it is at any point, else undecided if it is at any, else met. */
  readonly standing: TargetStanding;
  /** Whether the run says of every point what was predicted of it; what it leaves undecided contradicts nothing. */
  readonly agrees: boolean;
  /** Greatest difference between run and prediction, as a share of the prediction. */
  readonly largestDifference: number;
  readonly trials: number;
}

const WORST_FIRST: readonly TargetStanding[] = ["missed", "undecided"];

/**
 * What the run of a plan's proposed study found.
 *
 * @throws {InputError} a record of another study: it has other points, or another linear budget
 */
export function confirmationOf(plan: PlanToConfirm, record: ReportedRecord): Confirmation {
  const points = record.sweep?.points ?? [];
  if (points.length !== plan.points.length || points.some(({ at }, i) => at !== plan.points[i]!.at))
    return refuse("run", `${points.length} points`, `the run of the proposed study, with ${plan.points.length} points`);
  const confirmed = plan.points.map(({ at, part, target, proposed }, i): ConfirmedPoint => {
    const found =
      points[i]!.measurands[plan.measurand] ??
      refuse("run", Object.keys(points[i]!.measurands), `a run with measurand ${plan.measurand}`);
    const [low, high] = found.monteCarlo.interval;
    const linear = found.linear.expandedUncertainty;
    if (Math.abs(linear - proposed.linear) > SAME * proposed.linear)
      return refuse("run", `U ${linear} by the linear budget at ${at}`, `${proposed.linear}, as the plan has it`);
    const distribution = Math.max(high - found.linear.estimate, found.linear.estimate - low);
    const claimed = Math.max(linear, distribution);
    const u = found.monteCarlo.standardUncertainty ?? found.linear.standardUncertainty;
    const open = u * leftOpenBy(points[i]!.trials, record.coverage.probability);
    return {
      at,
      part,
      target,
      predicted: proposed.claimed,
      claimed,
      linear,
      distribution,
      meets: claimed <= target,
      standing: standingOf(linear, distribution, target, open),
    };
  });
  return {
    points: confirmed,
    meets: confirmed.every(({ meets }) => meets),
    standing: WORST_FIRST.find((one) => confirmed.some(({ standing }) => standing === one)) ?? "met",
    agrees: confirmed.every(
      ({ meets, standing, predicted, target }) => standing === "undecided" || meets === predicted <= target,
    ),
    largestDifference: Math.max(
      ...confirmed.map(({ claimed, predicted }) => (predicted === 0 ? 0 : Math.abs(claimed - predicted) / predicted)),
    ),
    trials: points[0]!.trials,
  };
}
