import request from "supertest";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { createApp } from "../../../server/app.ts";
import { openPool, type Pool } from "../../../server/runs/pool/pool.ts";
import type { SealedRecord } from "../../../server/record/seal.ts";
import { Runs } from "../../../server/runs/runs.ts";
import type { RunEvent } from "../../../viewer/api/runs.ts";
import { openStore } from "../../../server/store/open-store.ts";
import { studyShelf } from "../../../server/shelves/studies.ts";
import { readExample, runExample } from "../../read-example.ts";

const shelf = studyShelf(new URL("../../../examples", import.meta.url).pathname);
const HOSTS = new Set(["127.0.0.1", "localhost"]);
let pool: Pool;
let runs: Runs;
let app: ReturnType<typeof createApp>;

beforeAll(async () => {
  pool = await openPool(2);
  runs = new Runs(async () => pool, openStore({ folder: null }));
  app = createApp({ runs, shelf, workers: 2, page: "/nowhere", hosts: HOSTS });
});
afterAll(() => pool.close());

const ended = (id: string, from = runs): Promise<RunEvent> =>
  new Promise((resolve) => {
    from.follow(id, (event) => {
      if (event.type !== "progress" && event.type !== "snapshot") resolve(event);
    });
  });

async function start(body: object): Promise<string> {
  const response = await request(app).post("/api/runs").send(body);
  expect(response.status, JSON.stringify(response.body)).toBe(202);
  return response.body.id;
}

describe("lists", () => {
  test("about, models, studies", async () => {
    expect((await request(app).get("/api/about")).body).toMatchObject({ name: "trialband", workers: 2 });
    const models = (await request(app).get("/api/models")).body as { id: string; inputs?: object; family: boolean }[];
    expect(models.find(({ id }) => id === "bath-comparison")!.inputs).toHaveProperty("bathAxial.unit", "°C");
    expect(models.find(({ id }) => id === "additive")).toMatchObject({ family: true });
    const studies = (await request(app).get("/api/studies")).body as { id: string }[];
    expect(studies.map(({ id }) => id)).toEqual(
      expect.arrayContaining(["harrowfen/cold-store-4", "published/end-gauge"]),
    );
    expect((await request(app).get("/api/studies/harrowfen/cold-store-4")).body).toEqual(
      readExample("harrowfen/cold-store-4"),
    );
  });

  test.each(["/api/studies/none/such", "/api/studies/..%2f..%2fpackage", "/api/runs/none", "/api/nothing"])(
    "%s is 404 with a code",
    async (path) => {
      const response = await request(app).get(path);
      expect(response.status).toBe(404);
      expect(response.body.code).toMatch(/^no-such-/);
    },
  );
});

describe("a run", () => {
  test("gives the record that the engine gives, and pictures and intervals of one's choice", async () => {
    const id = await start({ study: "published/additive-rectangular", trials: 60_000 });
    expect(await ended(id)).toMatchObject({ type: "finished" });
    const { body } = await request(app).get(`/api/runs/${id}`);
    expect(body).toMatchObject({ state: "finished", trials: 60_000, error: null });
    const { environment, provenance: _provenance, seal: _seal, ...record } = body.record as SealedRecord;
    expect(environment!.workers).toBe(2);
    expect(record).toEqual(
      JSON.parse(JSON.stringify(runExample("published/additive-rectangular", { trials: 60_000 }))),
    );

    const histogram = (await request(app).get(`/api/runs/${id}/measurands/y/histogram?bins=37`)).body;
    expect(histogram.counts).toHaveLength(37);
    expect(histogram.counts.reduce((a: number, b: number) => a + b, 0) + histogram.below + histogram.above).toBe(
      60_000,
    );
    const interval = (await request(app).get(`/api/runs/${id}/measurands/y/interval?p=0.95`)).body;
    expect(interval.symmetric).toEqual(record.measurands["y"]!.monteCarlo.intervals.symmetric);
    const listed = ((await request(app).get("/api/runs")).body as { id: string }[]).find((run) => run.id === id);
    expect(listed).toMatchObject({ state: "finished", verdict: { measurand: "y", validated: true } });
  });

  test("tells its progress as server-sent events, to late comers too", async () => {
    const id = await start({ study: "harrowfen/steriliser-134", trials: 400_000 });
    const text = async () => (await request(app).get(`/api/runs/${id}/events`).buffer(true)).text;
    for (const stream of [await text(), await text()]) {
      const events = stream
        .split("\n")
        .filter((part) => part.startsWith("data: "))
        .map((part) => JSON.parse(part.slice(6)) as RunEvent);
      expect(events[0]!.type).toBe("progress");
      expect(events.at(-1)!.type).toBe("finished");
    }
  });

  test("is cancelled by DELETE", async () => {
    const id = await start({ study: "harrowfen/cold-store-4", trials: 20_000_000 });
    await new Promise<void>((resolve) => {
      runs.follow(id, (event) => {
        if (event.type === "progress" && event.trials > 0) resolve();
      });
    });
    expect((await request(app).get(`/api/runs/${id}/measurands/error/histogram?bins=10`)).status).toBe(409);
    expect((await request(app).delete(`/api/runs/${id}`)).status).toBe(204);
    expect(await ended(id)).toMatchObject({ type: "cancelled" });
    expect((await request(app).get(`/api/runs/${id}`)).body).toMatchObject({ state: "cancelled", record: null });
  });

  test("that waits its turn can be cancelled too", async () => {
    const ids = [];
    for (let i = 0; i < 3; i++) ids.push(await start({ study: "harrowfen/cold-store-4", trials: 20_000_000 }));
    expect(runs.get(ids[2]!).state).toBe("waiting");
    for (const id of ids.toReversed()) await request(app).delete(`/api/runs/${id}`);
    for (const id of ids) expect(await ended(id)).toMatchObject({ type: "cancelled" });
  });

  test("whose model fails on a trial tells the trial", async () => {
    // A resistance far beyond 850 °C has no temperature by IEC 60751.
    const study = readExample("harrowfen/steriliser-134");
    const document = {
      ...study,
      inputs: {
        ...(study["inputs"] as object),
        probeResistance: { distribution: "normal", estimate: 150, standardUncertainty: 200 },
      },
      trials: 50_000,
    };
    const id = await start({ study: document });
    expect(await ended(id)).toMatchObject({
      type: "failed",
      error: { code: "model-not-finite", message: expect.stringContaining("at trial") },
    });
  });
});

describe("bad requests tell the place, the value and what is expected", () => {
  test.each<[string, unknown, number, string]>([
    ["no study", {}, 422, "study"],
    ["an unknown field", { study: "published/end-gauge", colour: 1 }, 422, "colour"],
    ["trials that are none", { study: "published/end-gauge", trials: -1 }, 422, "trials"],
    ["an input missing", { study: { title: "t", model: "bath-comparison", inputs: {} } }, 422, "inputs.bathAxial"],
    ["an unknown model", { study: { title: "t", model: "nothing", inputs: {} } }, 422, "model"],
    ["a model in a file of this machine", { study: { title: "t", model: "./evil.ts", inputs: {} } }, 422, "model"],
    ["a list", [], 422, ""],
  ])("%s", async (_, body, status, place) => {
    const response = await request(app)
      .post("/api/runs")
      .send(body as object);
    expect(response.status).toBe(status);
    expect((response.body.problems as { place: string }[]).map((problem) => problem.place)).toContain(place);
  });

  test("a body that is not JSON", async () => {
    const response = await request(app).post("/api/runs").set("content-type", "application/json").send('{"study": ');
    expect(response.status).toBe(400);
    expect(response.body.code).toBe("not-json");
  });

  test("bins and p out of range", async () => {
    const id = await start({ study: "published/additive-normal", trials: 20_000 });
    await ended(id);
    for (const query of ["histogram?bins=0", "histogram?bins=x", "histogram", "interval?p=1", "interval?p="]) {
      expect((await request(app).get(`/api/runs/${id}/measurands/y/${query}`)).status).toBe(422);
    }
    expect((await request(app).get(`/api/runs/${id}/measurands/z/interval?p=0.9`)).status).toBe(404);
  });

  test("another host's name", async () => {
    expect((await request(app).get("/api/about").set("host", "elsewhere.example")).status).toBe(421);
  });
});

test("runs outlive a restart, and their samples are drawn again, bit for bit", async () => {
  const folder = mkdtempSync(join(tmpdir(), "trialband-test-"));
  try {
    const before = new Runs(async () => pool, openStore({ folder }));
    const { loadStudyDocument } = await import("../../../server/shelves/study.ts");
    const id = await before.start(
      await loadStudyDocument({ ...readExample("published/additive-normal"), trials: 30_000 }, null),
    );
    await ended(id, before);
    const after = new Runs(async () => pool, openStore({ folder }));
    after.restore();
    expect((await after.read(id)).record).toEqual(JSON.parse(JSON.stringify((await before.read(id)).record)));
    expect((await after.sample(id)).sample("y").orderStatistic(123)).toBe(
      (await before.sample(id)).sample("y").orderStatistic(123),
    );
  } finally {
    rmSync(folder, { recursive: true });
  }
});
