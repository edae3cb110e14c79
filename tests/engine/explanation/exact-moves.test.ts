// Shapley values from exact distributions: the earlier way, propagations of trials compared with one another, is their test.
import { describe, expect, test } from "vitest";
import { prepare, readStudy, type Model } from "../../../engine/index.ts";
import { assembleRecord, Accumulation, openTrials } from "../../../engine/internal.ts";
import { comparedPropagations } from "../../../engine/explanation/compared-propagations.ts";
import { exactMoves } from "../../../engine/explanation/exact-moves.ts";
import { modelOf, readExample, runExample } from "../../read-example.ts";
import { LONG } from "../../setup/long.ts";

const TRIALS = 20_000;
const COMPARED = 50_000;

describe.each([
  "harrowfen/steriliser-134",
  "verdicts/another-factor",
  "verdicts/kept",
  "published/additive-one-dominant",
  "published/block-calibrator",
])("%s", (id) => {
  const document = readExample(id);
  const prepared = prepare(modelOf(document) as Model, readStudy({ ...document, trials: TRIALS }));
  const draw = openTrials(prepared.source);
  const gathered = new Accumulation(prepared);
  for (let count = gathered.next; count > 0; count = gathered.next) gathered.add(draw(gathered.trials, count));
  const { measurands } = assembleRecord(prepared, gathered);
  const compared = comparedPropagations(prepared, COMPARED);

  test.each(Object.keys(measurands))("%s: every set of causes moves the endpoints as trials say", (name) => {
    const record = measurands[name]!;
    const { intervals } = exactMoves(prepared, name, record)!;
    // Five standard errors of an endpoint of a normal from so many trials, √(p(1 − p)/M)/φ(1.96), doubled for other shapes.
    const u = record.linear.standardUncertainty;
    const latitude = (2 * 5 * u * Math.sqrt((0.025 * 0.975) / compared.trials)) / 0.0584;
    intervals.forEach((interval, set) => {
      for (const end of [0, 1] as const)
        expect(Math.abs(interval[end] - compared.intervals[name]![set]![end])).toBeLessThan(latitude);
    });
  });

  test.each(Object.keys(measurands))("%s: what is left over is below 1 % of the difference", (name) => {
    const { difference, remainder } = measurands[name]!.explanation!;
    const most = Math.max(...difference.map(Math.abs));
    expect(Math.max(...remainder.map(Math.abs))).toBeLessThan(0.01 * most);
    const { paired } = measurands[name]!;
    if (paired?.kind !== "figures") throw new Error("got no paired figures; expected some");
    expect(2 * Math.max(...paired.standardErrors.interval)).toBeLessThan(0.01 * most);
  });
});

test("the flagship's causes from 20 000 trials are those from a million", LONG, () => {
  const [few, many] = [TRIALS, 1_000_000].map(
    (trials) => runExample("harrowfen/steriliser-134", { trials }).measurands["error"]!,
  );
  for (const cause of ["curvature", "shape", "degreesOfFreedom"] as const) {
    const [a, b] = [few!.explanation!.parts[cause], many!.explanation!.parts[cause]];
    expect(a.inputs).toEqual(b.inputs);
    expect(a.share).toBeCloseTo(b.share, 5);
  }
  expect(few!.paired).toMatchObject({ decision: "notValidated" });
  expect(many!.paired).toMatchObject({ decision: "notValidated" });
});
