import request from "supertest";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { z } from "zod";
import { createApp } from "../../../server/app.ts";
import { openPool, type Pool } from "../../../server/runs/pool/pool.ts";
import { Runs } from "../../../server/runs/runs.ts";
import { openStore } from "../../../server/store/open-store.ts";
import { studyShelf } from "../../../server/shelves/studies.ts";
import type { Quantity, RunRecord } from "../../../engine/index.ts";
import type { About } from "../../../viewer/api/about.ts";
import type { Refusal } from "../../../viewer/api/fault.ts";
import type { ChosenInterval } from "../../../viewer/api/measurands.ts";
import type { ListedModel, ModelDescription } from "../../../viewer/api/models.ts";
import type { ShownRecord } from "../../../viewer/api/records.ts";
import type { Run, RunEvent, RunHead, StartedRun } from "../../../viewer/api/runs.ts";
import type { ListedStudy, StudyCheck } from "../../../viewer/api/studies.ts";
import type { FittingStudy, ListedSurvey, SurveyStudy } from "../../../viewer/api/surveys.ts";

/** Answers as they arrive, after JSON: each has the fields of its type in `viewer/api` and no other. */
const words = z.string();
const document = z.record(words, z.unknown());
const quantities = z.record(words, z.custom<Quantity>());
const record = z.custom<RunRecord>(
  (value) => z.looseObject({ format: words, measurands: document }).safeParse(value).success,
);
const problem = z.strictObject({ place: words, value: words, accepted: words });
const fault = z.strictObject({ code: words, message: words, problems: z.array(problem) });
const head = z.strictObject({
  id: words,
  title: words,
  model: words,
  state: z.enum(["waiting", "running", "finished", "failed", "cancelled"]),
  startedAt: z.iso.datetime(),
  trials: z.int(),
  limit: z.int(),
  verdict: z
    .strictObject({
      measurand: words,
      validated: z.boolean(),
      firm: z.boolean(),
      nothingVaries: z.literal(true).exactOptional(),
    })
    .nullable(),
  study: words.nullable(),
  studyVersion: z.int(),
  note: words.nullable(),
  noteVersion: z.int(),
  notKept: words.nullable(),
});
const optional = <T extends z.ZodType>(part: T) => z.exactOptional(part);

const SHAPES = {
  about: z.strictObject({
    name: z.literal("trialband"),
    version: words,
    node: words,
    workers: z.int(),
  }) satisfies z.ZodType<About>,
  refusal: z.strictObject({
    type: z.templateLiteral(["/api/problems/", words]),
    title: words,
    status: z.int(),
    detail: words,
    instance: z.templateLiteral(["urn:uuid:", z.uuid()]),
    code: words,
    problems: z.array(problem),
  }) satisfies z.ZodType<Refusal>,
  heads: z.array(head) satisfies z.ZodType<RunHead[]>,
  head: head satisfies z.ZodType<RunHead>,
  run: head.extend({ record: record.nullable(), error: fault.nullable() }) satisfies z.ZodType<Run>,
  started: z.strictObject({ id: words }) satisfies z.ZodType<StartedRun>,
  event: z.discriminatedUnion("type", [
    z.strictObject({ type: z.literal("progress"), trials: z.int(), limit: z.int() }),
    z.strictObject({ type: z.literal("snapshot"), record }),
    z.strictObject({ type: z.literal("finished"), record, notKept: words.nullable() }),
    z.strictObject({ type: z.literal("failed"), error: fault, notKept: words.nullable() }),
    z.strictObject({ type: z.literal("cancelled"), trials: z.int(), notKept: words.nullable() }),
  ]) satisfies z.ZodType<RunEvent>,
  interval: z.strictObject({
    probability: z.number(),
    symmetric: z.tuple([z.number(), z.number()]),
    shortest: z.tuple([z.number(), z.number()]),
  }) satisfies z.ZodType<ChosenInterval>,
  studies: z.array(
    z.strictObject({
      id: words,
      group: words,
      title: words,
      model: words,
      laboratory: words.nullable(),
      notes: words.nullable(),
    }),
  ) satisfies z.ZodType<ListedStudy[]>,
  check: z.strictObject({ problems: z.array(problem) }) satisfies z.ZodType<StudyCheck>,
  models: z.array(
    z.strictObject({
      id: words,
      title: words,
      equation: words.nullable(),
      source: words.nullable(),
      cautions: z.array(words),
      family: z.boolean(),
      parameters: optional(z.record(words, words)),
      inputs: optional(quantities),
      optionalInputs: optional(quantities),
      measurands: optional(quantities),
    }),
  ) satisfies z.ZodType<ListedModel[]>,
  model: z.strictObject({
    id: words,
    equation: words.nullable(),
    cautions: z.array(words),
    inputs: quantities,
    optionalInputs: quantities,
    measurands: quantities,
  }) satisfies z.ZodType<ModelDescription>,
  opened: z.strictObject({ record, seal: words }) satisfies z.ZodType<ShownRecord>,
  surveys: z.array(
    z.strictObject({
      id: words,
      title: words,
      notes: words.nullable(),
      log: words,
      opened: optional(z.literal(true)),
    }),
  ) satisfies z.ZodType<ListedSurvey[]>,
  fitting: z.array(z.strictObject({ id: words, title: words, sameBath: z.boolean() })) satisfies z.ZodType<
    FittingStudy[]
  >,
  surveyStudy: z.strictObject({ study: document, remarks: z.array(words) }) satisfies z.ZodType<SurveyStudy>,
} as const;

const shelf = studyShelf(new URL("../../../examples", import.meta.url).pathname);
let pool: Pool;
let app: ReturnType<typeof createApp>;
let id: string;

beforeAll(async () => {
  pool = await openPool(1);
  const runs = new Runs(async () => pool, openStore({ folder: null }));
  app = createApp({ runs, shelf, workers: 1, page: "/nowhere", hosts: null });
  const started = await request(app).post("/api/runs").send({ study: "published/additive-normal", trials: 20_000 });
  id = SHAPES.started.parse(started.body).id;
  await new Promise<void>((resolve) => void runs.follow(id, ({ type }) => type === "finished" && resolve()));
});
afterAll(() => pool.close());

describe("what is read", () => {
  test.each<[string, z.ZodType]>([
    ["about", SHAPES.about],
    ["models", SHAPES.models],
    ["studies", SHAPES.studies],
    ["surveys", SHAPES.surveys],
    ["surveys/pasteuriser-72/studies", SHAPES.fitting],
    ["runs", SHAPES.heads],
    ["runs/:id", SHAPES.run],
    ["runs/:id/measurands/y/interval?p=0.9", SHAPES.interval],
    ["runs/none", SHAPES.refusal],
    ["nothing", SHAPES.refusal],
  ])("GET /api/%s", async (path, shape) => {
    const { body } = await request(app).get(`/api/${path.replace(":id", id)}`);
    expect(shape.safeParse(body).error?.issues).toBeUndefined();
    if (Array.isArray(body)) expect(body.length).toBeGreaterThan(0);
  });

  test("GET /api/runs/:id/events: progress, then how it ended", async () => {
    const { text } = await request(app).get(`/api/runs/${id}/events`);
    const events = text
      .split("\n")
      .filter((line) => line.startsWith("data: "))
      .map((line) => SHAPES.event.parse(JSON.parse(line.slice("data: ".length))));
    expect(events.map(({ type }) => type)).toEqual(["progress", "finished"]);
  });

  /** WHATWG HTML, 9.2: a stream taken up again carries Last-Event-ID; 204 ends the taking up. */
  test.each<[string, number, readonly string[]]>([
    ["0", 200, ["20000", "end"]],
    ["19999", 200, ["20000", "end"]],
    ["20000", 200, ["end"]],
    ["end", 204, []],
  ])("GET /api/runs/:id/events after %s: what is newer", async (seen, status, ids) => {
    const answer = await request(app).get(`/api/runs/${id}/events`).set("last-event-id", seen);
    expect(answer.status).toBe(status);
    expect(Array.from((answer.text ?? "").matchAll(/^id: (.*)$/gm), ([, found]) => found)).toEqual(ids);
  });

  test.each(["-1", "1.5", "END", "x"])("GET /api/runs/:id/events after %s is refused", async (seen) => {
    const { body, status } = await request(app).get(`/api/runs/${id}/events`).set("last-event-id", seen);
    expect(status).toBe(422);
    expect(SHAPES.refusal.parse(body).problems[0]!.place).toBe("Last-Event-ID");
  });

  test("GET /api/surveys/:id: infinitely many degrees of freedom are null", async () => {
    const { body } = await request(app).get("/api/surveys/pasteuriser-72");
    expect(body.evaluation.map.reference.degreesOfFreedom).toBeNull();
  });
});

describe("what is sent", () => {
  test("a body that fits is answered", async () => {
    const post = async (path: string, body: object): Promise<unknown> =>
      (await request(app).post(path).send(body)).body;
    const study: unknown = await shelf.read("published/additive-normal");
    expect(SHAPES.check.parse(await post("/api/studies/check", { study }))).toEqual({ problems: [] });
    expect(SHAPES.model.parse(await post("/api/models/bath-comparison", {})).id).toBe("bath-comparison");
    SHAPES.surveyStudy.parse(await post("/api/surveys/pasteuriser-72/study", {}));
    const { record: made } = SHAPES.run.parse((await request(app).get(`/api/runs/${id}`)).body);
    expect(SHAPES.opened.parse(await post("/api/records", made!)).seal).toContain("it is as it was written");
    const noted = await request(app).put(`/api/kept-runs/${id}/note`).send({ note: " kept " });
    expect(SHAPES.head.parse(noted.body).note).toBe("kept");
  });

  test.each<["post" | "put", string, unknown, readonly { place: string; value: string; accepted: string }[]]>([
    [
      "post",
      "runs",
      {},
      [{ place: "study", value: "nothing", accepted: "the id of a listed study, or a study document" }],
    ],
    [
      "post",
      "runs",
      { study: "a/b", colour: 1, size: "x" },
      [
        { place: "colour", value: "1", accepted: "nothing: a run is asked for with study, seed and trials" },
        { place: "size", value: '"x"', accepted: "nothing: a run is asked for with study, seed and trials" },
      ],
    ],
    [
      "post",
      "runs",
      [],
      [{ place: "", value: "[]", accepted: "a JSON object with a study, sent as application/json" }],
    ],
    ["post", "studies/check", [], [{ place: "", value: "[]", accepted: "a JSON object with a study" }]],
    ["post", "models/additive", [], [{ place: "", value: "[]", accepted: "a JSON object with parameters" }]],
    [
      "post",
      "models/additive",
      { parameters: 3 },
      [{ place: "parameters", value: "3", accepted: "an object with a field for each parameter" }],
    ],
    [
      "post",
      "surveys/pasteuriser-72/study",
      { distributions: "arcsine" },
      [
        {
          place: "distributions",
          value: '"arcsine"',
          accepted: "an object with a distribution for some of the quantities",
        },
      ],
    ],
    [
      "put",
      "kept-runs/:id/note",
      { note: 5 },
      [{ place: "note", value: "5", accepted: "a text; an empty one takes the note away" }],
    ],
  ])("%s /api/%s refuses %j", async (method, path, sent, problems) => {
    const url = `/api/${path.replace(":id", id)}`;
    const asked = method === "post" ? request(app).post(url) : request(app).put(url);
    const { body, status } = await asked.send(sent as object);
    expect(status).toBe(422);
    expect(SHAPES.refusal.parse(body)).toMatchObject({ code: "bad-input", problems });
  });
});
