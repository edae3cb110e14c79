import type { RunRecord } from "../record/record.ts";
import type { SweepRecord } from "../record/sweep.ts";
import type { Study } from "../study/study.ts";

/** The study of each point: the same seed, so that neighbouring points differ only by their inputs. */
export const studiesOfSweep = (study: Study): Study[] =>
  (study.sweep?.points ?? []).map(({ inputs }) => ({
    ...study,
    sweep: null,
    sensitivity: null,
    conformity: {},
    inputs: { ...study.inputs, ...inputs },
  }));

/** What a sweep keeps of the runs of its points, in order; `null` for a study without one. */
export function sweepRecord({ sweep, coverage }: Study, records: readonly RunRecord[]): SweepRecord | null {
  if (sweep === null) return null;
  return {
    quantity: sweep.quantity,
    unit: sweep.unit,
    ...(sweep.second === undefined ? {} : { second: sweep.second }),
    points: sweep.points.map(({ at, second, part }, i) => {
      const { measurands, trials } = records[i]!;
      return {
        at,
        ...(second === undefined ? {} : { second }),
        ...(part === undefined ? {} : { part }),
        trials: trials.count,
        measurands: Object.fromEntries(
          Object.entries(measurands).map(([name, { linear, monteCarlo, validation }]) => [
            name,
            {
              linear: {
                estimate: linear.estimate,
                standardUncertainty: linear.standardUncertainty,
                coverageFactor: linear.coverageFactor,
                expandedUncertainty: linear.expandedUncertainty,
                interval: linear.interval,
              },
              monteCarlo: {
                estimate: monteCarlo.estimate,
                standardUncertainty: monteCarlo.standardUncertainty,
                interval: monteCarlo.intervals[coverage.interval],
              },
              validated: validation.validated,
              firm: validation.firm,
              ...(validation.nothingVaries === true ? { nothingVaries: true as const } : {}),
              coverageFactorNeeded: validation.coverageFactorNeeded,
            },
          ]),
        ),
      };
    }),
  };
}
