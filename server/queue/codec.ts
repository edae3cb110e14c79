import { crc32 } from "node:zlib";
import { readNumbers, writeNumbers, type Numbers, type NumbersHead } from "./number-bytes.ts";

/** First bytes of everything written here; the last is the version of the form. */
const MARK = Buffer.from("TBQ\u0002", "latin1");
/** Mark, checksum, length of the shape, count of the numbers. */
const HEAD = 16;
/** Every part begins at a multiple of it, so that arrays of doubles are read where they lie. */
const STEP = 8;

/**
 * The shape of plain data, without its numbers: `0` for a number, `{ "a": … }`, with its type, for an array of numbers, `{ "l": … }` for a
 * list, as runs of equal shapes, and `{ "o": … }` for an object.
 */
type Shape =
  | 0
  | null
  | boolean
  | string
  | { readonly a: number }
  | { readonly l: readonly (readonly [count: number, shape: Shape])[] }
  | { readonly o: Readonly<Record<string, Shape>> };

const TYPES = ["Float64Array", "Uint32Array", "Uint16Array"] as const;
/** Most items that lists are read with: many times what is sent. */
const MOST_ITEMS = 2 ** 20;

const padded = (length: number): number => STEP * Math.ceil(length / STEP);
const PADDING = Buffer.alloc(STEP);

/**
 * Plain data with arrays of numbers in it as bytes: every number keeps its bits, on any machine. Arrays of small counts
 * take a byte a count, or less if most are 0. A batch has the shape of the one before it, which is written once.
 */
export function encode(value: unknown): Buffer {
  const numbers: number[] = [];
  const arrays: Uint8Array[] = [];
  const writeArray = (part: Numbers): void => {
    const { head, bytes } = writeNumbers(part);
    numbers.push(head.length, head.form, head.bytes);
    arrays.push(bytes);
    const rest = padded(bytes.length) - bytes.length;
    if (rest > 0) arrays.push(PADDING.subarray(0, rest));
  };
  const shapeOf = (part: unknown): Shape => {
    if (typeof part === "number") return (numbers.push(part), 0);
    if (part === null || typeof part === "boolean" || typeof part === "string") return part;
    if (ArrayBuffer.isView(part)) {
      const type = TYPES.findIndex((name) => part.constructor.name === name);
      if (type < 0) throw new TypeError(`${part.constructor.name} is not sent`);
      writeArray(part as Numbers);
      return { a: type };
    }
    if (Array.isArray(part)) {
      const runs: [number, Shape][] = [];
      for (const item of part) {
        const last = runs.at(-1);
        const [at, arraysAt] = [numbers.length, arrays.length];
        if (last !== undefined && writesAs(item, last[1])) {
          last[0] += 1;
          continue;
        }
        numbers.length = at;
        arrays.length = arraysAt;
        runs.push([1, shapeOf(item)]);
      }
      return { l: runs };
    }
    if (typeof part !== "object") throw new TypeError(`${typeof part} is not sent`);
    return {
      o: Object.fromEntries(
        Object.entries(part).flatMap(([name, inner]) => (inner === undefined ? [] : [[name, shapeOf(inner)]])),
      ),
    };
  };
  /** Writes the numbers of what has this shape. @returns `false` for what has another, of which a part may be written */
  const writesAs = (part: unknown, shape: Shape): boolean => {
    if (shape === 0) return typeof part === "number" && numbers.push(part) > 0;
    if (shape === null || typeof shape !== "object") return part === shape;
    if (typeof part !== "object" || part === null) return false;
    if ("a" in shape) {
      if (!ArrayBuffer.isView(part) || part.constructor.name !== TYPES[shape.a]) return false;
      writeArray(part as Numbers);
      return true;
    }
    if (ArrayBuffer.isView(part)) return false;
    if ("l" in shape) {
      if (!Array.isArray(part)) return false;
      let at = 0;
      for (const [times, inner] of shape.l)
        for (let i = 0; i < times; i++) if (at === part.length || !writesAs(part[at++], inner)) return false;
      return at === part.length;
    }
    if (Array.isArray(part)) return false;
    const fields = part as Readonly<Record<string, unknown>>;
    let left = 0;
    for (const name of Object.keys(fields)) if (fields[name] !== undefined) left += 1;
    for (const name of Object.keys(shape.o)) {
      if (!writesAs(fields[name], shape.o[name]!)) return false;
      left -= 1;
    }
    return left === 0;
  };
  const text = JSON.stringify(shapeOf(value));
  const length = Buffer.byteLength(text);
  // Spaces behind it belong to no value.
  const shape = Buffer.from(text + " ".repeat(padded(length) - length));
  const head = Buffer.alloc(HEAD);
  MARK.copy(head);
  head.writeUInt32LE(shape.length, 8);
  head.writeUInt32LE(numbers.length, 12);
  const plain = Buffer.alloc(8 * numbers.length);
  for (let i = 0; i < numbers.length; i++) plain.writeDoubleLE(numbers[i]!, 8 * i);
  const whole = Buffer.concat([head, shape, plain, ...arrays]);
  whole.writeUInt32LE(crc32(whole.subarray(8)), 4);
  return whole;
}

/**
 * What `encode` has written. Arrays of doubles may lie in these very bytes, which belong to the value from then on.
 *
 * @throws {RangeError} bytes that `encode` did not write, or that were altered since
 */
export function decode(bytes: Uint8Array): unknown {
  // Doubles are read where they lie, at a multiple of their size.
  const placed = bytes.byteOffset % STEP === 0 ? bytes : new Uint8Array(bytes);
  const whole = Buffer.from(placed.buffer, placed.byteOffset, placed.byteLength);
  if (whole.length < HEAD || !whole.subarray(0, 4).equals(MARK))
    throw new RangeError("these bytes are in no form that is read here");
  if (whole.readUInt32LE(4) !== crc32(whole.subarray(8))) throw new RangeError("the bytes do not have their checksum");
  const shapeEnd = HEAD + whole.readUInt32LE(8);
  const count = whole.readUInt32LE(12);
  const shape = JSON.parse(whole.toString("utf8", HEAD, shapeEnd)) as Shape;
  let at = shapeEnd + 8 * count;
  if (at > whole.length) throw new RangeError("numbers are missing");
  let next = 0;
  const number = (): number => {
    if (next === count) throw new RangeError("numbers are missing");
    return whole.readDoubleLE(shapeEnd + 8 * next++);
  };
  let items = 0;
  const list = (runs: readonly (readonly [times: number, read: () => unknown])[]): unknown[] => {
    const found: unknown[] = [];
    for (const [times, read] of runs)
      for (let i = 0; i < times; i++) {
        items += 1;
        if (items > MOST_ITEMS) throw new RangeError("no list has so many items");
        found.push(read());
      }
    return found;
  };
  /** A shape is gone through once, however many values have it. */
  const readerOf = (part: Shape): (() => unknown) => {
    if (part === 0) return number;
    if (part === null || typeof part !== "object") return () => part;
    if ("a" in part) {
      const type = TYPES[part.a];
      if (type === undefined) throw new RangeError("arrays of this type are not sent");
      return () => {
        const head: NumbersHead = { length: number(), form: number(), bytes: number() };
        const from = at;
        at += padded(head.bytes);
        return readNumbers(type, head, whole.subarray(from, from + head.bytes));
      };
    }
    if ("l" in part) {
      const runs = part.l.map(([times, inner]) => [times, readerOf(inner)] as const);
      return () => list(runs);
    }
    const names = Object.keys(part.o);
    if (names.includes("__proto__")) throw new RangeError("no field has this name");
    const readers = names.map((name) => readerOf(part.o[name]!));
    return () => {
      const found: Record<string, unknown> = {};
      for (let i = 0; i < names.length; i++) found[names[i]!] = readers[i]!();
      return found;
    };
  };
  return readerOf(shape)();
}
