import { expect, test } from "vitest";
import { philox4x32 } from "../../../engine/random/philox.ts";

/**
 * Known answers of Philox4x32-10 as distributed with the paper's own code (file kat_vectors; Salmon et al., SC11 2011).
 * The third counter and key are the first digits of π in base 16.
 */
test.each([
  ["00000000 00000000 00000000 00000000", "00000000 00000000", "6627e8d5 e169c58d bc57ac4c 9b00dbd8"],
  ["ffffffff ffffffff ffffffff ffffffff", "ffffffff ffffffff", "408f276d 41c83b0e a20bc7c6 6d5451fd"],
  ["243f6a88 85a308d3 13198a2e 03707344", "a4093822 299f31d0", "d16cfe09 94fdcceb 5001e420 24126ea1"],
])("counter %s, key %s", (counter, key, answer) => {
  const [c0, c1, c2, c3] = words(counter);
  const [k0, k1] = words(key);
  const out = new Uint32Array(4);
  philox4x32(out, k0!, k1!, c0!, c1!, c2!, c3!);
  expect([...out].map((word) => word.toString(16).padStart(8, "0")).join(" ")).toBe(answer);
});

test("signed and unsigned words are the same counter", () => {
  const [signed, unsigned] = [new Uint32Array(4), new Uint32Array(4)];
  philox4x32(signed, -1, -2, -3, -4, -5, -6);
  philox4x32(unsigned, 2 ** 32 - 1, 2 ** 32 - 2, 2 ** 32 - 3, 2 ** 32 - 4, 2 ** 32 - 5, 2 ** 32 - 6);
  expect(signed).toEqual(unsigned);
});

test("changing one bit of counter or key changes about half of the bits", () => {
  // 192 changes of 128 bits each: 12 288 ± 5·√(192·128/4) flips expected.
  const base = [1, 2, 3, 4, 5, 6];
  const plain = answer(base);
  let flips = 0;
  for (let word = 0; word < 6; word++) {
    for (let bit = 0; bit < 32; bit++) {
      const changed = answer(base.map((value, i) => (i === word ? value ^ (1 << bit) : value)));
      for (let i = 0; i < 4; i++) flips += ones(plain[i]! ^ changed[i]!);
    }
  }
  expect(Math.abs(flips - 12_288)).toBeLessThan(5 * Math.sqrt((192 * 128) / 4));
});

const answer = (at: readonly number[]): Uint32Array => {
  const out = new Uint32Array(4);
  philox4x32(out, at[0]!, at[1]!, at[2]!, at[3]!, at[4]!, at[5]!);
  return out;
};

const ones = (word: number): number => (word >>> 0).toString(2).replaceAll("0", "").length;

const words = (text: string): number[] => text.split(" ").map((word) => Number.parseInt(word, 16));
