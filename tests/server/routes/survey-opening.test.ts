import express, { Router } from "express";
import request from "supertest";
import { createHash } from "node:crypto";
import { readFileSync } from "node:fs";
import { afterAll, beforeEach, describe, expect, test } from "vitest";
import writeXlsx from "write-excel-file/node";
import { nameIdentity, OWNER } from "../../../server/access/identity.ts";
import { quiet } from "../../../server/http/log.ts";
import { refuse } from "../../../server/http/refuse.ts";
import { guarded } from "../../../server/routes/guarded.ts";
import type { EvaluatedSurvey } from "../../../viewer/api/surveys.ts";
import { surveys } from "../../../server/routes/surveys.ts";
import { openReader } from "../../../server/checks/reader.ts";
import { openStore } from "../../../server/store/open-store.ts";
import { studyShelf } from "../../../server/shelves/studies.ts";

const example = (path: string): Buffer => readFileSync(new URL(`../../../examples/${path}`, import.meta.url));
const description = example("survey/pasteuriser-72.json");
const log = example("survey/pasteuriser-72.csv");
const described = JSON.parse(description.toString("utf8")) as Record<string, unknown>;
const digest = (bytes: Buffer): string => createHash("sha256").update(bytes).digest("hex");

const reader = openReader();
afterAll(() => reader.close());
let app: express.Express;
beforeEach(() => {
  const api = Router();
  api.use((_request, response, next) => {
    nameIdentity(response, OWNER);
    next();
  });
  surveys(
    guarded(api, "/api", () => undefined),
    {
      shelf: studyShelf(new URL("../../../examples", import.meta.url).pathname),
      evidence: openStore({ folder: null }).evidence,
      desk: { ownStudies: () => [] },
      reader,
    } as never,
  );
  app = express();
  app.use(express.json());
  app.use("/api", api);
  app.use(refuse(quiet));
});

type Files = Readonly<Record<string, Buffer>>;
const open = (files: Files, sizes = Object.values(files).map(({ length }) => length)): request.Test =>
  request(app)
    .post(
      `/api/surveys?${Object.keys(files)
        .map((name, i) => `name=${encodeURIComponent(name)}&size=${sizes[i]}`)
        .join("&")}`,
    )
    .set("content-type", "application/octet-stream")
    .send(Buffer.concat(Object.values(files)));
const changed = (changes: object): Buffer => Buffer.from(JSON.stringify({ ...described, ...changes }));
type Told = { code: string; detail: string; problems: { place: string; value: string; accepted: string }[] };

describe("POST /api/surveys", () => {
  test("evaluates a description with its log as the shelf's own is evaluated, and keeps it under its digests", async () => {
    const { body, status } = await open({ "pasteuriser-72.json": description, "pasteuriser-72.csv": log });
    expect(status).toBe(201);
    const opened = body as EvaluatedSurvey;
    expect(opened.id).toBe(`${digest(description).slice(0, 16)}-${digest(log).slice(0, 16)}`);
    expect(opened.files).toEqual([
      { name: "pasteuriser-72.json", sha256: digest(description) },
      { name: "pasteuriser-72.csv", sha256: digest(log) },
    ]);
    const own = (await request(app).get("/api/surveys/pasteuriser-72")).body as EvaluatedSurvey;
    expect({ ...opened, id: own.id, opened: false }).toEqual(own);
    expect((await request(app).get(`/api/surveys/${opened.id}`)).body).toEqual(opened);
    expect((await request(app).get("/api/surveys")).body).toContainEqual({
      id: opened.id,
      title: opened.evaluation.title,
      notes: described["notes"],
      log: "pasteuriser-72.csv",
      opened: true,
    });
  });

  test("tells the extremes of the worst window as the log has them", async () => {
    const { worst, evaluation } = (await open({ "pasteuriser-72.json": description, "pasteuriser-72.csv": log }))
      .body as EvaluatedSurvey;
    const { from, to, halfRange } = evaluation.stability.worst;
    const column = evaluation.stay.thermometer === "HS-11" ? 1 : 2;
    const rows = log
      .toString("utf8")
      .trim()
      .split(/\r?\n/)
      .slice(1)
      .map((row) => row.split(",").map(Number));
    const inside = rows.filter(([time]) => time! >= from && time! <= to).map((row) => row[column]!);
    expect(worst).toEqual([Math.min(...inside), Math.max(...inside)]);
    // The log has five places behind the point.
    expect((worst[1] - worst[0]) / 2).toBeCloseTo(halfRange, 9);
  });

  test("takes the log as a spreadsheet too", async () => {
    const rows = log
      .toString("utf8")
      .trim()
      .split(/\r?\n/)
      .map((row, i) =>
        row.split(",").map((cell) => (i === 0 ? { value: cell, type: String } : { value: Number(cell), type: Number })),
      );
    const xlsx = (await writeXlsx(rows as never).toBuffer()) as Buffer;
    const { body, status } = await open({ "log.xlsx": xlsx, "own.json": changed({ log: { file: "log.xlsx" } }) });
    expect(status).toBe(201);
    const own = (await request(app).get("/api/surveys/pasteuriser-72")).body as EvaluatedSurvey;
    expect((body as EvaluatedSurvey).evaluation.stability.halfWidth).toBe(own.evaluation.stability.halfWidth);
  });

  test("takes the only other file where the description names none", async () => {
    const { log: _, ...without } = described;
    expect((await open({ "own.json": Buffer.from(JSON.stringify(without)), "any.csv": log })).status).toBe(201);
  });

  const broken = Buffer.from(log.toString("utf8").replace(/^(100,)[\d.]+,/m, "$171.99x,"));
  test.each<[string, Files, string, { place: string; value: string; accepted: string }]>([
    [
      "a cell that is no number",
      { "a.json": changed({ log: { file: "a.csv" } }), "a.csv": broken },
      "bad-input",
      {
        place: "a.csv, row 12, column HS-11 / °C",
        value: '"71.99x"',
        accepted: "a number in °C, as the rest of the column",
      },
    ],
    [
      "a log under another name",
      { "a.json": description, "other.csv": log },
      "bad-input",
      {
        place: "a.json, log.file",
        value: '"other.csv"',
        accepted: '"pasteuriser-72.csv", opened together with the description',
      },
    ],
    [
      "a description alone",
      { "a.json": description },
      "bad-input",
      {
        place: "a.json, log.file",
        value: "no file beside the description",
        accepted: '"pasteuriser-72.csv", opened together with the description',
      },
    ],
    [
      "a log alone",
      { "a.csv": log },
      "bad-input",
      {
        place: "files",
        value: '"a.csv"',
        accepted: "one description of a survey that ends in .json, and the log that it names",
      },
    ],
    [
      "two descriptions",
      { "a.json": description, "b.json": description, "pasteuriser-72.csv": log },
      "bad-input",
      {
        place: "files",
        value: '"a.json, b.json, pasteuriser-72.csv"',
        accepted: "one description of a survey that ends in .json, and the log that it names",
      },
    ],
    [
      "a position that does not exist",
      { "a.json": changed({ reference: "middle" }), "pasteuriser-72.csv": log },
      "bad-input",
      { place: "reference", value: '"middle"', accepted: "one of centre, high, low, east, west" },
    ],
  ])("names what is wrong: %s", async (_what, files, code, problem) => {
    const { body, status } = await open(files);
    expect(status).toBe(422);
    const told = body as Told;
    expect(told.code).toBe(code);
    expect(told.problems).toEqual([problem]);
    expect((await request(app).get("/api/surveys")).body).toHaveLength(4);
  });

  test("tells a description that is no JSON", async () => {
    const { body } = await open({ "a.json": Buffer.from("{,"), "a.csv": log });
    expect(body as Told).toMatchObject({
      code: "not-json",
      detail: expect.stringContaining("a.json is not JSON (line 1, column 2)"),
    });
  });

  test.each([
    [
      "sizes that are not those of the bytes",
      () => open({ "a.json": description, "a.csv": log }, [description.length, log.length + 1]),
      422,
      "size",
    ],
    [
      "fewer sizes than names",
      () =>
        request(app).post("/api/surveys?name=a.json").set("content-type", "application/octet-stream").send(description),
      422,
      "name, size",
    ],
    ["a path as a name", () => open({ "../a.json": description }), 422, "name.0"],
    ["a size that is none", () => open({ "a.json": description }, [-1]), 422, "size.0"],
    ["JSON", () => request(app).post("/api/surveys?name=a.json&size=2").send({}), 422, "the whole request"],
  ])("refuses %s", async (_what, ask, status, place) => {
    const answer = await ask();
    expect(answer.status).toBe(status);
    expect((answer.body as Told).problems[0]!.place || "the whole request").toBe(place);
  });

  test("refuses more than is accepted before it is read", async () => {
    const { body, status } = await open({ "a.json": description, "a.csv": log }, [description.length, 20_000_001]);
    expect(status).toBe(413);
    expect(body as Told).toMatchObject({
      code: "too-large",
      detail: expect.stringContaining("a.csv has 20000001 bytes; expected at most 20000000") as string,
    });
  });

  test("keeps the latest sixteen", async () => {
    const ids: string[] = [];
    for (let i = 0; i < 17; i++)
      ids.push(
        (
          (await open({ "a.json": changed({ title: `Survey ${i}` }), "pasteuriser-72.csv": log }))
            .body as EvaluatedSurvey
        ).id,
      );
    expect((await request(app).get(`/api/surveys/${ids[1]}`)).status).toBe(200);
    const gone = await request(app).get(`/api/surveys/${ids[0]}`);
    expect(gone.status).toBe(404);
    expect((gone.body as Told).detail).toContain("open them again");
  }, 120_000);
});

describe("a survey by the digests of its files", () => {
  test("is found on the shelf, as a record's evidence names it", async () => {
    const { body } = await request(app).get(
      `/api/surveys/${digest(description).slice(0, 16)}-${digest(log).slice(0, 16)}`,
    );
    expect((body as EvaluatedSurvey).id).toBe("pasteuriser-72");
    expect((await request(app).get(`/api/surveys/${"0".repeat(16)}-${"0".repeat(16)}`)).status).toBe(404);
  });
});

describe("a study from a survey", () => {
  test("studies that can take it are listed, those of its bath first", async () => {
    const { body } = await request(app).get("/api/surveys/pasteuriser-72/studies");
    const fitting = body as { id: string; sameBath: boolean; fits: boolean }[];
    expect(fitting[0]).toEqual({
      id: "harrowfen/pasteuriser-72",
      title: "Pasteuriser probe HF-034 at 72 °C",
      sameBath: true,
      fits: true,
    });
    expect(fitting.slice(1).some(({ id }) => id === "harrowfen/steriliser-134")).toBe(true);
    expect(fitting.slice(1).some(({ sameBath }) => sameBath)).toBe(false);
    // One whose inputs have other names comes last: there each quantity is given its input.
    expect(fitting.find(({ id }) => id === "published/end-gauge")).toMatchObject({ fits: false });
    expect(fitting.findIndex(({ fits }) => !fits)).toBe(fitting.filter(({ fits }) => fits).length);
  });

  test("with other names takes each quantity where it is told to, in the unit of the input", async () => {
    const term = (symbol: string) => ({ symbol, meaning: symbol, unit: "mK", difference: true });
    const own = {
      title: "Bath at 72 °C, by other names",
      model: "additive",
      parameters: {
        measurand: { symbol: "y", meaning: "sum", unit: "mK", difference: true },
        coefficients: { uniformity: 1, drift: 1 },
        terms: { uniformity: term("δt_u"), drift: term("δt_d") },
      },
      inputs: {
        uniformity: { distribution: "rectangular", estimate: 0, halfWidth: 5 },
        drift: { distribution: "rectangular", estimate: 0, halfWidth: 5 },
      },
      trials: 10_000,
      seed: "1",
    };
    const make = (into: object) => request(app).post("/api/surveys/pasteuriser-72/study").send({ study: own, into });
    const { body: survey } = await request(app).get("/api/surveys/pasteuriser-72");
    const { statements } = survey as EvaluatedSurvey;
    const made = await make({ bathAxial: "uniformity", bathRadial: "", bathStability: "drift" });
    expect(made.body.problems ?? []).toEqual([]);
    const { inputs } = (made.body as { study: { inputs: Record<string, object> } }).study;
    expect(inputs["uniformity"]).toEqual({ ...statements["bathAxial"], unit: "K" });
    expect(inputs["drift"]).toEqual({ ...statements["bathStability"], unit: "K" });
    for (const [into, place] of [
      [{ bathAxial: "uniformity", bathRadial: "uniformity", bathStability: "" }, "into.bathRadial"],
      [{ bathAxial: "nothing", bathRadial: "", bathStability: "" }, "into.bathAxial"],
      [{ bathAxial: "", bathRadial: "", bathStability: "" }, "into"],
      [{ bathDepth: "drift", bathAxial: "", bathRadial: "", bathStability: "" }, "into.bathDepth"],
      [{}, "study.inputs"],
    ] as const) {
      const refused = await make(into);
      expect([refused.status, refused.body.problems[0].place]).toEqual([422, place]);
    }
  });

  test("has the survey's quantities with their evidence, and all else as it was", async () => {
    const { body, status } = await request(app).post("/api/surveys/pasteuriser-72/study").send({});
    expect(status).toBe(200);
    const { study, remarks } = body as {
      study: { inputs: Record<string, Record<string, unknown>> };
      remarks: string[];
    };
    const before = JSON.parse(example("harrowfen/pasteuriser-72.json").toString("utf8")) as typeof study;
    const { statements, evaluation } = (await request(app).get("/api/surveys/pasteuriser-72")).body as EvaluatedSurvey;
    expect(remarks).toEqual([]);
    expect(study).toEqual({ ...before, inputs: { ...before.inputs, ...statements } });
    expect(study.inputs["bathAxial"]!["halfWidth"]).toBeCloseTo(evaluation.axial!.quantity.halfWidth, 12);
    expect(study.inputs["bathAxial"]!["evidence"]).toMatchObject({
      files: [
        { name: "pasteuriser-72.json", sha256: digest(description) },
        { name: "pasteuriser-72.csv", sha256: digest(log) },
      ],
    });
  });

  test("takes other distributions, and tells of another bath", async () => {
    const { body } = await request(app)
      .post("/api/surveys/pasteuriser-72/study")
      .send({ study: "harrowfen/steriliser-134", distributions: { bathAxial: "arcsine", bathStability: "normal" } });
    const { study, remarks } = body as {
      study: { inputs: Record<string, Record<string, unknown>> };
      remarks: string[];
    };
    expect(study.inputs["bathAxial"]!["distribution"]).toBe("arcsine");
    expect(study.inputs["bathStability"]).toMatchObject({ distribution: "normal" });
    expect(remarks).toEqual([
      expect.stringMatching(/another bath.*the fluid is "water" there/) as string,
      "The survey is of another bath than the study: the set temperature is 72 there and 134 here.",
    ]);
  });

  test("comes of opened files and of a study sent along", async () => {
    const { id } = (await open({ "a.json": description, "pasteuriser-72.csv": log })).body as EvaluatedSurvey;
    const study = JSON.parse(example("harrowfen/pasteuriser-72.json").toString("utf8")) as Record<string, unknown>;
    const { body, status } = await request(app)
      .post(`/api/surveys/${id}/study`)
      .send({ study: { ...study, title: "Mine" } });
    expect(status).toBe(200);
    expect(body).toMatchObject({
      study: {
        title: "Mine",
        inputs: { bathAxial: { evidence: { files: [{ name: "a.json" }, { name: "pasteuriser-72.csv" }] } } },
      },
    });
  });

  test.each<[object, number, string]>([
    [{ study: "harrowfen/none" }, 404, ""],
    [{ study: "published/end-gauge" }, 422, "study.inputs"],
    [{ study: 5 }, 422, "study"],
    [{ distributions: { bathAxial: "normal" } }, 422, "distributions.bathAxial"],
    [{ distributions: { drift: "arcsine" } }, 422, "distributions.drift"],
    [{ distributions: [] }, 422, "distributions"],
    // A path would run code.
    [{ study: { title: "t", model: "./own.ts", inputs: {} } }, 422, "model"],
  ])("refuses %j", async (sent, status, place) => {
    const answer = await request(app).post("/api/surveys/pasteuriser-72/study").send(sent);
    expect(answer.status).toBe(status);
    expect((answer.body as Told).problems[0]?.place ?? "").toBe(place);
  });
});
