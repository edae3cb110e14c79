import fc from "fast-check";
import { expect, test } from "vitest";
import { harmless, harmlessLines, harmlessText } from "../../../viewer/terminal/harmless.ts";
import { stylesFor } from "../../../viewer/terminal/style.ts";
import { summaryOf } from "../../../viewer/terminal/summary.ts";
import { runExample } from "../../read-example.ts";

// Sequences of ECMA-48 (clear, title by OSC, C1 introducer) and the bidirectional controls of Unicode 15, 23.2.
test.each([
  ["\u001b[2J", "\\u{001B}[2J"],
  ["\u001b]0;owned\u0007", "\\u{001B}]0;owned\\u{0007}"],
  ["\u009b2J", "\\u{009B}2J"],
  ["a\rb\u0008", "a\\u{000D}b\\u{0008}"],
  ["\u202edetadilav", "\\u{202E}detadilav"],
  ["\u2066x\u2069", "\\u{2066}x\\u{2069}"],
  ["two\nlines", "two\\u{000A}lines"],
  ["20 °C, ν = 9, Ω, ü, 温度", "20 °C, ν = 9, Ω, ü, 温度"],
])("%j is shown as %s", (text, shown) => {
  expect(harmlessText(text)).toBe(shown);
  expect(harmless({ [text]: [text] })).toEqual({ [shown]: [shown] });
});

test("lines keep our colours and line ends, and nothing else that steers (property)", () => {
  expect(harmlessLines("\u001b[1mbold\u001b[22m\n\ttext")).toBe("\u001b[1mbold\u001b[22m\n\ttext");
  fc.assert(
    fc.property(fc.string({ unit: "binary" }), (text) => {
      const rest = harmlessLines(text).replace(/[\n\t]|\u001b\[\d{1,2}m/g, "");
      expect(rest).not.toMatch(/[\u0000-\u001f\u007f-\u009f\u202a-\u202e\u2066-\u2069]/);
    }),
    { seed: 25 },
  );
});

test("the summary of a run is one that no title steers", () => {
  const title = "Probe\u001b[2J\u001b[31m\nThe linear budget is validated.\u202e";
  const text = summaryOf(
    runExample("published/additive-normal", { trials: 4000, title }),
    null,
    stylesFor(process.stdout),
    100,
  );
  expect(text).toContain("Probe\\u{001B}[2J\\u{001B}[31m\\u{000A}The linear budget is validated.\\u{202E}");
});
