/** Bytes of a trace: its length, and words; inputs beyond are left out. */
const SIZE = 2 ** 16;

/** Memory in which a thread notes what it is at: it can be read when the thread has ended. */
export const newTrace = (): SharedArrayBuffer => new SharedArrayBuffer(SIZE);

export function writeTrace(trace: SharedArrayBuffer, words: string): void {
  const bytes = Buffer.from(trace);
  bytes.writeUInt32LE(bytes.write(words, 4), 0);
}

/** @returns empty if nothing was noted */
export function readTrace(trace: SharedArrayBuffer): string {
  const bytes = Buffer.from(trace);
  return bytes.toString("utf8", 4, 4 + bytes.readUInt32LE(0));
}
