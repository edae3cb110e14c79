import type { PairedDesign } from "../paired/paired-design.ts";
import { copyOfPaired, type PairedSums } from "../paired/paired-sums.ts";
import { BinnedSample, type BinnedState } from "../statistics/binned-sample.ts";
import { countedOn, CountedSample, type CountedState } from "../statistics/counted-sample.ts";
import { NO_MOMENTS, type Moments } from "../statistics/moments.ts";
import type { MeasurandBatch } from "../trials/batch.ts";
import { KEPT_TRIALS } from "../statistics/kept-trials.ts";
import type { Settling, SettlingState } from "../trials/settling.ts";

/** What is gathered of one measurand. */
export interface Tally {
  moments: Moments;
  /** What the trials have in common with those of the linearised model; `null` where these are not drawn. */
  paired: { readonly design: PairedDesign; readonly sums: PairedSums } | null;
  /** `null` before the first batch, which brings the grid. */
  sample: BinnedSample | CountedSample | null;
  readonly settling: Settling;
}

/** A tally as plain data, in arrays of its own. */
export type TallyState = Readonly<Omit<Tally, "sample" | "settling">> & {
  readonly sample: BinnedState | CountedState | null;
  readonly settling: SettlingState;
};

export const stateOfTally = ({ moments, paired, sample, settling }: Tally): TallyState => ({
  moments,
  paired: copyOf(paired),
  sample: sample?.state ?? null,
  settling: settling.state,
});

/** A tally that goes on from a state, or a new one. */
export function tallyFrom(settlingFrom: (state?: SettlingState) => Settling, state?: TallyState): Tally {
  if (state === undefined) return { moments: NO_MOMENTS, paired: null, sample: null, settling: settlingFrom() };
  const { moments, paired, sample, settling } = state;
  return {
    moments,
    paired: copyOf(paired),
    sample: sample === null ? null : sampleFrom(sample),
    settling: settlingFrom(settling),
  };
}

const copyOf = (paired: Tally["paired"]): Tally["paired"] =>
  paired === null ? null : { design: paired.design, sums: copyOfPaired(paired.sums) };

function sampleFrom(state: BinnedState | CountedState): BinnedSample | CountedSample {
  if (state.kind === "counted") return new CountedSample(state.grid, state);
  const sample = new BinnedSample(state.grid);
  for (const run of state.runs) sample.add(run);
  return sample;
}

/** A sample with a batch more in it. */
export function withRun(sample: BinnedSample | CountedSample, part: MeasurandBatch): BinnedSample | CountedSample {
  if (sample instanceof BinnedSample) {
    if (part.counted === undefined && sample.count + part.values.length <= KEPT_TRIALS) {
      sample.add(part);
      return sample;
    }
    const counted = countedOn(part.grid);
    for (const { values } of sample.runs) counted.add(values);
    return withRun(counted, part);
  }
  if (part.counted === undefined) sample.add(part.values);
  else sample.merge(part.counted);
  return sample;
}
