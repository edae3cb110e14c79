import { crc32 } from "node:zlib";

/** What every contestant says of one measurand. */
export interface OutputFigures {
  readonly estimate: number;
  readonly standardUncertainty: number;
  readonly symmetric: readonly [number, number];
  readonly shortest: readonly [number, number];
  readonly histogram: {
    readonly low: number;
    readonly width: number;
    readonly below: number;
    readonly above: number;
    readonly counts: readonly number[];
  };
}

/** A contestant's answer to one line "W1 1000000 7". */
export interface Answer {
  readonly workload: string;
  readonly trials: number;
  readonly seed: number;
  readonly milliseconds: number;
  /** CRC-32 over all figures as doubles: nobody can skip one. */
  readonly checksum: string;
  readonly outputs: readonly OutputFigures[];
  /** k_p of the coverage ellipsoid, where there are several measurands. */
  readonly ellipsoid: number | null;
  /** Greatest resident memory of the process so far, kB. */
  readonly residentKb: number;
  /** Ours alone: until the whole record stands, explanation and seal included. */
  readonly recordMilliseconds?: number;
}

export function checksumOf(outputs: readonly OutputFigures[], ellipsoid: number | null): string {
  const figures = outputs.flatMap(({ estimate, standardUncertainty, symmetric, shortest, histogram: h }) => [
    estimate,
    standardUncertainty,
    ...symmetric,
    ...shortest,
    h.low,
    h.width,
    h.below,
    ...h.counts,
    h.above,
  ]);
  const bytes = new DataView(new ArrayBuffer((figures.length + 1) * 8));
  [...figures, ellipsoid ?? 0].forEach((value, i) => bytes.setFloat64(8 * i, value, true));
  return crc32(new Uint8Array(bytes.buffer)).toString(16).padStart(8, "0");
}

/** What is wrong with an answer taken alone, in words; nothing where it is whole. */
export function faultsOf(answer: Answer): string[] {
  const faults: string[] = [];
  if (checksumOf(answer.outputs, answer.ellipsoid) !== answer.checksum)
    faults.push(`checksum ${answer.checksum} is not that of its figures`);
  answer.outputs.forEach(({ histogram, symmetric, shortest }, i) => {
    const counted = histogram.counts.reduce((sum, count) => sum + count, histogram.below + histogram.above);
    if (counted !== answer.trials)
      faults.push(`measurand ${i + 1}: the histogram holds ${counted} of ${answer.trials} trials`);
    if (!(symmetric[0] < symmetric[1] && shortest[0] < shortest[1]))
      faults.push(`measurand ${i + 1}: the ends of an interval do not rise`);
    if (shortest[1] - shortest[0] > symmetric[1] - symmetric[0])
      faults.push(`measurand ${i + 1}: the shortest interval is longer than the symmetric one`);
  });
  return faults;
}
