// The transform: by the module in WebAssembly and by the plain loops, identical, bit for bit; and beside the sum that defines it.
import { expect, test } from "vitest";
import { butterfliesByLoops, inverseRealTransform, realTransform } from "../../../engine/convolution/real-transform.ts";

const valuesOf = (length: number): Float64Array => {
  let state = length;
  return Float64Array.from({ length }, (_, i) => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return i % 7 === 3 ? -0 : state / 2 ** 32 - 0.3;
  });
};
const bytesOf = ({ buffer, byteOffset, byteLength }: Float64Array): Buffer =>
  Buffer.from(buffer, byteOffset, byteLength);

// 2^18 has no room in the module's memory.
test.each([8, 16, 64, 1024, 16_384, 131_072, 262_144])("%d values: the loops' bits, and back again", (length) => {
  const values = valuesOf(length);
  const { re, im } = realTransform(values);
  const plain = realTransform(values, undefined, butterfliesByLoops);
  expect(bytesOf(re).equals(bytesOf(plain.re)) && bytesOf(im).equals(bytesOf(plain.im))).toBe(true);
  const back = inverseRealTransform(plain);
  expect(bytesOf(back).equals(bytesOf(inverseRealTransform(plain, undefined, butterfliesByLoops)))).toBe(true);
  expect(Math.max(...back.map((value, i) => Math.abs(value - values[i]!)).subarray(0, 1000))).toBeLessThan(1e-14);
});

test.each([
  [64, 1],
  [64, 5],
  [1024, 37],
  [1024, 300],
  [16_384, 500],
  [16_384, 8193],
  [262_144, 500],
])("%d values at the first %d frequencies: the bits of all frequencies", (length, frequencies) => {
  const values = valuesOf(length);
  const all = realTransform(values);
  const few = realTransform(values, frequencies);
  expect([few.re.length, few.im.length]).toEqual([frequencies, frequencies]);
  expect(bytesOf(few.re).equals(bytesOf(all.re.subarray(0, frequencies)))).toBe(true);
  expect(bytesOf(few.im).equals(bytesOf(all.im.subarray(0, frequencies)))).toBe(true);
  // And back, where all other frequencies are 0.
  for (const part of [all.re, all.im]) part.fill(0, frequencies);
  expect(bytesOf(inverseRealTransform(all, frequencies)).equals(bytesOf(inverseRealTransform(all)))).toBe(true);
});

test("Σ a_j·e^(−2πijk/N), term by term", () => {
  const values = valuesOf(64);
  const { re, im } = realTransform(values);
  for (let k = 0; k <= 32; k++) {
    let [x, y] = [0, 0];
    values.forEach((value, j) => {
      x += value * Math.cos((2 * Math.PI * j * k) / 64);
      y -= value * Math.sin((2 * Math.PI * j * k) / 64);
    });
    expect(Math.hypot(re[k]! - x, im[k]! - y)).toBeLessThan(1e-13);
  }
});
