// The sentences of records: English as the record carries them, German made again from its figures.
import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { speakRecord, type RunRecord, type Spoken } from "../../../engine/index.ts";
import { migrate } from "../../../engine/record/index.ts";
import { runExample } from "../../read-example.ts";
import { numbersIn } from "./numbers-in.ts";

/** All sentences of a record, in one order whatever the language. */
function sentencesOf(record: RunRecord, language: "en" | "de"): readonly Spoken[] {
  const { measurands, remarks } = speakRecord(record, language);
  return [
    ...Object.values(measurands).flatMap(
      ({ verdict, paired, explanation, recommendation, linearised, conformity, sensitivity }) =>
        [verdict, paired, explanation, recommendation, linearised, conformity, sensitivity].filter(
          (spoken) => spoken !== null,
        ),
    ),
    ...remarks,
  ];
}

const EXAMPLES = [
  "harrowfen/pasteuriser-72",
  "harrowfen/steriliser-134",
  "verdicts/another-factor",
  "verdicts/curvature",
  "verdicts/few-readings",
  "published/end-gauge",
  "published/impedance",
  "published/mass-calibration",
  "published/polar-001-correlated",
  "published/polar-010-correlated",
];

describe.each(EXAMPLES)("%s", (id) => {
  const filed = JSON.parse(JSON.stringify(runExample(id, { trials: 20_000 }))) as RunRecord;
  const english = sentencesOf(filed, "en");
  const german = sentencesOf(filed, "de");

  test("English is what the record carries", () => {
    const carried = Object.values(filed.measurands).flatMap(
      ({ validation, paired, explanation, linearised, conformity, sensitivity }) =>
        [
          validation.sentence,
          paired?.sentence,
          explanation?.sentence,
          explanation?.recommendation.sentence,
          linearised?.sentence,
          conformity?.sentence,
          sensitivity?.sentence,
        ].filter((sentence) => sentence !== undefined),
    );
    expect(english.map(({ text }) => text)).toEqual([...carried, ...filed.remarks]);
  });

  test("every sentence is spoken in German, with the same figures", () => {
    expect(german.map(({ language }) => language)).toEqual(english.map(() => "de"));
    german.forEach(({ text }, i) => {
      expect(text).not.toBe(english[i]!.text);
      expect(numbersIn(text)).toEqual(numbersIn(english[i]!.text));
      expect(text.replaceAll(/\([A-Z]{3,4} [^)]*\)/g, "")).not.toMatch(/\d\.\d/);
    });
  });

  test("no input is named by its identifier if its symbol is another", () => {
    const identifiers = Object.entries(filed.inputs).filter(([name, { symbol }]) => name !== symbol && name.length > 3);
    for (const { text } of [...english, ...german])
      for (const [name] of identifiers) expect(text).not.toMatch(new RegExp(`\\b${name}\\b`));
  });
});

describe("a record worded by another version", () => {
  const record = runExample("verdicts/few-readings", { trials: 20_000 });

  test("keeps its English sentence where its figures do not give it again", () => {
    const [name, measurand] = Object.entries(record.measurands)[0]!;
    const validation = { ...measurand.validation, sentence: "As an earlier version put it." };
    const older: RunRecord = {
      ...record,
      measurands: { [name]: { ...measurand, validation } },
      remarks: ["An earlier remark.", ...record.remarks],
    };
    const spoken = speakRecord(older, "de");
    expect(spoken.measurands[name]!.verdict).toEqual({ text: "As an earlier version put it.", language: "en" });
    expect(spoken.measurands[name]!.explanation!.language).toBe("de");
    expect(spoken.remarks[0]).toEqual({ text: "An earlier remark.", language: "en" });
    expect(spoken.remarks.slice(1).map(({ language }) => language)).toEqual(record.remarks.map(() => "de"));
  });

  test("whose study this version refuses keeps its English remarks", () => {
    const [input] = Object.keys(record.study.inputs);
    const refused = { distribution: "rectangular", estimate: 0, halfWidth: -1 };
    const inputs = { ...record.study.inputs, [input!]: refused } as RunRecord["study"]["inputs"];
    const { remarks } = speakRecord({ ...record, study: { ...record.study, inputs } }, "de");
    expect(remarks).toEqual(record.remarks.map((text) => ({ text, language: "en" })));
  });

  test("of the oldest format is spoken too", () => {
    const old = JSON.parse(readFileSync(new URL("../../server/record/format-1.json", import.meta.url), "utf8"));
    const migrated = migrate(old)!.record as unknown as RunRecord;
    const { measurands, remarks } = speakRecord(migrated, "de");
    const [name, { validation }] = Object.entries(migrated.measurands)[0]!;
    expect(measurands[name]!.verdict).toEqual({ text: validation.sentence, language: "en" });
    expect(measurands[name]!.explanation).toBeNull();
    expect(remarks).toHaveLength(migrated.remarks.length);
  });
});
