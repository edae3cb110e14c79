/** Bytes of a trace: its length, the trial, and words; inputs beyond are left out. */
const SIZE = 2 ** 16;
const HEAD = 12;

/** Where something was: a trial, and its inputs in words. */
export interface Trace {
  readonly trial: number;
  readonly words: string;
}

/** Memory in which a thread notes what it is at, to be read when the thread has ended. */
export const newTrace = (): SharedArrayBuffer => new SharedArrayBuffer(SIZE);

/**
 * Notes a trial that is about to be evaluated.
 *
 * @param bytes as long as `newTrace` @param inputs in the order of their names @returns how many bytes it takes
 */
export function writeTrace(bytes: Buffer, trial: number, names: readonly string[], inputs: readonly number[]): number {
  const given = names.map((name, i) => `${name} = ${inputs[i]!}`).join(", ");
  const length = bytes.write(`trial ${trial} (${given})`, HEAD);
  bytes.writeDoubleLE(trial, 4);
  bytes.writeUInt32LE(length, 0);
  return HEAD + length;
}

/** @returns `null` if nothing was noted */
export function readTrace(bytes: Buffer): Trace | null {
  const length = bytes.length < HEAD ? 0 : bytes.readUInt32LE(0);
  if (length === 0) return null;
  return { trial: bytes.readDoubleLE(4), words: bytes.toString("utf8", HEAD, HEAD + length) };
}
