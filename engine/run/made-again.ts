import { assessFound } from "../conformity/assess.ts";
import { concluded } from "../explanation/explain.ts";
import type { ConformityRecord } from "../record/conformity.ts";
import type { ExplanationRecord } from "../record/explanation.ts";
import type { MeasurandRecord, MonteCarloRecord, RunRecord, ValidationRecord } from "../record/record.ts";
import type { SweepPoint } from "../record/sweep.ts";
import { sentencesOfRun, type MeasurandSentences, type RunSentences, type Wording } from "../sentences/speak.ts";
import { FEWEST_BATCHES } from "./accumulate.ts";
import { FEWEST_TO_SETTLE } from "../trials/settling.ts";
import type { Prepared } from "../prepared/prepare.ts";
import { compareIntervals } from "../validation/compare.ts";
import { pairedDecision, secondOrderVerdict, verdictOn } from "./verdict.ts";

/** A part of a document, at the same places. */
type Part<T> = T extends string | number | boolean | null ? T : { readonly [K in keyof T]?: Part<T[K]> };

/** What follows from the other figures of a record, at its places: verdicts, decisions and sentences. */
export type MadeAgain = Part<RunRecord>;

/**
 * Makes again everything that follows from a record's own figures: whether they had settled and why the run stopped,
 * each verdict, what to do, each decision on conformity, and every sentence. Of a record that was not altered it is what
 * stands in it, whichever draws its figures are from.
 *
 * @param prepared the record's study, prepared with its model
 * @param wording of the sentences
 */
export function madeAgain(prepared: Prepared, record: RunRecord, wording: Wording = "today"): MadeAgain {
  const { groups } = prepared.source;
  const sentences = sentencesOfRun(record, { groups, correlations: prepared.correlations }, wording);
  return {
    generator: { seed: prepared.study.seed },
    trials: trialsAgain(prepared, record),
    measurands: Object.fromEntries(
      Object.entries(record.measurands).map(([name, measurand]) => [
        name,
        measurandAgain(prepared, record, name, measurand, sentences),
      ]),
    ),
    ...(record.sweep === null
      ? {}
      : { sweep: { points: record.sweep.points.map((point) => pointAgain(prepared, point)) } }),
    remarks: sentences.remarks,
  };
}

/** Why the run stopped, as far as its figures show: of several measurands the joint figures have a say too. */
function trialsAgain(prepared: Prepared, { trials, measurands, joint }: RunRecord): Part<RunRecord["trials"]> {
  const batch = { batch: prepared.batch };
  if (prepared.study.trials !== "adaptive") return { ...batch, stop: "fixed" };
  const settled = Object.values(measurands).every(({ monteCarlo }) => settledAgain(prepared, monteCarlo));
  if (settled && (joint === null || trials.count < prepared.limit)) return { ...batch, stop: "settled" };
  // Nothing but its limit ends a run whose figures have not settled.
  return settled ? batch : { ...batch, stop: "limit", count: prepared.limit };
}

function measurandAgain(
  prepared: Prepared,
  record: RunRecord,
  name: string,
  measurand: MeasurandRecord,
  sentences: RunSentences,
): Part<MeasurandRecord> {
  const { linear, monteCarlo, secondOrder, paired } = measurand;
  const words = sentences.measurands[name]!;
  const validation: ValidationRecord = { ...verdictOn(prepared, linear, monteCarlo, paired), ...words.validation };
  return {
    ...(paired === undefined
      ? {}
      : {
          paired: {
            ...words.paired!,
            ...(paired.kind === "figures" ? pairedDecision(validation, paired, monteCarlo) : {}),
          },
        }),
    monteCarlo: { settling: { settled: settledAgain(prepared, monteCarlo) } },
    validation,
    ...(secondOrder === null
      ? {}
      : {
          secondOrder: secondOrderVerdict(
            secondOrder.interval,
            monteCarlo.intervals[prepared.coverage.interval],
            validation.numericalTolerance,
          ),
        }),
    ...explanationAgain(prepared, measurand, words),
    ...conformityAgain(prepared, record, name, words),
    ...(words.linearised === null ? {} : { linearised: words.linearised }),
    ...(words.sensitivity === null ? {} : { sensitivity: words.sensitivity }),
  };
}

function explanationAgain(
  prepared: Prepared,
  measurand: MeasurandRecord,
  { explanation: words }: MeasurandSentences,
): { readonly explanation?: Part<ExplanationRecord> } {
  if (measurand.explanation === null || words === null) return {};
  const { recommendation, ...rest } = concluded(prepared, measurand, measurand.explanation.parts);
  return {
    explanation: {
      ...rest,
      sentence: words.sentence,
      recommendation: { ...recommendation, ...words.recommendation },
    },
  };
}

function conformityAgain(
  { requirements, coverage }: Prepared,
  { measurands }: RunRecord,
  name: string,
  { conformity: words }: MeasurandSentences,
): { readonly conformity?: ConformityRecord } {
  const { conformity, linear, monteCarlo } = measurands[name]!;
  const requirement = requirements[name];
  if (conformity === null || requirement === undefined || words === null) return {};
  const { probabilityOfConformity, below, above, standardError } = conformity.monteCarlo;
  const found = assessFound(
    requirement,
    {
      linear: { ...linear, effectiveDegreesOfFreedom: linear.effectiveDegreesOfFreedom ?? Infinity },
      monteCarlo,
      interval: coverage.interval,
    },
    { value: probabilityOfConformity, below, above, standardError: standardError ?? 0 },
  );
  return { conformity: { ...found, ...words } };
}

/** A point of a sweep has its verdict alone: whether the trials decide it is not kept. */
function pointAgain({ study, coverage }: Prepared, { measurands, trials }: SweepPoint): Part<SweepPoint> {
  const context = {
    digits: study.significantDigits,
    settled: true,
    trials,
    probability: coverage.probability,
    standardErrors: null,
    lastBit: 0,
  };
  return {
    measurands: Object.fromEntries(
      Object.entries(measurands).map(([name, { linear, monteCarlo }]) => {
        const { interval, standardUncertainty: u } = monteCarlo;
        const found = compareIntervals(linear, interval, u, {
          ...context,
          varies: interval[0] !== interval[1] || (u ?? 0) > 0,
        });
        return [name, { validated: found.validated, coverageFactorNeeded: found.coverageFactorNeeded }];
      }),
    ),
  };
}

/** The stopping rule of `Accumulation`, from what a record keeps of the batches and of the laws of the figures. */
function settledAgain(
  { coverage, batch }: Prepared,
  { trials, standardUncertainty: u, excessKurtosis, standardErrors, settling: { doubled, limit } }: MonteCarloRecord,
): boolean {
  const shortest = coverage.interval === "shortest";
  if (Math.floor(trials / batch) < (shortest ? FEWEST_BATCHES : FEWEST_TO_SETTLE)) return false;
  const [low, high] = shortest ? [0, 0] : standardErrors.symmetric;
  const byLaw = {
    estimate: (u ?? 0) / Math.sqrt(trials),
    standardUncertainty: (u ?? 0) * Math.sqrt(Math.max(0, (excessKurtosis ?? 0) + 2) / (4 * trials)),
    low,
    high,
  };
  return (Object.keys(byLaw) as (keyof typeof byLaw)[]).every((figure) => {
    // What has no spread from batch to batch is not watched: the figure does not exist.
    const spread = doubled[figure];
    return spread === null || (spread <= limit && 2 * byLaw[figure] <= limit);
  });
}
