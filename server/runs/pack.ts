import { deserialize, serialize } from "node:v8";

/** Arrays of numbers that the state of a run holds. */
type Numbers = Float64Array | Uint32Array | Uint16Array;

const TYPES = { Float64Array, Uint32Array, Uint16Array } as const;
type TypeName = keyof typeof TYPES;

/** Arrays of fewer bytes stay where they are; others become pieces, which are written once. */
const SMALL = 4096;

/** Takes the place of an array that is a piece of its own. */
interface Reference {
  readonly piece: number;
  readonly type: TypeName;
}

export interface Packed {
  /** Plain data with references in place of large arrays, as V8 writes it: every number keeps its bits. */
  readonly state: Uint8Array;
  /** The large arrays, each under its number. */
  readonly pieces: ReadonlyMap<number, Numbers>;
}

const isReference = (value: object): value is Reference => "piece" in value && "type" in value;

const typeOf = (array: Numbers): TypeName =>
  array instanceof Float64Array ? "Float64Array" : array instanceof Uint32Array ? "Uint32Array" : "Uint16Array";

const isNumbers = (value: unknown): value is Numbers =>
  value instanceof Float64Array || value instanceof Uint32Array || value instanceof Uint16Array;

/**
 * Takes plain data apart.
 *
 * @param numberOf the number of an array's piece: the same for the same array, so that what was written before is known
 */
export function pack(value: unknown, numberOf: (array: Numbers) => number): Packed {
  const pieces = new Map<number, Numbers>();
  const walk = (part: unknown): unknown => {
    if (isNumbers(part)) {
      // A copy: the rest may lie in memory that threads share.
      if (part.byteLength < SMALL) return part.slice();
      const piece = numberOf(part);
      pieces.set(piece, part);
      return { piece, type: typeOf(part) } satisfies Reference;
    }
    if (Array.isArray(part)) return part.map(walk);
    if (typeof part !== "object" || part === null) return part;
    return Object.fromEntries(Object.entries(part).map(([name, inner]) => [name, walk(inner)]));
  };
  const state = serialize(walk(value));
  return { state, pieces };
}

/**
 * Puts plain data together again.
 *
 * @param known called for each large array with its number
 * @throws {Error} a piece is missing
 */
export function unpack(
  state: Uint8Array,
  pieces: ReadonlyMap<number, Uint8Array>,
  known: (array: Numbers, piece: number) => void,
): unknown {
  const walk = (part: unknown): unknown => {
    if (typeof part !== "object" || part === null || isNumbers(part)) return part;
    if (Array.isArray(part)) return part.map(walk);
    if (isReference(part)) {
      const bytes = pieces.get(part.piece);
      if (bytes === undefined) throw new Error(`piece ${part.piece} is missing`);
      // A copy begins where its elements may.
      const array = new TYPES[part.type](bytes.slice().buffer);
      known(array, part.piece);
      return array;
    }
    return Object.fromEntries(Object.entries(part).map(([name, inner]) => [name, walk(inner)]));
  };
  return walk(deserialize(state));
}
