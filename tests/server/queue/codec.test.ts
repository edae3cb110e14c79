import { describe, expect, test } from "vitest";
import { decode, encode } from "../../../server/queue/codec.ts";

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
    ["counts beyond a byte", Float64Array.from({ length: 100 }, (_, i) => 250 + i), 800],
    ["zeros", new Float64Array(131_072), 0],
    ["a −0 among counts", Float64Array.from({ length: 100 }, (_, i) => (i === 50 ? -0 : i)), 800],
    ["places of a batch", Uint16Array.from({ length: 4097 }, (_, i) => i), 8194],
    ["places of a large batch", Uint32Array.from({ length: 70 }, (_, i) => i * 1e6), 280],
    ["nothing", new Float64Array(0), 0],
  ])("%s", (_, array, bytes) => {
    const whole = encode({ array });
    const { array: back } = decode(whole) as { array: typeof array };
    expect(back.constructor).toBe(array.constructor);
    expect(Buffer.from(back.buffer).equals(Buffer.from(array.buffer))).toBe(true);
    // Of the shape {"o":{"array":{"a":0}}}, three numbers, and a head of 16 bytes.
    expect(whole.length).toBe(16 + 23 + 24 + bytes);
  });

  test("the shape of batches is written once", () => {
    const batch = (i: number) => ({ first: i, moments: { mean: i / 7, m2: i }, values: Float64Array.of(i, -i) });
    const one = encode([batch(1)]);
    const hundred = Array.from({ length: 100 }, (_, i) => batch(i));
    expect(decode(encode(hundred))).toEqual(hundred);
    const plain = 8 * (3 + 3) + 16;
    expect(encode(hundred).length).toBe(one.length + 99 * plain + "00".length);
  });

  test.each([
    ["nothing at all", () => Buffer.alloc(0)],
    ["bytes of another form", () => Buffer.from("{}".padEnd(40))],
    ["a bit that was turned", () => altered(encode({ a: counts }), 500)],
    ["an end that is missing", () => encode({ a: counts }).subarray(0, -1)],
  ])("%s: refused", (_, bytes) => {
    expect(() => decode(bytes())).toThrow(RangeError);
  });

  test("what has no form is refused, not lost", () => {
    expect(() => encode({ f: () => 1 })).toThrow("function is not sent");
    expect(() => encode(new Int8Array(3))).toThrow("Int8Array is not sent");
  });
});

function altered(bytes: Buffer, place: number): Buffer {
  bytes[place]! ^= 1;
  return bytes;
}
