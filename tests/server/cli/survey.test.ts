// trialband survey: from the log of a bath to the verdict of its study, in one command.
import { createHash } from "node:crypto";
import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { beforeAll, describe, expect, test } from "vitest";
import type { RunRecord, StudyDocument } from "../../../engine/index.ts";
import { BATHS, type GeneratedBath } from "../../../examples/survey/baths.ts";
import type { SurveyEvaluation } from "../../../models/index.ts";
import { displayWidth } from "../../../viewer/terminal/table.ts";
import { readExample } from "../../read-example.ts";
import { root, scratch, trialband } from "./trialband.ts";
import { LONG } from "../../setup/long.ts";

const { path, write } = scratch();
const survey = (name: string): string => `examples/survey/${name}.json`;
const study = (name: string): string => `examples/harrowfen/${name}.json`;
const sha256 = (file: string): string =>
  createHash("sha256")
    .update(readFileSync(join(root, file)))
    .digest("hex");

/** The row of an input in the table of statements: figures in mK. */
function row(stdout: string, input: string): { evaluated: number; stated: number; widerBy: number } {
  const line = stdout.split("\n").find((text) => text.trimStart().startsWith(`${input} `))!;
  // After the estimate: half-width and u, in mK, what is stated with its half-width and u, and the difference.
  const [, evaluated, stated, widerBy] = /°C\s+([\d.]+)\s+[\d.]+\s+mK\s+rectangular\s+([\d.]+)\s+[\d.]+\s+([+−][\d.]+)$/
    .exec(line)!
    .map((text) => Number(text.replace("−", "-")));
  return { evaluated: evaluated!, stated: stated!, widerBy: widerBy! };
}

describe.each(BATHS)("$name", (bath: GeneratedBath) => {
  let stdout: string;
  let stderr: string;
  let status: number | null;
  beforeAll(async () => {
    ({ stdout, stderr, status } = await trialband("survey", survey(bath.name), "--study", study(bath.name), "--run"));
  });

  test("goes from log to verdict in one command", () => {
    expect(stderr).toBe("");
    expect(status).toBe(0);
    for (const heading of [
      "Stability: ",
      "overlapping Allan deviation",
      "Differences from centre",
      "Offsets of the thermometers",
      "Over the zone",
      "smaller zone",
      "Checks",
      "How it was reasoned",
      "Work safely",
    ]) {
      expect(stdout).toContain(heading);
    }
    expect(stdout).not.toMatch(/NOT MET|NaN|undefined|null|\x1b/);
    expect(stdout.split("\n").filter((line) => displayWidth(line) > 100)).toEqual([]);
    // One digit is asked of three of the four studies, two of the steriliser's, whose vertical difference dominates.
    expect(stdout).toContain(bath.name === "steriliser-134" ? "NOT VALIDATED" : "\nVALIDATED");
    expect(stdout).not.toContain("To repeat: ");
  });

  test("shows the half-widths evaluated beside those the log was generated with, which the study states", () => {
    // Axial and radial: four standard uncertainties of the difference that decides, as printed; stability: what the noise
    // of single readings adds to a span, four of its deviations at most; and half of the last digit that is printed.
    const printed = 0.0005;
    const noise = Number(/vertical \(axial\).*?([\d.]+)\n/.exec(stdout)![1]);
    for (const [input, generated, tolerance] of [
      ["bathAxial", bath.axial, 4 * noise],
      ["bathRadial", bath.radial, 4 * noise],
      ["bathStability", bath.stability, 4000 * bath.noise],
    ] as const) {
      const { evaluated, stated, widerBy } = row(stdout, input);
      expect(stated, input).toBeCloseTo(1000 * generated, 3);
      expect(Math.abs(evaluated - 1000 * generated), input).toBeLessThan(tolerance + printed);
      expect(Math.abs(widerBy - (evaluated - stated)), input).toBeLessThan(3 * printed);
    }
  });
});

describe("the new study", () => {
  let record: RunRecord;
  let evaluation: SurveyEvaluation;
  let document: StudyDocument;
  beforeAll(async () => {
    const args = ["survey", survey("steriliser-134"), "--study", study("steriliser-134"), "--run", "--json"];
    ({
      record,
      evaluation,
      study: document,
    } = JSON.parse((await trialband(...args)).stdout) as {
      record: RunRecord;
      evaluation: SurveyEvaluation;
      study: StudyDocument;
    });
  });

  test("cites the raw files by their digests, the window, the method and the figures, and so does the record", () => {
    const { evidence, source } = record.inputs["bathStability"]!;
    expect(source).toContain("half the span of HS-12 in the worst 30 min");
    expect(evidence!.files).toEqual([
      { name: "steriliser-134.json", sha256: sha256("examples/survey/steriliser-134.json") },
      { name: "steriliser-134.csv", sha256: sha256("examples/survey/steriliser-134.csv") },
    ]);
    expect(evidence!.method).toMatch(/window of 30 min slid over the readings of HS-12/);
    const figures = Object.fromEntries(evidence!.figures.map(({ name, value }) => [name, value]));
    expect(figures).toMatchObject({ window: 1800, "calibration takes": 1500, "sampling interval": 10 });
    expect(figures["half-range"]).toBeCloseTo(evaluation.stability.worst.halfRange, 12);
    expect(record.inputs["bathAxial"]!.evidence!.figures).toContainEqual({ name: "depth to", value: 300, unit: "mm" });
    // What no record stands behind has none.
    expect(record.inputs["hysteresis"]!.evidence).toBeNull();
  });

  test("is the given one but for the inputs evaluated", () => {
    const given = readExample("harrowfen/steriliser-134") as unknown as StudyDocument;
    const { bathAxial, bathRadial, bathStability, ...others } = document.inputs;
    expect({ ...document, inputs: { ...given.inputs, ...others } }).toEqual(given);
    expect([bathAxial, bathRadial, bathStability].map((statement) => statement!.distribution)).toEqual([
      "rectangular",
      "rectangular",
      "rectangular",
    ]);
  });

  test("is written, runs again to the same record, and is never overwritten without --force", async () => {
    const out = path("surveyed.json");
    const args = ["survey", survey("steriliser-134"), "--study", study("steriliser-134"), "--out", out];
    expect(await trialband(...args)).toMatchObject({ status: 0, stdout: expect.stringContaining(`Wrote ${out}`) });
    const again = JSON.parse((await trialband("run", out, "--json")).stdout) as RunRecord;
    expect(again.measurands).toEqual(record.measurands);
    expect(again.inputs).toEqual(record.inputs);
    writeFileSync(out, "mine");
    expect(await trialband(...args)).toMatchObject({
      status: 1,
      stderr: expect.stringMatching(/exists already; --force overwrites it/),
    });
    expect(readFileSync(out, "utf8")).toBe("mine");
    expect((await trialband(...args, "--force")).status).toBe(0);
    expect(JSON.parse(readFileSync(out, "utf8"))).toEqual(document);
  });

  test("takes other distributions, other inputs, and the bath of the survey where it names none", async () => {
    const { bath: _, ...bare } = readExample("harrowfen/steriliser-134");
    const found = JSON.parse(
      (
        await trialband(
          "survey",
          survey("steriliser-134"),
          "--study",
          write("bare.json", bare),
          "--json",
          "--stability",
          "normal",
          "--axial",
          "triangular",
        )
      ).stdout,
    ) as {
      study: StudyDocument;
    };
    expect(found.study.bath).toEqual({
      fluid: "silicone-20",
      setTemperature: 134,
      flashPoint: 230,
      overTemperatureCutOut: 165,
    });
    expect(found.study.inputs["bathStability"]).toMatchObject({ distribution: "normal" });
    expect(found.study.inputs["bathAxial"]).toMatchObject({ distribution: "triangular" });

    const table = write("table.json", {
      title: "t",
      model: "additive",
      parameters: { coefficients: { up: 1, across: 1, time: 1 } },
      inputs: Object.fromEntries(
        ["up", "across", "time"].map((name) => [name, { distribution: "constant", value: 0 }]),
      ),
      trials: 4000,
    });
    const args = ["survey", survey("cold-store-4"), "--study", table];
    expect(await trialband(...args)).toMatchObject({
      status: 2,
      stderr: expect.stringMatching(/inputs\.bathAxial: .*--as bathAxial=INPUT/),
    });
    const names = ["--as", "bathAxial=up", "--as", "bathRadial=across", "--as", "bathStability=time"];
    const other = JSON.parse((await trialband(...args, ...names, "--json")).stdout) as { study: StudyDocument };
    expect(other.study.inputs["up"]).toMatchObject({ halfWidth: expect.closeTo(0.002506, 6) as number });
    // The model additive judges no bath.
    expect(other.study.bath).toBeUndefined();
  });

  test("leads to the same model file wherever it is written", LONG, async () => {
    write(
      "sum.ts",
      `import { defineModel } from "trialband"; export default defineModel({ id: "sum", title: "sum", measurands: { y: { symbol: "y", meaning: "y", unit: "°C" } },
        inputs: { bathAxial: { symbol: "a", meaning: "a", unit: "°C" }, bathRadial: { symbol: "b", meaning: "b", unit: "°C" }, bathStability: { symbol: "c", meaning: "c", unit: "°C" } },
        evaluate: ({ bathAxial, bathRadial, bathStability }) => bathAxial + bathRadial + bathStability });`,
    );
    const zero = { distribution: "constant", value: 0 };
    const base = write("base.json", {
      title: "t",
      model: "./sum.ts",
      inputs: { bathAxial: zero, bathRadial: zero, bathStability: zero },
      trials: 10_000,
    });
    mkdirSync(path("elsewhere"));
    const out = path("elsewhere/surveyed.json");
    expect(await trialband("survey", survey("cold-store-4"), "--study", base, "--out", out)).toMatchObject({
      status: 0,
      stderr: "",
    });
    expect((JSON.parse(readFileSync(out, "utf8")) as StudyDocument).model).toBe("../sum.ts");
    expect(await trialband("run", out, "--quiet")).toMatchObject({ status: 0, stderr: "" });
  });

  test("reports where survey and study are of different baths", async () => {
    const { stdout } = await trialband("survey", survey("steriliser-134"), "--study", study("pasteuriser-72"));
    expect(stdout.replaceAll(/\s+/g, " ")).toContain(
      'The files are of another bath than that of examples/harrowfen/pasteuriser-72.json: fluid is "silicone-20" here and "water" there.',
    );
  });
});

test("--expect-validated ends with 3 if the new study's budget is not validated", async () => {
  expect(
    (
      await trialband(
        "survey",
        survey("steriliser-134"),
        "--study",
        study("steriliser-134"),
        "--run",
        "--expect-validated",
      )
    ).status,
  ).toBe(3);
  expect(
    (await trialband("survey", survey("cold-store-4"), "--study", study("cold-store-4"), "--run", "--expect-validated"))
      .status,
  ).toBe(0);
});

describe("bad input names the file, the place and what is expected", () => {
  const description = readExample("survey/pasteuriser-72");
  const steps = description["steps"] as { readonly at: object }[];
  const changed = (change: object): string => write("survey.json", { ...description, ...change });
  const log = (text: string): string => (write("log.csv", text), changed({ log: { file: "log.csv" } }));
  const lines = readFileSync(join(root, "examples/survey/pasteuriser-72.csv"), "utf8").split("\n");
  const broken = (at: number, line: string): string => log(lines.with(at, line).join("\n"));
  test.each<[string, () => string[], number, RegExp]>([
    ["no file", () => ["none.json"], 2, /There is no file none\.json/],
    [
      "a description that is no JSON",
      () => [write("s.json", "{")],
      2,
      /s\.json is not JSON \(line 1, column 2\): expected the name of a field/,
    ],
    ["a list", () => [write("s.json", [])], 2, /s\.json: got \[\]; expected an object/],
    [
      "a field nobody knows",
      () => [changed({ colour: 1 })],
      2,
      /One thing in .*survey\.json cannot be used[\s\S]*colour: got 1; expected nothing/,
    ],
    ["no log", () => [changed({ log: undefined })], 2, /log\.file: got nothing; expected the CSV or XLSX file/],
    ["a log that is missing", () => [changed({ log: { file: "none.csv" } })], 2, /There is no file .*none\.csv/],
    [
      "a step that ends before it starts",
      () => [
        (log(lines.join("\n")),
        changed({ log: { file: "log.csv" }, steps: [...steps, { from: 10_000, to: 9_990, at: steps[0]!.at }] })),
      ],
      2,
      /steps\.9\.to: got 9990 s; expected a moment after the step begins/,
    ],
    [
      "text in a figure",
      () => [broken(8, "70,71.99,warm")],
      2,
      /log\.csv, row 9, column HS-12 \/ °C: got "warm"; expected a number/,
    ],
    ["a time stamp twice", () => [broken(8, lines[7]!)], 2, /log\.csv, row 9, column time/],
    [
      "a window longer than the log",
      () => [(log(lines.join("\n")), changed({ log: { file: "log.csv" }, stability: { windowMinutes: 600 } }))],
      2,
      /a window no longer than the log/,
    ],
    [
      "a distribution nobody knows",
      () => [survey("cold-store-4"), "--axial", "round"],
      2,
      /rectangular, triangular, arcsine/,
    ],
    ["--run without a study", () => [survey("cold-store-4"), "--run"], 2, /--study: got nothing/],
    ["--out without a study", () => [survey("cold-store-4"), "--out", path("x.json")], 2, /--out needs the study/],
    [
      "a study that is none",
      () => [survey("cold-store-4"), "--study", write("none.json", { title: "t" })],
      2,
      /inputs: got nothing; expected an object/,
    ],
    ["--as without an equals sign", () => [survey("cold-store-4"), "--as", "bathAxial"], 2, /QUANTITY=INPUT/],
    [
      "--as of a quantity that is not given",
      () => [survey("cold-store-4"), "--study", study("cold-store-4"), "--as", "warmth=x"],
      2,
      /--as: got "warmth"; expected one of bathStability/,
    ],
    [
      "two quantities for one input",
      () => [survey("cold-store-4"), "--study", study("cold-store-4"), "--as", "bathAxial=bathRadial"],
      2,
      /bathRadial twice/,
    ],
    [
      "a folder that is missing for --out",
      () => [survey("cold-store-4"), "--study", study("cold-store-4"), "--out", path("none/x.json")],
      1,
      /cannot be written/,
    ],
  ])("%s", async (_, args, code, message) => {
    const { status, stderr } = await trialband("survey", ...args());
    expect(stderr).toMatch(message);
    expect(stderr).not.toMatch(/\n\s+at /);
    expect(status).toBe(code);
  });
});

test("help shows the quantities, the exit codes and examples", async () => {
  const { stdout, status } = await trialband("survey", "--help");
  expect(status).toBe(0);
  for (const text of [
    "--study <file>",
    "--out <file>",
    "--force",
    "--run",
    "--json",
    "--axial",
    "bathStability, bathAxial and bathRadial",
    "Exit codes: 0 done",
    "Examples:",
  ])
    expect(stdout).toContain(text);
});
