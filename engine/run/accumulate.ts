import {
  rankStandardError,
  shortestInterval,
  symmetricInterval,
  symmetricRanks,
} from "../coverage/coverage-interval.ts";
import { JointGathering, type JointState } from "../joint/joint-gathering.ts";
import type { JointRecord } from "../record/joint.ts";
import { linearCovariance } from "../linear/budget.ts";
import type { Prepared } from "../prepared/prepare.ts";
import type { MonteCarloRecord } from "../record/record.ts";
import { histogramOf } from "../statistics/histogram.ts";
import { excessKurtosis, mergeMoments, skewness, standardDeviation, type Moments } from "../statistics/moments.ts";
import { BinnedSample } from "../statistics/binned-sample.ts";
import { sortedSample, type Sample } from "../statistics/sample.ts";
import { KEPT_TRIALS } from "../statistics/kept-trials.ts";
import type { Batch } from "../trials/batch.ts";
import type { Figure } from "../record/monte-carlo.ts";
import { Settling, type ExistingMoments } from "../trials/settling.ts";
import { pairedEstimates, type ExactLinearised, type PairedEstimates } from "../paired/paired-estimates.ts";
import { addPaired, noPairedSums } from "../paired/paired-sums.ts";
import { tailIndex } from "../statistics/tail-index.ts";
import { stateOfTally, tallyFrom, withRun, type Tally, type TallyState } from "./tally.ts";

/** JCGM 101, 8.2: for a comparison the Monte Carlo figures are stabilised to δ/5. */
const VALIDATION_DIVISOR = 5;
const HISTOGRAM_BINS = 100;
/** A tail that falls off with a power below this has no second moment. */
const HEAVIEST_WITH_DEVIATION = 2;
/** Fewest batches from which the spread of a shortest interval is judged. */
export const FEWEST_BATCHES = 10;

/** Batches gathered so far as plain data, typed arrays among it: what a run goes on from. */
export interface AccumulationState {
  readonly trials: number;
  readonly leftOut: number;
  readonly settled: boolean;
  readonly tallies: readonly TallyState[];
  readonly joint: JointState | null;
}

/**
 * Accumulates batches in order and decides when to stop. Batches may be drawn on any thread; they are added here in
 * order, so that every sum is identical, bit for bit, for any number of threads.
 */
export class Accumulation {
  readonly #prepared: Prepared;
  readonly #names: readonly string[];
  readonly #exists: ExistingMoments;
  readonly #stopAt: number | null;
  readonly #tallies: readonly Tally[];
  #joint: JointGathering | null;
  #released = false;
  #trials = 0;
  #leftOut = 0;
  #settled = false;

  /**
   * @param stopAt trials after which an adaptive run stops, whether its figures have settled or not: a run that is held
   *   against another one has as many
   * @param from goes on from the `state` of an accumulation of the same study, to the same end, bit for bit
   */
  constructor(prepared: Prepared, stopAt?: number, from?: AccumulationState) {
    this.#prepared = prepared;
    this.#stopAt = stopAt ?? null;
    this.#names = Object.keys(prepared.model.measurands);
    // A t with few degrees of freedom has no variance (ν ≤ 2) or no mean (ν ≤ 1), and neither has what depends on it.
    const distributions = prepared.source.groups.flatMap((group) => group.distributions);
    this.#exists = {
      mean: distributions.every(({ mean }) => mean !== null),
      deviation: distributions.every(({ standardDeviation: s }) => s !== null && Number.isFinite(s)),
      fourth: distributions.every(({ momentsBelow }) => momentsBelow === undefined || momentsBelow > 4),
    };
    const { study, linear } = prepared;
    this.#joint = this.#names.length < 2 ? null : new JointGathering(study.significantDigits, from?.joint ?? undefined);
    this.#tallies = this.#names.map((name, i) =>
      tallyFrom(
        (settling) => new Settling(study.significantDigits, this.#exists, linear[name]!.standardUncertainty, settling),
        from?.tallies[i],
      ),
    );
    this.#trials = from?.trials ?? 0;
    this.#leftOut = from?.leftOut ?? 0;
    this.#settled = from?.settled ?? false;
  }

  /** All that was gathered; its arrays are never written again, though released memory may be. */
  get state(): AccumulationState {
    this.#requireTrials();
    return {
      trials: this.#trials,
      leftOut: this.#leftOut,
      settled: this.#settled,
      tallies: this.#tallies.map(stateOfTally),
      joint: this.#joint?.state ?? null,
    };
  }

  get trials(): number {
    return this.#trials;
  }

  /** Trials left out so far since the model is undefined for them. */
  get leftOut(): number {
    return this.#leftOut;
  }

  /** Trials of the next batch to add, or 0 when the run is complete. */
  get next(): number {
    if (this.#stopAt !== null) return Math.max(0, Math.min(this.#prepared.batch, this.#stopAt - this.#trials));
    if (this.#settled) return 0;
    return Math.min(this.#prepared.batch, this.#prepared.limit - this.#trials);
  }

  /** Why the run stopped. */
  get stop(): "fixed" | "settled" | "limit" {
    if (this.#prepared.study.trials !== "adaptive") return "fixed";
    return this.#settled ? "settled" : "limit";
  }

  /** Releases the trials. Later reads are refused. */
  release(): void {
    this.#released = true;
    for (const tally of this.#tallies) tally.sample = null;
    this.#joint = null;
  }

  get released(): boolean {
    return this.#released;
  }

  /** Whether the arrays of the next batch of this size stay in use once it is added. */
  keeps(count: number): boolean {
    return this.#trials + count <= KEPT_TRIALS;
  }

  /** Whether arrays of batches that were added are still in use. */
  get keepsTrials(): boolean {
    return this.#joint !== null || this.#tallies.some(({ sample }) => sample instanceof BinnedSample);
  }

  /** Adds the batch that starts at `trials`. */
  add(batch: Batch): void {
    if (batch.first !== this.#trials || batch.count !== this.next)
      throw new RangeError("batches must be added in order");
    batch.measurands.forEach((part, i) => {
      const tally = this.#tallies[i]!;
      tally.moments = mergeMoments(tally.moments, part.moments);
      if (part.paired !== null) {
        const { design, sums } = part.paired;
        tally.paired ??= { design, sums: noPairedSums() };
        addPaired(tally.paired.sums, sums);
      }
      tally.sample = withRun(tally.sample ?? new BinnedSample(part.grid), part);
      // A last batch cut short by a fixed number of trials counts in the result, not in the spread from batch to batch.
      if (batch.count === this.#prepared.batch) tally.settling.add(part);
    });
    if (batch.joint !== null) this.#joint!.add(batch.joint, batch.count === this.#prepared.batch);
    this.#trials += batch.count;
    this.#leftOut += batch.leftOut;
    if (this.#prepared.study.trials === "adaptive") {
      this.#settled =
        this.#tallies.every((tally) => this.#hasSettled(tally)) &&
        (this.#joint === null || !this.#exists.deviation || this.#joint.settled(VALIDATION_DIVISOR));
    }
  }

  /** The sample of a measurand's model values, for histograms and intervals of a reader's choice. */
  sample(measurand: string): Sample {
    this.#requireTrials();
    return this.#tally(measurand).sample ?? sortedSample(new Float64Array(0));
  }

  /** The joint figures of several measurands, or `null` if there is one. */
  joint(): JointRecord | null {
    this.#requireTrials();
    if (this.#joint === null) return null;
    const { coverage, linear, correlations, requirements } = this.#prepared;
    const covariance = linearCovariance(
      this.#names.map((name) => linear[name]!),
      correlations,
    );
    const found = this.#joint.result(this.#names, coverage.probability, covariance, this.#exists.deviation);
    if (found === null) return null;
    const conformity = this.#joint.conformity(
      this.#names,
      this.#names.map((name) => requirements[name]?.tolerance ?? null),
    );
    return conformity === undefined ? found : { ...found, conformity };
  }

  /** Values of all measurands of the first trials, batch by batch, if there are several measurands; otherwise `null`. */
  kept(): readonly (readonly Float64Array[])[] | null {
    this.#requireTrials();
    return this.#joint?.kept ?? null;
  }

  /** k_p of the coverage ellipsoid, which `joint` has beside all other regions; `null` where there is none. */
  ellipsoidFactor(): number | null {
    this.#requireTrials();
    if (this.#joint === null || !this.#exists.deviation) return null;
    return this.#joint.ellipsoidFactor(this.#prepared.coverage.probability);
  }

  /**
   * The figures of a measurand from the trials and those of the linearised model together; `null` where the trials of the
   * linearised model were not drawn, or where they do not tell.
   *
   * @param exact the distribution of the linearised model
   */
  paired(measurand: string, exact: ExactLinearised): PairedEstimates | null {
    const { paired, moments } = this.#tally(measurand);
    if (paired === null) return null;
    const { coverage } = this.#prepared;
    const tail = (1 - coverage.probability) / 2;
    const plain = { sample: this.sample(measurand), moments };
    return pairedEstimates(paired.design, paired.sums, exact, plain, tail, this.#exists.fourth);
  }

  /** The Monte Carlo result of a measurand from all trials so far. */
  result(measurand: string): MonteCarloRecord {
    const { moments, settling } = this.#tally(measurand);
    const sample = this.sample(measurand);
    const { probability } = this.#prepared.coverage;
    const { mean: hasMean, deviation: hasDeviation } = this.#exists;
    const M = sample.count;
    const [low, high] = symmetricRanks(M, probability);
    const u = standardDeviation(moments);
    const errors = this.#standardErrors(moments, sample);
    // Inputs that have their moments do not answer for a model with a pole.
    const index = hasDeviation ? tailIndex(sample) : Infinity;
    const heavy = index < HEAVIEST_WITH_DEVIATION;
    const resolution = Math.max(sample.resolution(low), sample.resolution(high));
    const places = PROBABILITIES.filter((p) => p * M >= 1 && (1 - p) * M >= 1);
    const quantiles = sample.nearOrderStatistics(places.map((p) => Math.max(1, Math.ceil(p * M - 1e-9))));
    const doubled = (name: Figure): number | null => {
      const value = 2 * settling.standardError(name);
      return settling.watches(name) && Number.isFinite(value) ? value : null;
    };
    return {
      estimate: hasMean ? moments.mean : null,
      standardUncertainty: hasDeviation ? u : null,
      trials: M,
      probability,
      intervals: { symmetric: symmetricInterval(sample, probability), shortest: shortestInterval(sample, probability) },
      skewness: hasDeviation ? skewness(moments) : null,
      excessKurtosis: hasDeviation ? excessKurtosis(moments) : null,
      least: sample.least,
      greatest: sample.greatest,
      standardErrors: {
        estimate: settling.watches("estimate") && !heavy ? errors.estimate : null,
        standardUncertainty: settling.watches("standardUncertainty") && !heavy ? errors.standardUncertainty : null,
        symmetric: [errors.low, errors.high],
        shortest: this.#shortestErrors(settling),
      },
      ...(heavy ? { tailIndex: index } : {}),
      histogram: histogramOf(sample, HISTOGRAM_BINS),
      ...(resolution > 0 ? { resolution } : {}),
      distributionFunction: places.map((p, i) => [p, quantiles[i]!] as const),
      settling: {
        points: settling.history,
        limit: settling.tolerance / VALIDATION_DIVISOR,
        settled: this.#hasSettled(this.#tally(measurand)),
        doubled: {
          estimate: doubled("estimate"),
          standardUncertainty: doubled("standardUncertainty"),
          low: doubled("low"),
          high: doubled("high"),
        },
      },
    };
  }

  #hasSettled({ settling, moments, sample }: Tally): boolean {
    // The place of a shortest interval is judged by its spread from batch to batch alone.
    const shortest = this.#prepared.coverage.interval === "shortest";
    if (shortest && settling.batches < FEWEST_BATCHES) return false;
    return settling.settled(VALIDATION_DIVISOR, () => {
      const { low, high, ...ofMoments } = this.#standardErrors(moments, sample!);
      return shortest ? ofMoments : { ...ofMoments, low, high };
    });
  }

  /** Standard errors from all trials by the law of each figure: u/√M, by the fourth moment, and by ranks. */
  #standardErrors(moments: Moments, sample: Sample): Record<Figure, number> {
    const { count: M } = moments;
    const u = standardDeviation(moments);
    const [low, high] = symmetricRanks(M, this.#prepared.coverage.probability);
    return {
      estimate: u / Math.sqrt(M),
      standardUncertainty: u * Math.sqrt(Math.max(0, excessKurtosis(moments) + 2) / (4 * M)),
      low: rankStandardError(sample, low),
      high: rankStandardError(sample, high),
    };
  }

  /**
   * The position of a shortest interval converges with the cube root of the number of trials (its width is flat about the
   * minimum), so the spread from batch to batch is scaled by h^(−1/3), not h^(−1/2). Only where the study's interval
   * is the shortest was that spread followed.
   */
  #shortestErrors(settling: Settling): [number, number] | null {
    if (this.#prepared.coverage.interval !== "shortest" || settling.batches < FEWEST_BATCHES) return null;
    let h = 1;
    // Integer cube root by plain arithmetic: identical bits on every machine, and accurate enough.
    while ((h + 1) * (h + 1) * (h + 1) <= settling.batches) h += 1;
    return [settling.batchDeviation("low") / h, settling.batchDeviation("high") / h];
  }

  #requireTrials(): void {
    if (this.#released) throw new RangeError("the trials of this run were released");
  }

  #tally(measurand: string): Tally {
    const tally = this.#tallies[this.#names.indexOf(measurand)];
    if (tally === undefined) throw new RangeError(`no measurand ${measurand}; there is ${this.#names.join(", ")}`);
    return tally;
  }
}

/** Where the distribution function is recorded: every half per cent, and closer in the tails. */
const PROBABILITIES: readonly number[] = [
  0.0001,
  0.0002,
  0.0005,
  0.001,
  0.002,
  ...Array.from({ length: 199 }, (_, i) => (i + 1) / 200),
  0.998,
  0.999,
  0.9995,
  0.9998,
  0.9999,
];
