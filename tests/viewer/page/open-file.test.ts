import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import { jsonBreak } from "../../../viewer/present/json-place.ts";
import { readStudyText } from "../../../viewer/page/open-file.ts";

function refused(text: string): boolean {
  try {
    JSON.parse(text);
    return false;
  } catch {
    return true;
  }
}

describe("jsonBreak", () => {
  test.each([
    ['{"a": 1,}', 8],
    ['{"a": [1, 2}', 11],
    ['{"a": bath}', 6],
    ['{"a": 01}', 6],
    ['{"a": "b', 8],
    ["", 0],
    ["[1] x", 4],
  ])("%j at %i", (text, at) => {
    expect(jsonBreak(text)?.at ?? null).toBe(at);
  });

  test("finds nothing in what the language itself writes", () => {
    fc.assert(
      fc.property(fc.json(), (text) => jsonBreak(text) === null),
      { seed: 22, numRuns: 500 },
    );
  });

  test("finds something exactly where the language's own reader refuses", () => {
    const cut = fc.tuple(fc.json(), fc.nat(), fc.constantFrom("", ",", "}", '"', "x", "-")).map(([text, at, extra]) => {
      const place = at % (text.length + 1);
      return text.slice(0, place) + extra + text.slice(place + 1);
    });
    fc.assert(
      fc.property(cut, (text) => (jsonBreak(text) !== null) === refused(text)),
      { seed: 23, numRuns: 1000 },
    );
  });
});

describe("readStudyText", () => {
  test("takes the outline of a study", () => {
    expect(readStudyText('{"model": "additive", "inputs": {}}', "s.json").problems).toBeNull();
  });

  test("knows a record by its format, whatever its version", () => {
    expect(readStudyText('\uFEFF{"format": "trialband-record/1"}', "r.json")).toMatchObject({
      kind: "record",
      problems: null,
    });
  });

  test.each([
    ['{\n  "model": bath\n}', "s.json", "not JSON from line 2, column 12"],
    ["  ", "s.json", "an empty file"],
    ["[1, 2]", "s.json", "a list of 2"],
    ['{"inputs": {}}', "s.json: model", "nothing"],
    ['{"model": "additive", "inputs": []}', "s.json: inputs", "a list of 0"],
    ['{"format": "other/1"}', "s.json: format", "other/1"],
  ])("refuses %j", (text, place, value) => {
    const [problem] = readStudyText(text, "s.json").problems!;
    expect(problem!.place).toBe(place);
    expect(problem!.value).toContain(value);
    expect(problem!.accepted).not.toBe("");
  });
});
