import { ownRoom, type Room } from "../../../engine/internal.ts";

/**
 * Shared memory that runs have released, for runs to come: to make it anew for each would cost more than to fill it,
 * and a JavaScript engine does not see how much of it waits to be collected.
 */
const spare = new Map<number, SharedArrayBuffer[]>();
/** Bytes held at most; what is more is left to the collector. */
const MOST = 2 ** 26;
let waiting = 0;

/** Sizes that are taken: few enough that one run's memory fits another's. */
const STEP = 2 ** 19;
const sizeFor = (size: number): number => STEP * Math.ceil(size / STEP);

/** Shared memory of at least this size. Its content is undefined. */
export function takeRoom(size: number): SharedArrayBuffer {
  const whole = sizeFor(size);
  const found = spare.get(whole)?.pop();
  if (found === undefined) return new SharedArrayBuffer(whole);
  waiting -= whole;
  return found;
}

/** Takes back memory that nobody reads or writes any more. */
export function giveRooms(rooms: readonly SharedArrayBuffer[]): void {
  for (const room of rooms) {
    const size = room.byteLength;
    if (waiting + size > MOST) return;
    const same = spare.get(size) ?? [];
    spare.set(size, same);
    same.push(room);
    waiting += size;
  }
}

/** Bytes that wait for the next run. */
export const spareBytes = (): number => waiting;

/**
 * Room in shared memory, one array after the other and one piece after the other; what finds none is memory of this thread's
 * own, and is copied.
 */
export function roomIn(pieces: readonly SharedArrayBuffer[]): Room {
  let [piece, used] = [0, 0];
  return (bytes) => {
    const size = wholeDoubles(bytes);
    for (; piece < pieces.length; [piece, used] = [piece + 1, 0]) {
      const buffer = pieces[piece]!;
      if (used + size > buffer.byteLength) continue;
      const offset = used;
      used += size;
      return { buffer, offset };
    }
    return ownRoom(bytes);
  };
}

const wholeDoubles = (bytes: number): number => 8 * Math.ceil(bytes / 8);

/** Memory for batches that are drawn one after the other on the thread that adds them. */
export interface Workshop {
  readonly room: Room;
  /** What was taken, to be given back when nobody reads the batches any more. */
  readonly taken: SharedArrayBuffer[];
  /** Begins a batch. */
  begin(): void;
  /** Gives the memory of the batch at hand to the next one. */
  reuse(): void;
}

/** Memory taken at a time. */
const PIECE = 2 ** 22;

/** Memory of their own for each batch would be an engine's garbage, a fifth of a run's time. */
export function openWorkshop(): Workshop {
  const taken: SharedArrayBuffer[] = [];
  let [used, from] = [0, 0];
  return {
    room: (bytes) => {
      const size = wholeDoubles(bytes);
      if (taken.length === 0 || used + size > taken.at(-1)!.byteLength) {
        taken.push(takeRoom(Math.max(PIECE, size)));
        [used, from] = [0, 0];
      }
      const offset = used;
      used += size;
      return { buffer: taken.at(-1)!, offset };
    },
    taken,
    begin: () => void (from = used),
    reuse: () => void (used = from),
  };
}
