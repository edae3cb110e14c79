import request from "supertest";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { z } from "zod";
import { createApp } from "../../../server/app.ts";
import { openPool, type Pool } from "../../../server/runs/pool/pool.ts";
import { Runs } from "../../../server/runs/runs.ts";
import { openStore } from "../../../server/store/open-store.ts";
import { studyShelf } from "../../../server/shelves/studies.ts";
import { about } from "../../../viewer/api/about.ts";
import { refusal } from "../../../viewer/api/fault.ts";
import { chosenInterval } from "../../../viewer/api/measurands.ts";
import { modelDescription, modelList } from "../../../viewer/api/models.ts";
import { shownRecord } from "../../../viewer/api/records.ts";
import { run, runEvent, runHead, runList, startedRun } from "../../../viewer/api/runs.ts";
import { studyCheck, studyList } from "../../../viewer/api/studies.ts";
import { evaluatedSurvey, fittingStudies, surveyList, surveyStudy } from "../../../viewer/api/surveys.ts";

const shelf = studyShelf(new URL("../../../examples", import.meta.url).pathname);
let pool: Pool;
let app: ReturnType<typeof createApp>;
let id: string;

beforeAll(async () => {
  pool = await openPool(1);
  const runs = new Runs(async () => pool, openStore({ folder: null }));
  app = createApp({ runs, shelf, workers: 1, page: "/nowhere", hosts: null });
  const started = await request(app).post("/api/runs").send({ study: "published/additive-normal", trials: 20_000 });
  id = startedRun.parse(started.body).id;
  await new Promise<void>((resolve) => void runs.follow(id, ({ type }) => type === "finished" && resolve()));
});
afterAll(() => pool.close());

describe("what is read", () => {
  test.each<[string, z.ZodType]>([
    ["about", about],
    ["models", modelList],
    ["studies", studyList],
    ["surveys", surveyList],
    ["surveys/pasteuriser-72", evaluatedSurvey],
    ["surveys/pasteuriser-72/studies", fittingStudies],
    ["runs", runList],
    ["runs/:id", run],
    ["runs/:id/measurands/y/interval?p=0.9", chosenInterval],
    ["runs/none", refusal],
    ["nothing", refusal],
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
      .map((line) => runEvent.parse(JSON.parse(line.slice("data: ".length))));
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
    expect(refusal.parse(body).problems[0]!.place).toBe("Last-Event-ID");
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
    expect(studyCheck.parse(await post("/api/studies/check", { study }))).toEqual({ problems: [] });
    expect(modelDescription.parse(await post("/api/models/bath-comparison", {})).id).toBe("bath-comparison");
    surveyStudy.parse(await post("/api/surveys/pasteuriser-72/study", {}));
    const { record: made } = run.parse((await request(app).get(`/api/runs/${id}`)).body);
    expect(shownRecord.parse(await post("/api/records", made!)).seal).toContain("it is as it was written");
    const noted = await request(app).put(`/api/kept-runs/${id}/note`).send({ note: " kept " });
    expect(runHead.parse(noted.body).note).toBe("kept");
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
        { place: "colour", value: "1", accepted: "nothing: a run is asked for with study, own, seed and trials" },
        { place: "size", value: '"x"', accepted: "nothing: a run is asked for with study, own, seed and trials" },
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
    expect(refusal.parse(body)).toMatchObject({ code: "bad-input", problems });
  });
});
