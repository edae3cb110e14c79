import * as z from "zod";
import { statementSchema } from "./distributions/index.ts";
import type { RunRecord } from "./record/record.ts";
import type { Study } from "./study.ts";

/** How a study asks for its result over a range: the inputs that differ at each point. */
export const sweepSchema = z.strictObject({
  quantity: z.string().min(1).describe("What is swept, in words: bath temperature"),
  unit: z.string().min(1).describe("Its unit"),
  points: z
    .array(
      z.strictObject({
        at: z.number().describe("The swept quantity at this point"),
        inputs: z.record(z.string(), statementSchema).describe("Inputs that differ here from the study's own"),
      }),
    )
    .min(2)
    .max(50),
});

/** Both methods' result at one point of a sweep. */
export interface SweepPoint {
  readonly at: number;
  readonly trials: number;
  readonly measurands: Readonly<
    Record<
      string,
      {
        readonly linear: {
          readonly estimate: number;
          readonly standardUncertainty: number;
          readonly coverageFactor: number;
          readonly expandedUncertainty: number;
          readonly interval: readonly [number, number];
        };
        readonly monteCarlo: {
          readonly estimate: number | null;
          readonly standardUncertainty: number | null;
          /** Of the kind the study compares with. */
          readonly interval: readonly [number, number];
        };
        readonly validated: boolean;
        readonly coverageFactorNeeded: number | null;
      }
    >
  >;
}

export interface SweepRecord {
  readonly quantity: string;
  readonly unit: string;
  readonly points: readonly SweepPoint[];
}

/** The study of each point: the same seed, so that neighbouring points differ by their inputs alone. */
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
    points: sweep.points.map(({ at }, i) => {
      const { measurands, trials } = records[i]!;
      return {
        at,
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
              coverageFactorNeeded: validation.coverageFactorNeeded,
            },
          ]),
        ),
      };
    }),
  };
}
