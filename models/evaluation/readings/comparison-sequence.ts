import { refuse } from "../../../engine/index.ts";
import { compensatedSum } from "../../../engine/internal.ts";

/** One reading of one thermometer, in °C. */
export interface Indication {
  /** Seconds, increasing through the log. */
  readonly time: number;
  readonly channel: string;
  readonly value: number;
}

/** Reference, probe, probe, reference: one bracketed difference. */
export interface ComparisonCycle {
  readonly from: number;
  readonly to: number;
  /** Probe minus reference at the same moments, K: drift that is linear over the cycle has cancelled. */
  readonly difference: number;
  /** Mean of the reference at the moments of the probe, °C. */
  readonly reference: number;
  /** How fast the reference moved through the cycle, K/s. */
  readonly drift: number;
  readonly probeReadings: number;
  readonly referenceReadings: number;
}

export interface ComparisonSequence {
  readonly probe: string;
  readonly cycles: readonly ComparisonCycle[];
  /** True if neighbouring cycles use the same reference reading. */
  readonly shared: boolean;
  /** Correlation of neighbouring differences that sharing brings, for readings equally noisy on both channels. */
  readonly sharedCorrelation: number;
  /** Readings of the probe that no two reference readings bracket. */
  readonly unbracketed: number;
}

/**
 * Cuts a log into reference–probe–reference cycles and takes drift-corrected differences: within a cycle, the
 * reference is interpolated linearly to the moment of each probe reading. In the symmetric order R X X R this is the
 * plain difference of means, free of linear drift (common practice in comparison calibration).
 *
 * A block of several reference readings between two probe blocks is divided between the two cycles, so that they stay
 * independent; a single one is shared.
 *
 * @param indications one log in order of time, °C
 * @throws {InputError} an unknown channel, times not in order, or no complete cycle
 */
export function comparisonSequence(
  indications: readonly Indication[],
  reference: string,
  probe: string,
): ComparisonSequence {
  const channels = new Set(indications.map(({ channel }) => channel));
  for (const channel of [reference, probe]) {
    if (!channels.has(channel)) refuse("channels", channel, `a channel of the log: ${[...channels].join(", ")}`);
  }
  indications.forEach(({ time }, i) => {
    if (i > 0 && !(time > indications[i - 1]!.time))
      refuse(`indications.${i}.time`, time, `a time after ${indications[i - 1]!.time}`);
  });
  const blocks = blocksOf(indications, reference, probe);
  const cycles: ComparisonCycle[] = [];
  let shared = false;
  let unbracketed = 0;
  blocks.forEach(({ isReference, parts }, i) => {
    if (isReference) return;
    const before = blocks[i - 1];
    const after = blocks[i + 1];
    if (before === undefined || after === undefined) {
      unbracketed += parts[0]!.length;
      return;
    }
    const left = halfOf(before, i - 1 > 0, "after");
    const right = halfOf(after, i + 1 < blocks.length - 1, "before");
    shared ||= left.shared || right.shared;
    cycles.push(cycleOf(left.readings, parts[0]!, right.readings));
  });
  if (cycles.length === 0) {
    refuse(
      "indications",
      `${indications.length} readings`,
      `readings of ${probe} with readings of ${reference} before and after them`,
    );
  }
  const perCycle = cycles.reduce((sum, { probeReadings }) => sum + probeReadings, 0) / cycles.length;
  return { probe, cycles, shared, sharedCorrelation: shared ? 0.25 / (1 / perCycle + 0.5) : 0, unbracketed };
}

/** Readings of one side without the other side between them. */
interface Block {
  readonly isReference: boolean;
  /** A reference block in the parts that other probes cut it into; a probe block in one part. */
  readonly parts: Indication[][];
}

function blocksOf(indications: readonly Indication[], reference: string, probe: string): Block[] {
  const blocks: Block[] = [];
  let interrupted = false;
  for (const indication of indications) {
    const isReference = indication.channel === reference;
    if (!isReference && indication.channel !== probe) {
      interrupted = true;
      continue;
    }
    const last = blocks.at(-1);
    if (last === undefined || last.isReference !== isReference) blocks.push({ isReference, parts: [[indication]] });
    // The same pass may read several probes between two references; for this one it is still one block.
    else if (isReference && interrupted) last.parts.push([indication]);
    else last.parts.at(-1)!.push(indication);
    interrupted = false;
  }
  return blocks;
}

/** What of a reference block belongs to the cycle that follows it (`after`) or goes before it (`before`). */
function halfOf({ parts }: Block, between: boolean, side: "after" | "before") {
  const part = parts.at(side === "after" ? -1 : 0)!;
  if (!between || parts.length > 1) return { readings: part, shared: false };
  if (part.length === 1) return { readings: part, shared: true };
  const middle = Math.floor(part.length / 2);
  return { readings: side === "after" ? part.slice(middle) : part.slice(0, middle), shared: false };
}

function cycleOf(
  before: readonly Indication[],
  probe: readonly Indication[],
  after: readonly Indication[],
): ComparisonCycle {
  const start = centre(before);
  const end = centre(after);
  const drift = (end.value - start.value) / (end.time - start.time);
  const at = centre(probe);
  // A straight line through the reference at the mean time of the probe is the mean of the line at its times.
  const reference = start.value + drift * (at.time - start.time);
  return {
    from: before[0]!.time,
    to: after.at(-1)!.time,
    difference: at.value - reference,
    reference,
    drift,
    probeReadings: probe.length,
    referenceReadings: before.length + after.length,
  };
}

function centre(readings: readonly Indication[]): { readonly time: number; readonly value: number } {
  const { time, value } = readings[0]!;
  return {
    time: time + compensatedSum(readings.map((reading) => reading.time - time)) / readings.length,
    value: value + compensatedSum(readings.map((reading) => reading.value - value)) / readings.length,
  };
}
