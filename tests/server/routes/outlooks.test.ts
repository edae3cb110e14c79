// Plans, histories and comparisons through the interface: read from files, a proposal confirmed by a run of it alone.
import { readFileSync } from "node:fs";
import { join } from "node:path";
import request, { type Response } from "supertest";
import { describe, expect, test } from "vitest";
import type { OpenedOutlook, PlanConfirmation } from "../../../viewer/api/outlooks.ts";
import { appUnderTest } from "./app-under-test.ts";

const { app, runs } = appUnderTest();
const examples = join(import.meta.dirname, "../../../examples");
const read = (name: string): string => readFileSync(join(examples, name), "utf8");

const open = async (files: Readonly<Record<string, string>>): Promise<Response> => {
  const bytes = Object.entries(files).map(([name, text]) => [name, Buffer.from(text)] as const);
  const query = new URLSearchParams(
    bytes.flatMap(([name, content]) => [
      ["name", name],
      ["size", String(content.length)],
    ]),
  );
  return request(app)
    .post(`/api/outlooks?${query.toString()}`)
    .set("content-type", "application/octet-stream")
    .send(Buffer.concat(bytes.map(([, content]) => content)));
};

const study = JSON.parse(read("harrowfen/cold-store-4.json")) as object;
const sweep = (more: object = {}): string =>
  JSON.stringify({
    study,
    over: [{ quantity: "bath temperature", unit: "°C", values: [4, 20] }],
    trials: 20_000,
    ...more,
  });
const plan = (more: object = {}): string =>
  JSON.stringify({
    title: "Towards 9 mK",
    sweep: "sweep.json",
    target: 0.009,
    levers: [
      { kind: "zone", name: "zone", inputs: ["bathAxial", "bathRadial"], now: 60, steps: [{ to: 20 }] },
      { kind: "scale", name: "certificate", inputs: ["referenceCertificate"], steps: [{ to: 0.5 }] },
    ],
    ...more,
  });

describe("a plan", () => {
  test("is opened with its sweep, its proposal is run, and the run confirms it", async () => {
    const { status, body } = await open({ "plan.json": plan(), "sweep.json": sweep() });
    expect(status).toBe(200);
    const opened = body as Extract<OpenedOutlook, { readonly kind: "plan" }>;
    expect(opened).toMatchObject({ kind: "plan", title: "Towards 9 mK", plan: { meets: true } });
    expect(opened.files.map(({ name }) => name)).toEqual(["plan.json", "sweep.json"]);
    expect(opened.safety.cautions.length).toBeGreaterThan(0);
    const started = await request(app).post("/api/runs").send({ study: opened.study });
    const { id: run } = started.body as { id: string };
    await new Promise<void>((done) => void runs.follow(run, ({ type }) => type === "finished" && done()));
    const confirmed = await request(app).post("/api/outlooks/confirmation").send({ plan: opened.plan, run });
    expect(confirmed.status).toBe(200);
    expect(confirmed.body as PlanConfirmation).toMatchObject({ meets: true, agrees: true, trials: 20_000 });

    // The same run does not confirm a plan that predicts something else.
    const points = (opened.plan["points"] as readonly { readonly proposed: object }[]).map((point) => ({
      ...point,
      proposed: { ...point.proposed, linear: 0.001 },
    }));
    const other = await request(app)
      .post("/api/outlooks/confirmation")
      .send({ plan: { ...opened.plan, points }, run });
    expect(other.status).toBe(422);
    expect(other.body.problems[0]).toMatchObject({ place: "run" });
    const none = await request(app).post("/api/outlooks/confirmation").send({ plan: opened.plan, run: "none" });
    expect(none.status).toBe(404);
  });

  test.each<[string, Readonly<Record<string, string>>, RegExp]>([
    ["a sweep that was not sent", { "plan.json": plan() }, /sweep\.json/],
    [
      "a file of the server by its name",
      { "plan.json": plan({ sweep: "../../../../../../../../etc/passwd" }), "sweep.json": sweep() },
      /the name of a file among those that were sent/,
    ],
    [
      "a study with a model of its own",
      {
        "plan.json": plan(),
        "sweep.json": sweep({ study: { ...study, model: "./mine.ts" } }),
        "mine.ts": "export default { model: null };",
      },
      /mine\.ts/,
    ],
    ["a step that cannot be taken", { "plan.json": plan({ target: 0 }), "sweep.json": sweep() }, /target/],
    [
      "two documents at once",
      { "plan.json": plan(), "other.json": plan(), "sweep.json": sweep() },
      /one plan, history/,
    ],
    ["none", { "sweep.json": sweep() }, /one plan, history/],
  ])("refused: %s", async (_, files, message) => {
    const { status, body } = await open(files);
    expect(status).toBeGreaterThanOrEqual(400);
    expect(status).toBeLessThan(500);
    expect(JSON.stringify(body)).toMatch(message);
    expect(JSON.stringify(body)).not.toContain("trialband-files-");
  });
});

test("a history with its table", async () => {
  const files = {
    "reference-HR-02.json": read("history/reference-HR-02.json"),
    "reference-HR-02.csv": read("history/reference-HR-02.csv"),
  };
  const { status, body } = await open(files);
  expect(status).toBe(200);
  expect(body).toMatchObject({ kind: "history", history: { quantities: [{ limit: 0.006 }, { limit: 0.008 }] } });
});

test("a comparison among the examples, and a kind that there is not", async () => {
  const { status, body } = await request(app).get("/api/outlooks/examples/comparison");
  expect(status).toBe(200);
  expect(body).toMatchObject({ kind: "comparison", found: { reference: { kind: "largest consistent subset" } } });
  const unknown = await request(app).get("/api/outlooks/examples/forecast");
  expect(unknown.status).toBe(422);
  expect(unknown.body.problems[0]).toMatchObject({ place: "kind", accepted: "one of plan, history, comparison" });
});
