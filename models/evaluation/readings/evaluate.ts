import { refuse, type Statement } from "../../../engine/index.ts";
import { ratioSlope, resistance } from "../../platinum/iec60751.ts";
import { comparisonSequence, type ComparisonSequence, type Indication } from "./comparison-sequence.ts";
import { duration, figure, millikelvin, type Check } from "../check.ts";
import { straightLine } from "../survey/straight-line.ts";
import type { ReadingsDescription } from "./description.ts";
import { pairedReadings } from "./paired-readings.ts";
import { evaluateTypeA, type TypeAEvaluation } from "./type-a.ts";
import { showInstant } from "../text/instant.ts";

/** One probe of a log against the reference. */
export interface ProbeEvaluation {
  readonly probe: string;
  readonly reference: string;
  /** R₀ in Ω if the probe was read as a resistance. */
  readonly nominalResistance: number | null;
  /** Whether probe and reference were read together; else in turn, and each difference comes from a cycle. */
  readonly together: boolean;
  /** Whether the moments of the readings are known; else only their order is. */
  readonly timed: boolean;
  readonly sequence: ComparisonSequence;
  /** Mean of the reference over all cycles, °C. */
  readonly referenceMean: number;
  /** Of the differences probe − reference, K. */
  readonly typeA: TypeAEvaluation;
  /** Error of the mean without the drift correction, K: the first reference reading taken alone. */
  readonly uncorrectedShift: number;
  readonly checks: readonly Check[];
  readonly reasoning: readonly string[];
}

/** What an object states under a name itself: a channel may be called `constructor`. */
const ownOf = <T>(object: Readonly<Record<string, T>> | undefined, name: string): T | undefined =>
  object !== undefined && Object.hasOwn(object, name) ? object[name] : undefined;

/**
 * Evaluates every probe of a log of comparison readings.
 *
 * @param indications in order of time, all in °C (resistances already converted)
 * @param timed whether their times are moments; else they only count
 * @throws {InputError} no complete cycle, or a single one without history
 */
export function evaluateReadings(
  description: ReadingsDescription,
  indications: readonly Indication[],
  timed = true,
): readonly ProbeEvaluation[] {
  const { reference, channels } = description;
  if (!Object.hasOwn(channels, reference))
    refuse("channels", Object.keys(channels).join(", "), `a list with the reference ${reference} in it`);
  const probes = Object.keys(channels).filter((channel) => channel !== reference);
  if (probes.length === 0)
    refuse("channels", Object.keys(channels).join(", "), "at least one probe beside the reference");
  const unit = (channel: string): number | null => ownOf(channels, channel)?.nominalResistance ?? null;
  return probes.map((probe) => {
    const paired = pairedReadings(indications, reference, probe);
    const sequence = paired ?? comparisonSequence(indications, reference, probe);
    const { cycles } = sequence;
    const typeA = evaluateTypeA(
      cycles.map(({ difference }) => difference),
      {
        history: ownOf(description.history, probe),
        sharedCorrelation: sequence.sharedCorrelation,
        significance: description.significance,
      },
    );
    const uncorrected = cycles.reduce((sum, { drift, from, to }) => sum + (drift * (to - from)) / 2, 0) / cycles.length;
    const reasoning = [
      ...(paired === null ? inTurn(sequence, timed, uncorrected) : together(sequence, timed)),
      ...(sequence.shared
        ? ["neighbouring cycles share a reference reading, so their differences are not independent"]
        : []),
      ...(sequence.unbracketed > 0
        ? [
            paired === null
              ? `${sequence.unbracketed} readings of ${probe} without a reference on both sides are not used`
              : `${sequence.unbracketed} readings of ${probe} without one of the reference at the same moment are not used`,
          ]
        : []),
      ...typeA.reasoning,
      `mean difference ${millikelvin(typeA.mean)}, s ${millikelvin(typeA.standardDeviation)}, u ${millikelvin(typeA.standardUncertainty)} ` +
        `with ${figure(typeA.degreesOfFreedom)} degrees of freedom (${typeA.basis})`,
    ];
    return {
      probe,
      reference,
      nominalResistance: unit(probe),
      together: paired !== null,
      timed,
      sequence,
      referenceMean: cycles.reduce((sum, cycle) => sum + cycle.reference, 0) / cycles.length,
      typeA,
      uncorrectedShift: uncorrected,
      checks: typeA.checks,
      reasoning,
    };
  });
}

/** How differences of readings in turn come about, in words. */
function inTurn({ cycles }: ComparisonSequence, timed: boolean, uncorrected: number): string[] {
  const interpolated = "the reference is interpolated to each probe reading, so that linear drift cancels";
  const lost = `without the correction the mean would be off by ${millikelvin(uncorrected)}`;
  if (!timed)
    return [
      `${cycles.length} cycles reference–probe–reference in the order of the rows, taken as evenly spaced in time; ${interpolated}`,
      lost,
    ];
  const drifts = cycles.map(({ drift }) => drift);
  const fastest = drifts.reduce((most, drift) => (Math.abs(drift) > Math.abs(most) ? drift : most), 0);
  const longest = Math.max(...cycles.map(({ from, to }) => to - from));
  return [
    `${cycles.length} cycles reference–probe–reference from ${showInstant(cycles[0]!.from)} to ${showInstant(cycles.at(-1)!.to)}, ` +
      `the longest ${duration(longest)}; ${interpolated}`,
    `the reference moved by ${millikelvin(fastest * 60)} a minute at most; ${lost}`,
    `other changes of the bath within a cycle are in the scatter of the differences: a stability over 30 min would count it again, ` +
      `so state that over ${duration(longest)} (stability.cycleMinutes of a survey)`,
  ];
}

/** How differences of readings that were taken together come about, in words. */
function together({ cycles }: ComparisonSequence, timed: boolean): string[] {
  const when = timed ? ` from ${showInstant(cycles[0]!.from)} to ${showInstant(cycles.at(-1)!.to)}` : "";
  return [
    `${cycles.length} pairs read together${when}: a change of the bath that both thermometers follow is in neither difference`,
    ...driftOf(
      cycles.map(({ from }) => from),
      cycles.map(({ reference }) => reference),
      "the reference",
      timed,
    ),
    ...driftOf(
      cycles.map(({ from }) => from),
      cycles.map(({ difference }) => difference),
      "the difference",
      timed,
    ),
  ];
}

/** Slope of a straight line through a series that is long enough to show one. */
function driftOf(times: readonly number[], values: readonly number[], what: string, timed: boolean): string[] {
  if (times.length < 3) return [];
  const { slope, slopeStandardUncertainty } = straightLine(times, values);
  const each = timed ? 60 : 1;
  return [
    `${what} drifted by ${millikelvin(slope * each)} a ${timed ? "minute" : "row"}, u ${millikelvin(slopeStandardUncertainty * each)}`,
  ];
}

const sourceOf = ({ probe, reference, typeA, sequence, together: paired }: ProbeEvaluation): string =>
  `comparison readings of ${probe} against ${reference}: ${sequence.cycles.length} ${paired ? "pairs read together" : "drift-corrected cycles"}, ${typeA.basis}`;

/** The difference probe − reference as an input quantity, K. @throws {InputError} no dispersion to state */
export function differenceStatement(evaluation: ProbeEvaluation): Statement {
  const { cycles } = evaluation.sequence;
  return seriesStatement(
    cycles.map(({ difference }) => difference),
    evaluation,
    1,
  );
}

/**
 * The two readings that the model `bath-comparison` asks for. Both channels' dispersion and the drift correction are
 * in the resistance, one value a cycle, each referred to the mean temperature of the reference; that mean is then a
 * constant, so nothing is counted twice.
 *
 * @throws {InputError} a probe not read as a resistance, or no dispersion to state
 */
export function comparisonStatements(
  evaluation: ProbeEvaluation,
): Readonly<Record<"probeResistance" | "referenceReading" | "nominalResistance", Statement>> {
  const { nominalResistance, referenceMean, probe, reference, sequence } = evaluation;
  if (nominalResistance === null) {
    return refuse(`channels.${probe}.nominalResistance`, undefined, "R₀ in Ω of a probe read as a resistance");
  }
  const values = sequence.cycles.map(({ difference }) => resistance(referenceMean + difference, nominalResistance));
  return {
    probeResistance: seriesStatement(values, evaluation, nominalResistance * ratioSlope(referenceMean)),
    referenceReading: {
      distribution: "constant",
      value: referenceMean,
      source: `mean of ${reference} over the cycles; its dispersion is in that of the differences to ${probe}`,
    },
    nominalResistance: { distribution: "constant", value: nominalResistance, source: `nominal resistance of ${probe}` },
  };
}

/** A series as a statement: the values themselves if they are independent, else t with the results of the evaluation. */
function seriesStatement(values: number[], evaluation: ProbeEvaluation, slope: number): Statement {
  const { typeA } = evaluation;
  const source = sourceOf(evaluation);
  if (typeA.standardUncertainty === 0) {
    refuse(
      `readings.${evaluation.probe}`,
      `${values.length} equal differences`,
      "differences that vary, or a history: state the resolution of the readout as an input of its own",
    );
  }
  if (typeA.effectiveCount < typeA.count) {
    const mean = values.reduce((sum, value) => sum + (value - values[0]!), 0) / values.length + values[0]!;
    return {
      distribution: "t",
      estimate: mean,
      standardUncertainty: typeA.standardUncertainty * slope,
      degreesOfFreedom: typeA.degreesOfFreedom,
      evaluation: "A",
      source,
    };
  }
  if (typeA.pooled === null) return { distribution: "readings", values, source };
  return {
    distribution: "readings",
    values,
    pooledStandardDeviation: typeA.pooled.standardDeviation * slope,
    pooledDegreesOfFreedom: typeA.pooled.degreesOfFreedom,
    source,
  };
}
