// trialband calibrate: from the logs of four baths to a whole calibration, in one command.
import { mkdirSync, readdirSync, readFileSync } from "node:fs";
import { join, relative } from "node:path";
import { beforeAll, describe, expect, test } from "vitest";
import type { RunRecord } from "../../../engine/index.ts";
import type { CalibrationDocument, CalibrationResult } from "../../../models/index.ts";
import { displayWidth } from "../../../viewer/terminal/table.ts";
import { cases, documentOf } from "../../models/calibration/standard-thermometer.ts";
import { LONG } from "../../setup/long.ts";
import { root, scratch, trialband, type Finished } from "./trialband.ts";

const EXAMPLE = "examples/calibration/two-probes.json";
const { path, write } = scratch();
const example = (): CalibrationDocument => JSON.parse(readFileSync(join(root, EXAMPLE), "utf8")) as CalibrationDocument;
/** The example with changes, in a folder of its own; its files are named from there. */
function changed(name: string, change: (document: CalibrationDocument) => object): string {
  const text = JSON.stringify({ ...example(), ...change(example()) });
  return write(
    name,
    JSON.parse(text.replaceAll("../survey/", `${relative(path("."), join(root, "examples/survey"))}/`)),
  );
}

interface Results {
  readonly format: string;
  readonly files: readonly { readonly name: string; readonly sha256: string }[];
  readonly instruments: readonly (CalibrationResult & { readonly record: string })[];
}

describe("the example: two probes at four baths, whose surveys and reference are read", () => {
  let found: Finished;
  let results: Results;
  beforeAll(async () => {
    mkdirSync(path("records"));
    const written = ["--out", path("results.json"), "--records", path("records"), "--report", path("report.html")];
    const certificates = ["--certificates", path("records"), "--forms", "html,dcc,json"];
    found = await trialband(
      "calibrate",
      EXAMPLE,
      "--trials",
      "20000",
      // Side by side: a thread for each instrument.
      "--workers",
      "2",
      "--language",
      "de",
      ...written,
      ...certificates,
    );
    results = JSON.parse(readFileSync(path("results.json"), "utf8")) as Results;
  });

  test("prints points, repeated points, conformity, coefficients and the band of both, and stays in its width", () => {
    expect(found.stderr).toBe("");
    expect(found.status).toBe(0);
    for (const words of [
      "HF-034",
      "HF-035",
      "Points by rising temperature",
      "rising and falling",
      "Lack of fit",
      "Work safely",
    ])
      expect(found.stdout).toContain(words);
    expect(found.stdout).not.toMatch(/NaN|undefined|null|\x1b|\{\w+\}/);
    expect(found.stdout.split("\n").filter((line) => displayWidth(line) > 100)).toEqual([]);
  });

  test("results: every instrument, every point, every file with its digest", () => {
    expect(results.format).toBe("trialband-calibration/1");
    expect(results.instruments.map(({ instrument }) => instrument)).toEqual(["HF-034", "HF-035"]);
    for (const { points, fit, conformity, repeats } of results.instruments) {
      expect(points.map(({ nominal }) => nominal)).toEqual([-40, 4, 4, 72, 134]);
      expect(points.every(({ conformity: judged }) => judged!.decision === "accepted")).toBe(true);
      expect(fit!.coefficients.map(({ name }) => name)).toEqual(["R0", "A", "B"]);
      expect(fit!.degreesOfFreedom).toBe(2);
      // What is shared widens the band between the points: here a third of it is not seen by independent points.
      expect(fit!.tooNarrow[1]).toBeGreaterThan(0.25);
      expect(conformity!.measurands).toHaveLength(5);
      expect(repeats).toHaveLength(1);
      expect(repeats[0]!.standardUncertainty).toBeLessThan(points[1]!.standardUncertainty);
    }
    expect(results.files.map(({ name }) => name)).toContain("reference-HR-02.json");
    expect(results.files).toHaveLength(10);
  });

  test("the invented coefficients that the readings were made with lie within 3u of those found", () => {
    const made = { "HF-034": [100.0089, 3.9079e-3, -5.779e-7], "HF-035": [99.9921, 3.9101e-3, -5.801e-7] };
    for (const { instrument, fit } of results.instruments) {
      fit!.coefficients.forEach(({ estimate, standardUncertainty }, i) =>
        expect(Math.abs(estimate - made[instrument as keyof typeof made][i]!)).toBeLessThan(3 * standardUncertainty),
      );
    }
  });

  test("each record carries what the surveys and the certificate were evaluated from", () => {
    const { study } = JSON.parse(readFileSync(path("records/HF-034.json"), "utf8")) as RunRecord;
    expect(JSON.stringify(study.inputs["bathAxial_coldstore"])).toContain("cold-store-4.csv");
    expect(JSON.stringify(study.inputs["referenceCertificate_p1"])).toContain("reference-HR-02.json");
  });

  test("the report is one document in the language asked for, with a picture for each instrument", () => {
    const html = readFileSync(path("report.html"), "utf8");
    expect(html).toContain('<html lang="de">');
    expect(html).toContain("Kalibrierung eines Thermometers an mehreren Punkten");
    expect(html.match(/<svg/g)).toHaveLength(2);
    expect(html).not.toMatch(/NaN|undefined|\{\w+\}|https?:\/\/(?!www\.w3\.org)/);
  });
});

describe("certificates of the example", () => {
  test("in the language asked for, without a draft's mark, since every field is filled", () => {
    const html = readFileSync(path("records/HF-034-certificate.html"), "utf8");
    expect(html).toContain("Kalibrierschein");
    expect(html).toContain("HCR-2026-041");
    expect(html).not.toContain("Entwurf");
  });

  test("the digital certificate is read as that of a reference, with the printed figures", async () => {
    const { status, stdout } = await trialband("certificate", path("records/HF-034-certificate.xml"), "--at", "72");
    expect(status).toBe(0);
    const { points } = JSON.parse(readFileSync(path("records/HF-034-certificate.json"), "utf8")) as {
      points: { nominal: number; error: number; expandedUncertainty: number }[];
    };
    const { error } = points.find(({ nominal }) => nominal === 72)!;
    expect(stdout).toContain(`correction −${(1000 * error).toFixed(0)}`);
  });
});

describe("refused, with the place in the document", () => {
  test.each<[string, (document: CalibrationDocument) => object, RegExp]>([
    [
      "a point outside the certificate of the reference",
      ({ points }) => ({ points: points.map((point, i) => (i === 2 ? { ...point, nominal: 135 } : point)) }),
      /points\.2\.nominal.*135.*within the points of the certificate, -40 °C to 134 °C/s,
    ],
    [
      "a survey that is not there",
      ({ baths }) => ({ baths: { ...baths, freezer: { survey: "none.json" } } }),
      /There is no file .*none\.json/,
    ],
    [
      "a missing survey",
      ({ baths }) => ({ baths: { ...baths, freezer: {} } }),
      /points\.4\.bathAxial.*a survey of the bath \(baths\.freezer\.survey\)/s,
    ],
    [
      "readings of other instruments",
      ({ points }) => ({
        points: points.map((point, i) => (i === 1 ? { ...point, readings: "../survey/readings-72.json" } : point)),
        instruments: [example().instruments[1]],
      }),
      /points\.1\.readings.*readings of one of the instruments HF-035/s,
    ],
  ])("%s", async (_, change, message) => {
    const { status, stderr, stdout } = await trialband("calibrate", changed("changed.json", change));
    expect(stderr.replaceAll(/\s+/g, " ")).toMatch(message);
    expect(stdout).toBe("");
    expect(status).toBe(2);
  });

  test("an instrument that is not calibrated here", async () => {
    const { status, stderr } = await trialband("calibrate", EXAMPLE, "--instrument", "HF-999");
    expect(stderr).toMatch(/HF-999.*one of HF-034, HF-035/s);
    expect(status).toBe(2);
  });
});

test("readings of a point come from a log; the record is one that verify takes", async () => {
  const file = changed("log.json", ({ points, instruments }) => ({
    instruments: [{ ...instruments[0], fit: "none" }],
    certificate: { issued: "2026-03-05" },
    points: [
      ...points.slice(0, 1).map((point) => ({ ...point, instruments: { "HF-034": point.instruments!["HF-034"] } })),
      { nominal: 72, bath: "pasteuriser", readings: "../survey/readings-72.json" },
    ],
  }));
  const small = ["--trials", "20000", "--workers", "1"];
  const drafts = ["--certificates", path("drafts")];
  mkdirSync(path("drafts"));
  const { status, stdout, stderr } = await trialband(
    "calibrate",
    file,
    ...small,
    "--json",
    "--records",
    path("records"),
    ...drafts,
  );
  expect(status).toBe(0);
  // A draft is written for people, what it lacks is printed, and machines get none.
  expect(stderr).toContain("HF-034: the certificate is a draft");
  expect(stderr).toContain("certificate.customer.name");
  expect(readdirSync(path("drafts")).toSorted()).toEqual(["HF-034-certificate.html", "HF-034-certificate.json"]);
  const [only] = (JSON.parse(stdout) as Results).instruments;
  expect(only!.points.map(({ nominal }) => nominal)).toEqual([4, 72]);
  expect(only!.points[1]!.temperature).toBeCloseTo(72, 1);
  expect(only!.fit).toBeNull();
  const verified = await trialband("verify", path("records/HF-034.json"), "--workers", "1");
  expect(verified.stdout).toContain("exactly");
  expect(verified.status).toBe(0);
});

test("a standard thermometer: coefficients of ITS-90 in the terminal, the certificate and its DCC", LONG, async () => {
  const document = documentOf(cases[0]!);
  const { certificate, calibrated } = example();
  const [instrument] = document.instruments;
  const file = write("standard.json", {
    ...document,
    calibrated,
    laboratory: "Harrowfen Calibration Room (invented)",
    certificate,
    instruments: [
      { ...instrument!, description: "standard thermometer", certificate: example().instruments[0]!.certificate },
    ],
  });
  mkdirSync(path("standard"));
  const forms = ["--certificates", path("standard"), "--forms", "html,dcc,json"];
  const { status, stdout, stderr } = await trialband("calibrate", file, "--workers", "1", ...forms);
  expect(stderr).toBe("");
  expect(status).toBe(0);
  expect(stdout).toContain("reference function of ITS-90 with R(0.01 °C) = 25.4987");
  expect(stdout.replaceAll(/\s+/g, " ")).toContain("sub-range 8 of ITS-90: W − W_r(T₉₀) = a(W − 1) + b(W − 1)²");
  const html = readFileSync(path("standard/S-certificate.html"), "utf8");
  expect(html).toContain("sub-range 8 of ITS-90");
  expect(html).not.toMatch(/NaN|undefined|\{\w+\}/);
  const dcc = readFileSync(path("standard/S-certificate.xml"), "utf8");
  expect(dcc).toContain("trialband_coefficient_Rtp");
  expect(dcc).toContain("Teilbereich 8 der ITS-90");
  const { fit } = JSON.parse(readFileSync(path("standard/S-certificate.json"), "utf8")) as {
    readonly fit: { readonly deviation: { readonly subRange: string } };
  };
  expect(fit.deviation.subRange).toBe("8");
});
