// trialband capability: one command gives the claim over the range, as table, picture, CSV and XLSX.
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { unzipSync } from "fflate";
import { beforeAll, describe, expect, test } from "vitest";
import type { Capability } from "../../../models/index.ts";
import { displayWidth } from "../../../viewer/terminal/table.ts";
import { root, scratch, trialband, type Finished } from "./trialband.ts";

const EXAMPLE = join(root, "examples/range/capability.json");
const { path, write } = scratch();

describe("the four baths of the laboratory", () => {
  let found: Finished;
  let capability: Capability;
  beforeAll(async () => {
    const files = [
      "--out",
      path("c.json"),
      "--report",
      path("c.html"),
      "--csv",
      path("c.csv"),
      "--xlsx",
      path("c.xlsx"),
    ];
    found = await trialband("capability", EXAMPLE, "--trials", "20000", "--language", "de", ...files);
    capability = JSON.parse(readFileSync(path("c.json"), "utf8")) as Capability;
  });

  test("prints claim, points, fluids with their limits, and cautions, within its width", () => {
    expect(found.status).toBe(0);
    for (const words of ["ethanol bath", "claim as", "usable range", "Work safely", "flash point"])
      expect(found.stdout).toContain(words);
    expect(found.stdout).not.toMatch(/NaN|undefined|\{\w+\}/);
    expect(
      found.stdout.split("\n").filter((line) => displayWidth(line) > 100 && !line.startsWith("To repeat")),
    ).toEqual([]);
  });

  test("the largest U of a part is that of its points, and no claim lies below a point", () => {
    expect(capability.ranges.map(({ name }) => name)).toEqual([
      "ethanol bath",
      "glycol bath",
      "water bath",
      "oil bath",
    ]);
    for (const { points, largestLinear, largestDistribution, line, step } of capability.ranges) {
      expect(points.length).toBeGreaterThan(1);
      expect(largestLinear).toBe(Math.max(...points.map(({ linear }) => linear)));
      for (const { at, linear, distribution } of points) {
        expect(line.constant + line.slope * at).toBeGreaterThanOrEqual(Math.max(linear, distribution));
        expect(step.constant).toBeGreaterThanOrEqual(Math.max(linear, distribution));
      }
      expect(largestDistribution).toBeLessThanOrEqual(step.constant);
    }
  });

  test("the flash point less its margin bounds the oil bath", () => {
    expect(capability.ranges[3]!.safety).toMatchObject({ flashPoint: 230, margin: 10, cutOut: 160 });
  });

  test("CSV has every point at full precision, the workbook a sheet for each part, the report a picture", () => {
    const rows = readFileSync(path("c.csv"), "utf8").trim().split("\r\n");
    const points = capability.ranges.flatMap((range) => range.points);
    expect(rows).toHaveLength(1 + points.length);
    expect(Number(rows[1]!.split(",")[2])).toBe(points[0]!.linear);
    const sheets = unzipSync(new Uint8Array(readFileSync(path("c.xlsx"))));
    expect(Object.keys(sheets).filter((name) => name.includes("worksheets/sheet"))).toHaveLength(6);
    const html = readFileSync(path("c.html"), "utf8");
    expect(html).toContain('<html lang="de">');
    expect(html).toContain("Kalibrier- und Messmöglichkeit");
    expect(html.match(/<svg/g)).toHaveLength(1);
    expect(html).not.toMatch(/NaN|undefined|\{\w+\}/);
  });
});

test("a sweep without parts has no capability", async () => {
  const {
    ranges: _,
    certificate: __,
    ...document
  } = JSON.parse(readFileSync(EXAMPLE, "utf8")) as Record<string, unknown>;
  const study = JSON.parse(readFileSync(join(root, "examples/harrowfen/cold-store-4.json"), "utf8")) as object;
  const file = write("no-parts.json", { ...document, study, trials: 20_000, inputs: {} });
  const { status, stderr } = await trialband("capability", file);
  expect(stderr.replaceAll(/\s+/g, " ")).toMatch(/ranges: got "none"; expected the parts of the range/);
  expect(status).toBe(2);
});
