import type { RunRecord } from "../../engine/index.ts";
import type { Run } from "./run.ts";

/**
 * How far an adaptive run has come, from 0 to 1: s_z falls as one over the square root of the trials, so the trials
 * needed follow from the figure that is furthest from its limit. `null` if nothing is known yet.
 */
export function settledShare(record: RunRecord): number | null {
  let share = 1;
  for (const { monteCarlo } of Object.values(record.measurands)) {
    const { limit, doubled, points } = monteCarlo.settling;
    if (points.length < 2) return null;
    for (const value of Object.values(doubled)) {
      if (value !== null && value > limit) share = Math.min(share, (limit / value) ** 2);
    }
  }
  return share;
}

/** Whether the study goes on until its figures settle. */
export const isAdaptive = (record: RunRecord | null): boolean => record?.study.trials === "adaptive";

/** How far a run has come, from 0 to 1; `null` while nothing is known of it. */
export function shareDone({
  state,
  record,
  trials,
  limit,
}: Pick<Run, "state" | "record" | "trials" | "limit">): number | null {
  if (state === "waiting") return null;
  if (isAdaptive(record)) return settledShare(record!);
  return limit > 0 ? trials / limit : null;
}
