import { crc32 } from "node:zlib";
import { readNumbers, writeNumbers, type Numbers, type NumbersHead } from "./number-bytes.ts";

/** First bytes of everything written here; the last is the version of the form. */
const MARK = Buffer.from("TBQ\u0001", "latin1");
/** Mark, checksum, length of the shape, count of the numbers. */
const HEAD = 16;

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

/**
 * Plain data with arrays of numbers in it as bytes: every number keeps its bits, on any machine. Arrays of small counts
 * take a byte a count, or less if most are 0. A batch has the shape of the one before it, which is written once.
 */
export function encode(value: unknown): Buffer {
  const numbers: number[] = [];
  const arrays: Uint8Array[] = [];
  const shapeOf = (part: unknown): Shape => {
    if (typeof part === "number") return (numbers.push(part), 0);
    if (part === null || typeof part === "boolean" || typeof part === "string") return part;
    if (ArrayBuffer.isView(part)) {
      const type = TYPES.findIndex((name) => part.constructor.name === name);
      if (type < 0) throw new TypeError(`${part.constructor.name} is not sent`);
      const { head, bytes } = writeNumbers(part as Numbers);
      numbers.push(head.length, head.form, head.bytes);
      arrays.push(bytes);
      return { a: type };
    }
    if (Array.isArray(part)) {
      const runs: [number, Shape][] = [];
      let before = "";
      for (const item of part) {
        const shape = shapeOf(item);
        const text = JSON.stringify(shape);
        if (text === before) runs.at(-1)![0] += 1;
        else runs.push([1, shape]);
        before = text;
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
  const shape = Buffer.from(JSON.stringify(shapeOf(value)));
  const head = Buffer.alloc(HEAD);
  MARK.copy(head);
  head.writeUInt32LE(shape.length, 8);
  head.writeUInt32LE(numbers.length, 12);
  const plain = Buffer.alloc(8 * numbers.length);
  numbers.forEach((number, i) => plain.writeDoubleLE(number, 8 * i));
  const whole = Buffer.concat([head, shape, plain, ...arrays]);
  whole.writeUInt32LE(crc32(whole.subarray(8)), 4);
  return whole;
}

/** @throws {RangeError} bytes that `encode` did not write, or that were altered since */
export function decode(bytes: Uint8Array): unknown {
  const whole = Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength);
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
  const valueOf = (part: Shape): unknown => {
    if (part === 0) return number();
    if (part === null || typeof part !== "object") return part;
    if ("a" in part) {
      const head: NumbersHead = { length: number(), form: number(), bytes: number() };
      const from = at;
      at += head.bytes;
      return readNumbers(TYPES[part.a]!, head, whole.subarray(from, at));
    }
    if ("l" in part) return part.l.flatMap(([times, inner]) => Array.from({ length: times }, () => valueOf(inner)));
    return Object.fromEntries(Object.entries(part.o).map(([name, inner]) => [name, valueOf(inner)]));
  };
  return valueOf(shape);
}
