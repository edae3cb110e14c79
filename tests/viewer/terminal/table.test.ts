// Plain characters are counted and broken without string-width and wrap-ansi, to the same lines.
import fc from "fast-check";
import stringWidth from "string-width";
import { expect, test } from "vitest";
import wrapAnsi from "wrap-ansi";
import { displayWidth, wrap } from "../../../viewer/terminal/table.ts";

test("every character among others is as wide as string-width has it", () => {
  const wrong: string[] = [];
  for (let code = 0x20; code < 0x2400; code++) {
    const text = `x${String.fromCodePoint(code)}−1`;
    if (displayWidth(text) !== stringWidth(text)) wrong.push(code.toString(16));
  }
  expect(wrong).toEqual([]);
});

const WORDS = ["e", "δt_ax", "(−0.049 ± 0.030) °C", "151.315 83", "the", "budget", "validated", "≤", "ν_eff", "日本"];

test("a text is broken as wrap-ansi breaks it, words that are wider than a line among it", () => {
  const texts = fc.array(fc.constantFrom(...WORDS), { minLength: 1, maxLength: 20 }).map((words) => words.join(" "));
  fc.assert(
    fc.property(texts, fc.integer({ min: 1, max: 40 }), (text, width) => {
      expect(wrap(text, width)).toBe(wrapAnsi(text, width));
    }),
    { numRuns: 300, seed: 3 },
  );
});
