/**
 * Shared memory that runs have released, for runs to come: to make it anew for each would cost more than to fill it,
 * and a JavaScript engine does not see how much of it waits to be collected.
 */
const spare = new Map<number, SharedArrayBuffer[]>();
/** Bytes held at most; what is more is left to the collector. */
const MOST = 2 ** 26;
let bytes = 0;

/** Sizes that are taken: few enough that one run's memory fits another's. */
const STEP = 2 ** 19;
const sizeFor = (size: number): number => STEP * Math.ceil(size / STEP);

/** Shared memory of at least this size. Its content is undefined. */
export function takeRoom(size: number): SharedArrayBuffer {
  const whole = sizeFor(size);
  const found = spare.get(whole)?.pop();
  if (found === undefined) return new SharedArrayBuffer(whole);
  bytes -= whole;
  return found;
}

/** Takes back memory that nobody reads or writes any more. */
export function giveRooms(rooms: readonly SharedArrayBuffer[]): void {
  for (const room of rooms) {
    const size = room.byteLength;
    if (bytes + size > MOST) return;
    const same = spare.get(size) ?? [];
    spare.set(size, same);
    same.push(room);
    bytes += size;
  }
}

/** Bytes that wait for the next run. */
export const spareBytes = (): number => bytes;
