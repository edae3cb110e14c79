import type { RunRecord } from "../record/record.ts";
import type { SweepPoint, SweepRecord } from "../record/sweep.ts";
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

/** The figures of one point, beside which the sweep states where it lies. */
export type PointFigures = Omit<SweepPoint, "at" | "second" | "part">;

/** What a sweep keeps of the run of a point: a hundredth of its record, which is let go. */
export const figuresOfPoint = ({ measurands, trials }: RunRecord, { coverage }: Study): PointFigures => ({
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
});

/** A sweep with the figures of its points, in order; `null` for a study without one. */
export function sweepRecord({ sweep }: Study, figures: readonly PointFigures[]): SweepRecord | null {
  if (sweep === null) return null;
  return {
    quantity: sweep.quantity,
    unit: sweep.unit,
    ...(sweep.second === undefined ? {} : { second: sweep.second }),
    points: sweep.points.map(({ at, second, part }, i) => ({
      at,
      ...(second === undefined ? {} : { second }),
      ...(part === undefined ? {} : { part }),
      ...figures[i]!,
    })),
  };
}
