// The other commands on files of a laboratory: readings, immersion, certificate.
import { describe, expect, test } from "vitest";
import { PROBE_ERROR } from "../../../examples/survey/readings.ts";
import { readExample } from "../../read-example.ts";
import { at, parsed, words, type Output } from "./laboratory-files.ts";
import { scratch, trialband } from "./trialband.ts";

const { write } = scratch();

describe("readings", () => {
  const args = [
    "readings",
    at("readings-72.json"),
    "--certificate",
    at("reference-HR-02.json"),
    "--study",
    "examples/harrowfen/pasteuriser-72.json",
  ];

  test("shows cycles, mean, checks, the certificate at the temperature of the readings, and runs the study", async () => {
    const { stdout, stderr, status } = await trialband(...args, "--run");
    expect({ stderr, status }).toEqual({ stderr: "", status: 0 });
    for (const text of [
      "differences cycle by cycle",
      "own dispersion",
      "Checks",
      "Certificate HCR-2025-118 of HR-02",
      "bounds the drift either way",
      "VALIDATED",
    ])
      expect(stdout).toContain(text);
    expect(words(stdout)).toContain("on 2026-03-02 - interpolated between the points 72 °C and 134 °C");
    expect(stdout).not.toMatch(/NaN|undefined|\x1b/);
  });

  test("gives the error the readings were generated with, with evidence for every statement but the exact ones", async () => {
    const { statements, record } = parsed<Output>(await trialband(...args, "--run", "--json"));
    expect(Object.keys(statements).toSorted()).toEqual([
      "nominalResistance",
      "probeResistance",
      "referenceCertificate",
      "referenceDrift",
      "referenceReading",
    ]);
    const { linear } = record.measurands["error"]!;
    // e = difference − correction of the reference. A cycle is the mean of two probe readings less that of two reference
    // readings, all of 0.4 mK noise: u of the mean of eight is 0.4/√8 mK. Five of them.
    expect(Math.abs(linear.estimate - (PROBE_ERROR - statements["referenceCertificate"]!.estimate!))).toBeLessThan(
      (5 * 0.0004) / Math.sqrt(8),
    );
    expect(record.inputs["probeResistance"]!.evidence!.files.map(({ name }) => name)).toEqual([
      "readings-72.json",
      "readings-72.csv",
    ]);
    expect(record.inputs["referenceDrift"]!.evidence!.figures).toContainEqual({
      name: "correction of 2024-09-10",
      value: expect.closeTo(-0.002, 5) as number,
      unit: "K",
    });
    expect(record.inputs["nominalResistance"]!.evidence).toBeNull();
  });

  test("a probe not read as a resistance gives a difference, for an input of one's own", async () => {
    write(
      "r.csv",
      "time,R,X\n0,20.001,\n10,,20.012\n20,20.001,\n30,20.002,\n40,,20.014\n50,20.002,\n60,20.003,\n70,,20.013\n80,20.003,\n",
    );
    const description = write("r.json", {
      title: "t",
      log: { file: "r.csv" },
      reference: "R",
      channels: { R: { unit: "°C" }, X: { unit: "°C" } },
    });
    const study = write("d.json", {
      title: "t",
      model: "additive",
      parameters: { coefficients: { read: 1 } },
      inputs: { read: { distribution: "constant", value: 0 } },
      trials: 4000,
    });
    const found = parsed<Output>(
      await trialband("readings", description, "--study", study, "--as", "difference=read", "--json"),
    );
    expect(found.study.inputs["read"]).toMatchObject({
      distribution: "readings",
      evidence: { files: [{ name: "r.json" }, { name: "r.csv" }] },
    });
  });

  test("of several probes, a study is of one", async () => {
    write(
      "two.csv",
      "time,R,X,Y\n0,20.001,,\n10,,20.012,\n15,,,20.021\n20,20.001,,\n30,20.002,,\n40,,20.014,\n45,,,20.024\n50,20.002,,\n",
    );
    const channels = Object.fromEntries(["R", "X", "Y"].map((name) => [name, { unit: "°C" }]));
    const description = write("two.json", { title: "t", log: { file: "two.csv" }, reference: "R", channels });
    const { stdout, status } = await trialband("readings", description);
    expect(status).toBe(0);
    expect(stdout).toContain("X against R");
    expect(stdout).toContain("Y against R");
    const study = write("d2.json", {
      title: "t",
      model: "additive",
      parameters: { coefficients: { difference: 1 } },
      inputs: { difference: { distribution: "constant", value: 0 } },
      trials: 4000,
    });
    expect(await trialband("readings", description, "--study", study)).toMatchObject({
      status: 2,
      stderr: expect.stringMatching(/--probe: got nothing; expected one of X, Y/),
    });
    expect(
      parsed<Output>(await trialband("readings", description, "--study", study, "--probe", "Y", "--json")).statements[
        "difference"
      ],
    ).toBeDefined();
  });

  test.each<[string, () => string[], RegExp]>([
    [
      "another thermometer's certificate",
      () => [
        at("readings-72.json"),
        "--certificate",
        write("other.json", { ...readExample("survey/reference-HR-02"), thermometer: "HR-09" }),
      ],
      /thermometer: got "HR-09"; expected the certificate of HR-02/,
    ],
    ["a drift without a certificate", () => [at("readings-72.json"), "--drift", "rate"], /--certificate: got nothing/],
    [
      "a probe that is none",
      () => [at("readings-72.json"), "--probe", "HF-1"],
      /--probe: got "HF-1"; expected one of HF-034/,
    ],
    [
      "a day before the calibration",
      () => [at("readings-72.json"), "--certificate", at("reference-HR-02.json"), "--on", "2024-01-01"],
      /on: got "2024-01-01"/,
    ],
    [
      "a day that is none",
      () => [at("readings-72.json"), "--certificate", at("reference-HR-02.json"), "--on", "soon"],
      /got "soon"; expected a day as YYYY-MM-DD/,
    ],
  ])("%s is refused", async (_, args2, message) => {
    expect(await trialband("readings", ...args2())).toMatchObject({
      status: 2,
      stderr: expect.stringMatching(message),
    });
  });
});

describe("immersion", () => {
  test("fits the depths, checks the planned one, and states what it leaves", async () => {
    const { stdout, status } = await trialband("immersion", at("immersion-134.json"));
    expect(status).toBe(0);
    for (const text of [
      "Withdrawn",
      "conduction length 31.3 mm",
      "immersion of at least 300 mm",
      "As input quantities",
    ])
      expect(stdout).toContain(text);
    const { statements } = parsed<Output>(
      await trialband(
        "immersion",
        at("immersion-134.json"),
        "--study",
        "examples/harrowfen/steriliser-134.json",
        "--json",
      ),
    );
    expect(statements["immersion"]).toMatchObject({
      distribution: "rectangular",
      evidence: { figures: expect.arrayContaining([{ name: "planned depth", value: 320, unit: "mm" }]) as object },
    });
  });

  test("refuses a check that measured nothing", async () => {
    expect(await trialband("immersion", write("none.json", { title: "t", planned: 300, limit: 0.002 }))).toMatchObject({
      status: 2,
      stderr: expect.stringMatching(/immersion: got "neither"/),
    });
  });
});

describe("certificate", () => {
  test("JSON and XML of one certificate give the same correction and uncertainty", async () => {
    const correction = async (file: string): Promise<Output["statements"][string]> =>
      parsed<Output>(await trialband("certificate", at(file), "--at", "40", "--on", "2026-03-02", "--json")).statements[
        "referenceCertificate"
      ]!;
    const { evidence: a, source: _a, ...first } = await correction("reference-HR-02.json");
    const { evidence: b, source: _b, ...second } = await correction("reference-HR-02.xml");
    // −4 mK at 4 °C and −6 mK at 72 °C, linearly between.
    expect(first.estimate).toBeCloseTo(-0.004 - (0.002 * 36) / 68, 12);
    for (const [key, value] of Object.entries(first)) {
      if (typeof value === "number") expect((second as Record<string, unknown>)[key], key).toBeCloseTo(value, 12);
    }
    expect([a!.files[0]!.name, b!.files[0]!.name]).toEqual(["reference-HR-02.json", "reference-HR-02.xml"]);
  });

  test("states which quantity the study's model has no input for", async () => {
    const constant = { distribution: "constant", value: 0 };
    const study = write("two-terms.json", {
      title: "Certificate and drift",
      model: "additive",
      parameters: {
        measurand: { symbol: "C", meaning: "correction", unit: "K" },
        coefficients: { referenceCertificate: 1, referenceDrift: 1 },
        terms: { referenceCertificate: { unit: "K" }, referenceDrift: { unit: "K" } },
      },
      inputs: { referenceCertificate: constant, referenceDrift: constant },
      coverage: { factor: 2 },
      trials: 10_000,
    });
    const args = ["certificate", at("reference-HR-02.json"), "--at", "36", "--study", study];
    const { statements, study: made, remarks } = parsed<Output>(await trialband(...args, "--json"));
    expect(Object.keys(statements)).toContain("referenceInterpolation");
    expect(Object.keys(made.inputs)).toEqual(["referenceCertificate", "referenceDrift"]);
    expect(remarks).toEqual([
      `referenceInterpolation is not in the new study: model additive of ${study} has no such input.`,
    ]);
    expect(words((await trialband(...args)).stdout)).toContain("referenceInterpolation is not in the new study");
  });

  test("without --at shows points, history and age; warns when the next is overdue", async () => {
    const { stdout } = await trialband("certificate", at("reference-HR-02.json"), "--on", "2026-09-20");
    expect(words(stdout)).toContain("the calibration of HR-02 was due on 2026-09-15, 5 days before 2026-09-20");
    expect(stdout).toContain("Corrections over time, in mK");
    expect(stdout).not.toContain("As input quantities");
    expect(words((await trialband("certificate", at("reference-HR-02.xml"), "--on", "2026-09-20")).stdout)).toContain(
      "the correction is its negative",
    );
  });

  test.each<[string, string[], RegExp]>([
    [
      "a temperature outside the points",
      [at("reference-HR-02.json"), "--at", "200"],
      /temperature: got 200; expected a temperature within the points/,
    ],
    ["a temperature that is none", [at("reference-HR-02.json"), "--at", "warm"], /temperature in °C, such as 72/],
    [
      "a study without --at",
      [at("reference-HR-02.json"), "--study", "examples/harrowfen/cold-store-4.json"],
      /--at: got nothing/,
    ],
    [
      "a drift the history is too short for",
      [at("reference-HR-02.xml"), "--at", "72", "--drift", "rate"],
      /history: got "0 earlier calibrations"/,
    ],
    [
      "a part that is none",
      [at("reference-HR-02.xml"), "--part", "length=1"],
      /temperature=N, error=N or correction=N/,
    ],
    ["another file", [at("budget-72.csv")], /budget-72\.csv is not JSON \(line 1, column 1\): expected a value/],
  ])("%s is refused", async (_, args, message) => {
    expect(await trialband("certificate", ...args)).toMatchObject({
      status: 2,
      stderr: expect.stringMatching(message),
    });
  });
});

test.each(["readings", "immersion", "certificate", "budget"])(
  "%s --help shows exit codes and examples",
  async (command) => {
    const { stdout, status } = await trialband(command, "--help");
    expect(status).toBe(0);
    for (const text of [
      "Usage: trialband",
      "--out <file>",
      "--run",
      "Exit codes: 0 done",
      "Examples:",
      `trialband ${command} examples/survey/`,
    ])
      expect(stdout).toContain(text);
  },
);
