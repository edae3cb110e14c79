import { describe, expect, test } from "vitest";
import { prepare, readStudy } from "../../../engine/index.ts";
import { bathComparison } from "../../../models/index.ts";
import {
  changedStatement,
  changedStudy,
  changeText,
  KINDS,
  readChange,
  widened,
  WIDTHS,
  type Kind,
} from "../../../viewer/page/what-if/study-change.ts";
import { RECORDS } from "./fixed-records.ts";

const record = RECORDS["harrowfen/pasteuriser-72"]!;
const names = Object.keys(record.inputs).filter((name) => record.inputs[name]!.standardUncertainty > 0);

describe("a changed input", () => {
  test("keeps its estimate, and its standard uncertainty is the old one times the width", () => {
    for (const name of names) {
      for (const kind of Object.keys(KINDS) as Kind[]) {
        const study = changedStudy(record, { inputs: { [name]: { kind, width: 2 } }, correlations: {} });
        const { budget } = prepare(bathComparison as never, readStudy(study)).knowledge[name]!;
        const { estimate, standardUncertainty: u } = record.inputs[name]!;
        // Fixtures keep eight digits: the difference of large readings has fewer.
        expect(Math.abs(budget.estimate - estimate), `${name} ${kind}`).toBeLessThanOrEqual(1e-6 * Math.abs(estimate));
        expect(budget.standardUncertainty / u, `${name} ${kind}`).toBeCloseTo(2, 2);
      }
    }
  });

  test("of width 0 is a constant and leaves its correlations", () => {
    const [a, b] = names as [string, string];
    const study = changedStudy(record, {
      inputs: { [a]: { kind: "stated", width: 0 } },
      correlations: { [`${a}:${b}`]: 0.5 },
    });
    expect(study.inputs[a]).toMatchObject({ distribution: "constant", value: record.inputs[a]!.estimate });
    expect(study.correlations).toEqual([]);
  });

  test("with limits keeps its middle", () => {
    expect(widened({ distribution: "rectangular", lower: 9.8, upper: 10.4 }, 0.5)).toMatchObject({
      lower: expect.closeTo(9.95, 12) as number,
      upper: expect.closeTo(10.25, 12) as number,
    });
    expect(widened({ distribution: "gamma", shape: 2, scale: 1 }, 2)).toBeNull();
    expect(
      changedStatement({ distribution: "gamma" }, record.inputs[names[0]!]!, { kind: "normal", width: 1 }),
    ).toMatchObject({
      distribution: "normal",
    });
  });
});

test("a change survives the address; nonsense in it is left out", () => {
  const [a, b] = names as [string, string];
  const change = {
    inputs: { [a]: { kind: "normal", width: WIDTHS[3] } },
    correlations: { [`${a}:${b}`]: -0.3 },
  } as const;
  const { tries, pairs } = changeText(change);
  expect(readChange(tries!, pairs!, record)).toEqual(change);
  expect(readChange(`nobody:normal:1 ${a}:odd:1 ${a}:normal:77`, `${a}:${a}:0.5 ${a}:${b}:7`, record)).toEqual({
    inputs: {},
    correlations: {},
  });
});
