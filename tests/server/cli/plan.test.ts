// trialband plan: one command plans, runs the proposal and sets the confirmed uncertainty beside the predicted one.
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { strFromU8, unzipSync } from "fflate";
import { beforeAll, describe, expect, test } from "vitest";
import type { Confirmation, Plan } from "../../../models/index.ts";
import { displayWidth } from "../../../viewer/terminal/table.ts";
import { LONG } from "../../setup/long.ts";
import { root, scratch, trialband, type Finished } from "./trialband.ts";

const EXAMPLE = join(root, "examples/range/plan.json");
const { path, write } = scratch();
type Document = Readonly<Record<string, unknown>>;
const read = (file: string): Document => JSON.parse(readFileSync(file, "utf8")) as Document;

/** The example over two temperatures of one bath, without files: its study and what it could change. */
const small = (): string => {
  const study = read(join(root, "examples/harrowfen/cold-store-4.json"));
  write("sweep.json", { study, over: [{ quantity: "bath temperature", unit: "°C", values: [4, 20] }], trials: 20_000 });
  return write("plan.json", { ...read(EXAMPLE), sweep: "sweep.json", target: 0.008 });
};

describe("two temperatures of one bath", () => {
  let found: Finished;
  let plan: Plan & { readonly confirmation: Confirmation };
  beforeAll(async () => {
    const files = [
      "--out",
      path("p.json"),
      "--report",
      path("p.html"),
      "--csv",
      path("p.csv"),
      "--xlsx",
      path("p.xlsx"),
      "--study",
      path("s.json"),
    ];
    found = await trialband("plan", small(), "--trials", "20000", "--language", "de", ...files);
    plan = JSON.parse(readFileSync(path("p.json"), "utf8")) as typeof plan;
  });

  test("prints proposal, confirmation, frontier, gains and cautions, within its width", () => {
    expect(found.stderr).toBe("");
    expect(found.status).toBe(0);
    for (const words of ["Proposal:", "Confirmed by a run", "Frontier", "What halving one input gains", "Work safely"])
      expect(found.stdout).toContain(words);
    expect(found.stdout).not.toMatch(/NaN|undefined|\{\w+\}/);
    expect(
      found.stdout.split("\n").filter((line) => displayWidth(line) > 100 && !line.startsWith("To repeat")),
    ).toEqual([]);
  });

  test("the run confirms the proposal at every point, within what 20 000 trials leave open", () => {
    expect(plan.points).toHaveLength(2);
    expect(plan.meets).toBe(true);
    expect(plan.confirmation).toMatchObject({ meets: true, agrees: true, trials: 20_000 });
    // Five standard errors of the farther endpoint: √(p(1 − p)/M)/φ(2) = 0.0195 u at k = 2, a hundredth of U.
    expect(plan.confirmation.largestDifference).toBeLessThan(0.05);
    expect(plan.confirmation.points.map(({ linear }) => linear)).toEqual(
      plan.points.map(({ proposed }) => expect.closeTo(proposed.linear, 12) as number),
    );
  });

  test("the proposed study runs by itself; CSV has every point; the report has its pictures", async () => {
    const study = JSON.parse(readFileSync(path("s.json"), "utf8")) as { sweep: { points: unknown[] } };
    expect(study.sweep.points).toHaveLength(plan.points.length);
    const rows = readFileSync(path("p.csv"), "utf8").trim().split("\r\n");
    expect(rows).toHaveLength(1 + plan.points.length);
    expect(Number(rows[1]!.split(",")[5])).toBe(plan.confirmation.points[0]!.claimed);
    expect(rows[1]!.split(",")[6]).toBe("met");
    const sheets = unzipSync(new Uint8Array(readFileSync(path("p.xlsx"))));
    expect(Object.keys(sheets).filter((name) => name.includes("worksheets/sheet"))).toHaveLength(5);
    // A figure at full precision, as the file of figures has it.
    expect(strFromU8(sheets["xl/worksheets/sheet1.xml"]!)).toContain(`<v>${plan.confirmation.points[0]!.claimed}</v>`);
    const html = readFileSync(path("p.html"), "utf8");
    expect(html).toContain('<html lang="de">');
    expect(html).toContain("Durch einen Lauf der vorgeschlagenen Studie");
    expect(html.match(/<svg/g)).toHaveLength(3);
    expect(html).not.toMatch(/NaN|undefined|\{\w+\}/);
  });
});

test("the four baths of the laboratory: the proposal is confirmed at all 15 points", LONG, async () => {
  const { stdout, status } = await trialband("plan", EXAMPLE, "--trials", "20000", "--json");
  expect(status).toBe(0);
  const { points, confirmation } = JSON.parse(stdout) as Plan & { readonly confirmation: Confirmation };
  expect(points).toHaveLength(15);
  expect(confirmation).toMatchObject({ meets: true, agrees: true });
});

test.each<[string, object, RegExp]>([
  ["a sweep that is not there", { sweep: "nowhere.json" }, /nowhere\.json/],
  ["a field that it does not know", { colour: "blue" }, /colour.*there is no such field/s],
  [
    "an input that the study has not",
    { levers: [{ kind: "scale", name: "x", inputs: ["bathaxial"], steps: [{ to: 0.5, cost: 1 }] }] },
    /levers\.0\.inputs.*bathaxial.*an input that the study states/s,
  ],
])("%s is refused", async (_, change, message) => {
  const { status, stderr } = await trialband("plan", write("refused.json", { ...read(small()), ...change }));
  expect(stderr.replaceAll(/\s+/g, " ")).toMatch(message);
  expect(status).toBe(2);
});
