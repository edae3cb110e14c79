// What a verdict is called, in one place for page, report and terminal; and figures that must not read alike.
import { expect, test } from "vitest";
import { chanceText } from "../../../viewer/present/chance.ts";
import { languages } from "../../../viewer/present/messages/index.ts";
import { english } from "../../../viewer/present/numbers.ts";
import { readable } from "../../../viewer/present/readable.ts";
import { gravest, standingAt, standingOf, standingText, standingTitle } from "../../../viewer/present/verdict.ts";
import { RECORDS } from "../page/fixed-records.ts";

const { en, de } = languages;

test.each([
  [{ validated: true, firm: true }, "validated", "=\u00a0validated", "=\u00a0validiert"],
  [{ validated: false, firm: true }, "notValidated", "≠\u00a0not validated", "≠\u00a0nicht validiert"],
  [
    { validated: true, firm: false },
    "undecided",
    "?\u00a0not decided by the trials",
    "?\u00a0durch die Versuche nicht entschieden",
  ],
  [
    { validated: false, firm: false },
    "undecided",
    "?\u00a0not decided by the trials",
    "?\u00a0durch die Versuche nicht entschieden",
  ],
  [
    { validated: true, firm: true, nothingVaries: true },
    "nothingVaries",
    "·\u00a0nothing varies",
    "·\u00a0nichts variiert",
  ],
  // Heads and points filed before 0.3 do not say whether the trials decide.
  [{ validated: true }, "validated", "=\u00a0validated", "=\u00a0validiert"],
] as const)("%j is %s", (judged, standing, inEnglish, inGerman) => {
  expect(standingOf(judged)).toBe(standing);
  expect(standingText(standing, en)).toBe(inEnglish);
  expect(standingText(standing, de)).toBe(inGerman);
});

test("several measurands have the gravest of their standings", () => {
  expect(gravest(["validated", "undecided", "validated"])).toBe("undecided");
  expect(gravest(["undecided", "notValidated"])).toBe("notValidated");
  expect(gravest([])).toBeNull();
  expect(standingTitle("undecided", en)).toBe("Not decided by the trials");
});

const own = RECORDS["verdicts/curvature"]!.measurands["lethality"]!;

test("at other digits a verdict is open only for a reason that holds there too", () => {
  const other = own.validation.significantDigits === 1 ? 2 : 1;
  const open = { ...own.validation, firm: false };
  expect(standingAt({ ...open, doubts: ["scatter"] }, other)).not.toBe("undecided");
  expect(standingAt({ ...open, doubts: ["fewTrials"] }, other)).toBe("undecided");
  expect(standingAt({ ...open, doubts: ["scatter"] }, own.validation.significantDigits)).toBe("undecided");
});

test("a d that is more than δ by little is printed to the place where they differ", () => {
  const near = { ...own, validation: { ...own.validation, dLow: 0.50004, numericalTolerance: 0.5 } };
  const atDigits = [{ ...own.validation.atDigits[0]!, numericalTolerance: 0.5 }];
  const { places } = readable({ ...near, validation: { ...near.validation, atDigits } });
  expect(english.fixed(0.50004, places)).toBe("0.50004");
  expect(english.fixed(0.5, places)).toBe("0.50000");
});

test("two small risks can be told apart, from each other and from a limit of 0.05 %", () => {
  const risk = (value: number): string => chanceText({ value, rest: 1 - value }, english);
  expect([0.000497, 0.0005, 0.000536, 0.001].map(risk)).toEqual([
    "0.0497\u00a0%",
    "0.0500\u00a0%",
    "0.0536\u00a0%",
    "0.10\u00a0%",
  ]);
  expect(risk(0)).toBe("<\u00a00.0001\u00a0%");
  expect(risk(1)).toBe(">\u00a099.9999\u00a0%");
});
