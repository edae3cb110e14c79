import { crc32 } from "node:zlib";
import { describe, expect, test } from "vitest";
import { decode, encode } from "../../../server/queue/codec.ts";

type Numbers = Float64Array | Uint16Array | Uint32Array;
/** The first place where two arrays differ, a zero's sign and what is no number among it; −1 if there is none. */
const firstOther = (some: Numbers, others: Numbers): number =>
  Array.prototype.findIndex.call(some, (number, i) => !Object.is(number, others[i]));

describe("plain data through bytes", () => {
  test("numbers keep their bits, those without JSON too", () => {
    const value = { a: -0, b: Infinity, c: Number.NaN, d: 0.1 + 0.2, e: 5e-324, f: null, g: "words", h: [true, false] };
    const back = decode(encode(value)) as typeof value;
    for (const name of Object.keys(value) as (keyof typeof value)[])
      if (typeof value[name] === "number") expect(Object.is(back[name], value[name]), name).toBe(true);
      else expect(back[name]).toEqual(value[name]);
  });

  const counts = Float64Array.from({ length: 5000 }, (_, i) => i % 200);
  const few = new Float64Array(5000);
  few[0] = 1;
  few[17] = 300;
  few[4999] = 2 ** 31 - 1;
  test.each([
    ["numbers", Float64Array.from({ length: 100 }, (_, i) => Math.sqrt(i) - 5), 800],
    ["small counts, a byte each", counts, 5000],
    ["few counts, by their gaps", few, 12],
    ["counts beyond a byte, two bytes each", Float64Array.from({ length: 100 }, (_, i) => 250 + i), 200],
    ["counts beyond two bytes", Float64Array.from({ length: 100 }, (_, i) => 65_500 + i), 800],
    ["zeros", new Float64Array(131_072), 0],
    ["a −0 among counts", Float64Array.from({ length: 100 }, (_, i) => (i === 50 ? -0 : i)), 800],
    ["places of a batch", Uint16Array.from({ length: 4097 }, (_, i) => i), 8194],
    ["places of a large batch", Uint32Array.from({ length: 70 }, (_, i) => i * 1e6), 280],
    ["nothing", new Float64Array(0), 0],
  ])("%s", (_, array, bytes) => {
    const whole = encode({ array });
    const { array: back } = decode(whole) as { array: typeof array };
    expect(back.constructor).toBe(array.constructor);
    expect(back.length).toBe(array.length);
    expect(firstOther(back, array)).toBe(-1);
    // Of the shape {"o":{"array":{"a":0}}}, three numbers, and a head of 16 bytes.
    expect(whole.length).toBe(16 + padded(23) + 24 + padded(bytes));
    // Wherever the bytes lie.
    const moved = new Uint8Array(whole.length + 3);
    moved.set(whole, 3);
    const { array: there, ...rest } = decode(moved.subarray(3)) as { array: typeof array };
    expect({ type: there.constructor, length: there.length, rest }).toEqual({
      type: array.constructor,
      length: array.length,
      rest: {},
    });
    expect(firstOther(there, array)).toBe(-1);
  });

  test("the shape of batches is written once", () => {
    const batch = (i: number) => ({ first: i, moments: { mean: i / 7, m2: i }, values: Float64Array.of(i, -i) });
    const one = encode([batch(1)]);
    const hundred = Array.from({ length: 100 }, (_, i) => batch(i));
    expect(decode(encode(hundred))).toEqual(hundred);
    const plain = 8 * (3 + 3) + 16;
    const more = encode(hundred).length - one.length - 99 * plain;
    expect(more).toBeGreaterThanOrEqual(0);
    expect(more).toBeLessThanOrEqual(8);
  });

  test.each([
    ["a field more", [{ a: 1 }, { a: 1, b: 2 }]],
    ["a field less", [{ a: 1, b: 2 }, { a: 1 }]],
    ["another field", [{ a: 1 }, { b: 1 }]],
    ["nothing in place of an object", [{ a: { b: 1 } }, { a: null }]],
    ["an object in place of nothing", [{ a: null }, { a: { b: 1 } }]],
    ["an array of numbers for a list", [{ a: [1, 2] }, { a: Float64Array.of(1, 2) }, { a: Uint16Array.of(1) }]],
    ["lists of several lengths", [[1, 2], [1], [1, 2, 3], [], [null], [1, null]]],
    ["words", ["a", "a", "b", "a"]],
    ["alike up to the last", [{ a: [1, 2, { b: 1, c: null }] }, { a: [1, 2, { b: 1, c: 3 }] }]],
  ])("a list whose items differ: %s", (_, list) => {
    expect(decode(encode(list))).toEqual(list);
  });

  test("what a field does not say is left out", () => {
    expect(decode(encode([{ a: 1 }, { a: 1, b: undefined }, { a: undefined }]))).toEqual([{ a: 1 }, { a: 1 }, {}]);
  });

  test.each([
    ["nothing at all", () => Buffer.alloc(0)],
    ["bytes of another form", () => Buffer.from("{}".padEnd(40))],
    ["a bit that was turned", () => altered(encode({ a: counts }), 500)],
    ["a list without end", () => shaped('{"l":[[1e15,null]]}')],
    ["lists in lists without end", () => shaped(nested(30))],
    ["a field that changes what an object is", () => shaped('{"o":{"__proto__":{"o":{"a":true}}}}')],
    ["an array of another type", () => shaped('{"a":7}')],
    ["an end that is missing", () => encode({ a: counts }).subarray(0, -1)],
  ])("%s: refused", (_, bytes) => {
    expect(() => decode(bytes())).toThrow(RangeError);
  });

  test("what has no form is refused, not lost", () => {
    expect(() => encode({ f: () => 1 })).toThrow("function is not sent");
    expect(() => encode(new Int8Array(3))).toThrow("Int8Array is not sent");
  });
});

const padded = (length: number): number => 8 * Math.ceil(length / 8);

/** What somebody writes who knows the form and the checksum. */
function shaped(text: string): Buffer {
  const bytes = encode(null);
  const whole = Buffer.concat([bytes.subarray(0, 16), Buffer.from(text)]);
  whole.writeUInt32LE(text.length, 8);
  whole.writeUInt32LE(crc32(whole.subarray(8)), 4);
  return whole;
}

const nested = (depth: number): string => (depth === 0 ? "null" : `{"l":[[2,${nested(depth - 1)}]]}`);

function altered(bytes: Buffer, place: number): Buffer {
  bytes[place]! ^= 1;
  return bytes;
}
