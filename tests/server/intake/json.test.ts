import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import { Fault } from "../../../server/errors.ts";
import { parseJson } from "../../../server/intake/json.ts";

const messageOf = (text: string): string => {
  try {
    parseJson(text, "a.json");
  } catch (error) {
    expect(error).toBeInstanceOf(Fault);
    return (error as Fault).message;
  }
  return "read";
};

// RFC 8259, clauses 2 to 7.
describe("text that is no JSON is refused with place, what is expected and what stands there", () => {
  test.each([
    ["", "line 1, column 1): expected a value, got the end of the text"],
    ['{\n  "a": 1\n  "b": 2\n}', 'line 3, column 3): expected a comma or }, got "b": 2'],
    ["[1, 2", "line 1, column 6): expected a comma or ], got the end of the text"],
    ["[1, ]", "line 1, column 5): expected a value, got ]"],
    ['{"a" 1}', "line 1, column 6): expected a colon, got 1}"],
    ["{a: 1}", "line 1, column 2): expected the name of a field in double quotes, or }, got a: 1}"],
    ['{"a": 1,}', "line 1, column 9): expected the name of a field in double quotes, got }"],
    ['["\\x"]', 'line 1, column 3): expected an escape of JSON, got \\x"]'],
    ['["one\ntwo"]', 'line 1, column 6): expected an escape such as \\n, or the closing ", got the end of the line'],
    ["[01]", "line 1, column 2): expected a value, got 01]"],
    ["{} {}", "line 1, column 4): expected the end of the text, got {}"],
    ["[NaN]", "line 1, column 2): expected a value, got NaN]"],
  ])("%j", (text, words) => {
    expect(messageOf(text)).toBe(`a.json is not JSON (${words}`);
  });
});

test("a byte-order mark is taken off, and does not shift the column", () => {
  expect(parseJson("\uFEFF[1]", "a.json")).toEqual([1]);
  expect(messageOf("\uFEFF[1,]")).toContain("column 4");
});

test("nesting of any depth, and texts of any length, are refused like others", () => {
  expect(messageOf("[".repeat(1_000_000))).toContain("column 1000001");
  expect(messageOf(`["${"é\\n".repeat(3_000_000)}`)).toContain("the closing");
});

test("whatever JSON.parse refuses has a place (property)", () => {
  const cut = fc.tuple(fc.json(), fc.nat()).map(([text, at]) => text.slice(0, at % (text.length + 1)));
  fc.assert(
    fc.property(fc.oneof(cut, fc.string()), (text) => {
      let parses = true;
      try {
        JSON.parse(text);
      } catch {
        parses = false;
      }
      return parses ? messageOf(text) === "read" : /\(line \d+, column \d+\): expected /.test(messageOf(text));
    }),
    { seed: 7, numRuns: 2000 },
  );
});
