import { expect, test } from "vitest";
import { prepare, readStudy, type RunRecord } from "../../../engine/index.ts";
import { madeAgain } from "../../../engine/internal.ts";
import { modelOf, readExample, runExample } from "../../read-example.ts";
import { LONG } from "../../setup/long.ts";

// One of each kind: several measurands, a sweep, a curve, conformity, sensitivity, a shortest interval, correlated inputs.
const studies = [
  "harrowfen/range",
  "harrowfen/pasteuriser-72",
  "platinum/probe-fit-hf-021",
  "platinum/two-wire-pasteuriser",
  "published/additive-one-dominant",
  "published/common-term-rectangular",
  "published/comparison-loss-00",
  "published/impedance",
  "published/mass-calibration",
  "published/polar-010-correlated",
  "verdicts/another-factor",
  "verdicts/curvature",
  "verdicts/few-readings",
  "verdicts/kept",
];

const againOf = (id: string, record: RunRecord, changes: Record<string, unknown>): unknown =>
  madeAgain(prepare(modelOf(readExample(id)), readStudy({ ...readExample(id), ...changes })), record);

test.each(studies)("what follows from the figures of %s is what stands in its record", LONG, (id) => {
  const changes = { trials: 5000 };
  const record = runExample(id, changes);
  expect(record).toMatchObject(againOf(id, record, changes) as object);
});

const settles = (significantDigits: 1 | 2): void => {
  for (const id of ["harrowfen/cold-store-4", "published/common-term-normal", "published/impedance"]) {
    const changes = { trials: "adaptive", significantDigits, maximumTrials: 400_000 };
    const record = runExample(id, changes);
    expect(record, id).toMatchObject(againOf(id, record, changes) as object);
  }
};
test("and of a run until its figures settle, to 2 digits", () => settles(2));
test("and of a run until its figures settle, to 1 digit", LONG, () => settles(1));

test("a verdict, a stop or a sentence that does not follow is found", () => {
  const id = "verdicts/another-factor";
  const changes = { trials: "adaptive", maximumTrials: 400_000 };
  const record = runExample(id, changes);
  const again = againOf(id, record, changes) as RunRecord;
  const [name] = Object.keys(record.measurands);
  const { validation } = record.measurands[name!]!;
  const flipped = {
    ...record,
    measurands: {
      [name!]: { ...record.measurands[name!]!, validation: { ...validation, validated: !validation.validated } },
    },
  };
  expect(flipped).not.toMatchObject(again);
  expect({ ...record, remarks: [] }).not.toMatchObject(again);
  expect({ ...record, trials: { ...record.trials, stop: "fixed" } }).not.toMatchObject(again);
});
