// trialband sweep: from certificate, surveys and tables to one record over a range; the same bits however it is shared out.
import { readFileSync } from "node:fs";
import { join, relative } from "node:path";
import { beforeAll, describe, expect, test } from "vitest";
import { propagate, readStudy, type RunRecord } from "../../../engine/index.ts";
import { bathComparison } from "../../../models/index.ts";
import { displayWidth } from "../../../viewer/terminal/table.ts";
import { root, scratch, trialband } from "./trialband.ts";
import { LONG } from "../../setup/long.ts";

const { path, write } = scratch();
const example = (name: string, change: object): string => {
  const text = JSON.stringify({
    ...(JSON.parse(readFileSync(join(root, "examples/range", name), "utf8")) as object),
    ...change,
  });
  return write(name, JSON.parse(text.replaceAll("../", `${relative(path("."), join(root, "examples"))}/`)));
};

describe("the range of three baths", () => {
  let record: RunRecord;
  let printed: string;
  beforeAll(async () => {
    const file = example("capability.json", {
      over: [{ quantity: "bath temperature", unit: "°C", values: [20, 100] }],
    });
    const common = ["sweep", file, "--trials", "20000"];
    const { stdout, stderr, status } = await trialband(...common, "--workers", "1", "--out", path("one.json"));
    expect(stderr).toBe("");
    expect(status).toBe(0);
    printed = stdout;
    record = JSON.parse(readFileSync(path("one.json"), "utf8")) as RunRecord;
  });

  test("every bath has its ends and its values, with the certificate and its own survey there", () => {
    expect(record.sweep!.points.map(({ at, part }) => [at, part])).toEqual([
      [-40, "ethanol bath"],
      [0, "ethanol bath"],
      [0, "glycol bath"],
      [20, "glycol bath"],
      [40, "glycol bath"],
      [40, "water bath"],
      [80, "water bath"],
      [80, "oil bath"],
      [100, "oil bath"],
      [134, "oil bath"],
    ]);
    const stated = JSON.stringify(record.study.sweep!.points[3]!.inputs);
    expect(stated).toContain("cold-store-4.csv");
    expect(stated).toContain("reference-HR-02.json");
    expect(printed).toContain("oil bath");
    expect(printed.split("\n").filter((line) => displayWidth(line) > 100)).toEqual([]);
  });

  test("a point is the single study at it, bit for bit", () => {
    const { sweep, ...study } = record.study;
    const point = sweep!.points[3]!;
    const single = propagate(
      bathComparison,
      readStudy({ ...study, sensitivity: null, conformity: {}, inputs: { ...study.inputs, ...point.inputs } }),
    );
    const { linear, monteCarlo } = record.sweep!.points[3]!.measurands["error"]!;
    const alone = single.measurands["error"]!;
    expect(linear.expandedUncertainty).toBe(alone.linear.expandedUncertainty);
    expect(monteCarlo.estimate).toBe(alone.monteCarlo.estimate);
    expect(monteCarlo.interval).toEqual(alone.monteCarlo.intervals[record.coverage.interval]);
  });

  test("shared out among workers it leaves the same figures, bit for bit, and verify repeats it", LONG, async () => {
    await trialband("sweep", path("capability.json"), "--trials", "20000", "--workers", "2", "--out", path("two.json"));
    const shared = JSON.parse(readFileSync(path("two.json"), "utf8")) as RunRecord;
    expect(shared.sweep).toEqual(record.sweep);
    const { stdout, status } = await trialband("verify", path("two.json"), "--workers", "1");
    expect(stdout).toContain("exactly");
    expect(status).toBe(0);
  });
});

test("a grid prints U down and across, and curves are smooth since all points draw the same numbers", async () => {
  const file = example("grid.json", {
    over: [
      { quantity: "bath temperature", unit: "°C", from: 0, to: 100, count: 5 },
      { quantity: "half-width of the stability", unit: "mK", from: 1, to: 10, count: 3 },
    ],
  });
  const { stdout, status } = await trialband(
    "sweep",
    file,
    "--trials",
    "20000",
    "--workers",
    "1",
    "--out",
    path("grid-record.json"),
  );
  expect(status).toBe(0);
  expect(stdout).toMatch(/across: half-width of\s+the stability|across:\s+half-width of the\s+stability/);
  const { sweep } = JSON.parse(readFileSync(path("grid-record.json"), "utf8")) as RunRecord;
  expect(sweep!.points).toHaveLength(15);
  // At 20 000 trials a standard uncertainty is known to 0.5 %; with common numbers its ratio to the linear one moves by far
  // less from point to point (the inputs that change are a small part of it).
  const ratios = sweep!.points
    .filter(({ second }) => second === 1)
    .map(({ measurands: { error } }) => error!.monteCarlo.standardUncertainty! / error!.linear.standardUncertainty);
  const steps = ratios.slice(1).map((ratio, i) => Math.abs(ratio - ratios[i]!));
  expect(Math.max(...steps)).toBeLessThan(0.005);
});

test.each([
  [
    "a point outside the certificate",
    { over: [{ quantity: "t", unit: "°C", values: [20, 150] }], ranges: [] },
    /150.*within the points of the certificate/s,
  ],
  [
    "a survey that is not there",
    {
      ranges: [{ name: "a", from: 0, to: 134, survey: "none.json" }],
      over: [{ quantity: "t", unit: "°C", values: [20] }],
    },
    /no file .*none\.json/s,
  ],
])("refused: %s", async (_, change, message) => {
  const { status, stderr } = await trialband("sweep", example("capability.json", change));
  expect(stderr).toMatch(message);
  expect(status).toBe(2);
});
