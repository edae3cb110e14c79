import request from "supertest";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from "vitest";
import { Fault } from "../../../server/errors.ts";
import { createApp } from "../../../server/app.ts";
import { loadStudyDocument } from "../../../server/shelves/study.ts";
import { openPool, type Pool } from "../../../server/runs/pool/pool.ts";
import { spareBytes } from "../../../server/runs/pool/rooms.ts";
import { recordText } from "../../../server/record/seal.ts";
import { Runs } from "../../../server/runs/runs.ts";
import type { RunEvent } from "../../../viewer/api/runs.ts";
import { openStore } from "../../../server/store/open-store.ts";
import type { Store } from "../../../server/store/store.ts";
import { studyShelf } from "../../../server/shelves/studies.ts";
import { trialband } from "../cli/trialband.ts";
import { readExample } from "../../read-example.ts";

const shelf = studyShelf(new URL("../../../examples", import.meta.url).pathname);
let pool: Pool;
let folder: string;
let warnings: string[];
let store: Store;
let runs: Runs;
let app: ReturnType<typeof createApp>;

const openApp = (over: Runs): ReturnType<typeof createApp> =>
  createApp({ runs: over, shelf, workers: 2, page: "/nowhere", hosts: null });

beforeAll(async () => {
  pool = await openPool(2);
});
afterAll(() => pool.close());

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "trialband-library-"));
  warnings = [];
  store = openStore({ folder });
  runs = new Runs(
    async () => pool,
    store,
    (text) => warnings.push(text),
  );
  app = openApp(runs);
});
afterEach(() => rmSync(folder, { recursive: true }));

const ended = (id: string, from = runs): Promise<RunEvent> =>
  new Promise((resolve) => {
    from.follow(id, (event) => {
      if (event.type !== "progress" && event.type !== "snapshot") resolve(event);
    });
  });

async function finished(study = "published/additive-normal"): Promise<string> {
  const { body } = await request(app).post("/api/runs").send({ study, trials: 20_000 });
  await ended(body.id);
  return body.id;
}

/** A server that starts on what the disk holds. */
function restarted(): Runs {
  const after = new Runs(
    async () => pool,
    openStore({ folder }),
    (text) => warnings.push(text),
  );
  after.restore();
  return after;
}

describe("a kept run", () => {
  test("knows its study, and gives it with its defaults", async () => {
    const id = await finished();
    expect((await request(app).get(`/api/runs/${id}`)).body).toMatchObject({
      study: "published/additive-normal",
      state: "finished",
    });
    expect((await request(app).get(`/api/runs/${id}/study`)).body).toMatchObject({
      model: "additive",
      trials: 20_000,
      correlations: [],
    });
    const own = (
      await request(app)
        .post("/api/runs")
        .send({ study: readExample("published/additive-normal"), trials: 20_000 })
    ).body.id as string;
    await ended(own);
    expect((await request(app).get(`/api/runs/${own}`)).body.study).toBeNull();
  });

  test("is removed, here and after a restart", async () => {
    const [first, second] = [await finished(), await finished()];
    expect((await request(app).delete(`/api/kept-runs/${first}`)).status).toBe(204);
    expect((await request(app).get(`/api/runs/${first}`)).status).toBe(404);
    expect((await request(app).delete(`/api/kept-runs/${first}`)).status).toBe(404);
    expect(
      restarted()
        .list()
        .map(({ id }) => id),
    ).toEqual([second]);
  });

  test("is not removed while it goes on, and DELETE of a run that has ended leaves it", async () => {
    const { body } = await request(app).post("/api/runs").send({ study: "harrowfen/cold-store-4", trials: 20_000_000 });
    expect((await request(app).delete(`/api/kept-runs/${body.id}`)).body).toMatchObject({ code: "not-finished" });
    await request(app).delete(`/api/runs/${body.id}`);
    await ended(body.id);
    expect((await request(app).delete(`/api/runs/${body.id}`)).status).toBe(204);
    expect((await request(app).get(`/api/runs/${body.id}`)).body.state).toBe("cancelled");
    expect((await request(app).delete(`/api/kept-runs/${body.id}`)).status).toBe(204);
  });

  test("carries a note, which outlives a restart", async () => {
    const id = await finished();
    const before = (await request(app).get(`/api/runs/${id}`)).body;
    expect(
      (await request(app).put(`/api/kept-runs/${id}/note`).send({ note: " after the new survey " })).body.note,
    ).toBe("after the new survey");
    const after = restarted();
    expect(after.list()[0]!.note).toBe("after the new survey");
    expect((await after.read(id)).record).toEqual(before.record);
    expect((await request(app).put(`/api/kept-runs/${id}/note`).send({ note: "" })).body.note).toBeNull();
  });

  test.each([[{ note: 5 }], [{}], [[]], [{ note: "x".repeat(501) }]])("refuses the note %#", async (body) => {
    const id = await finished();
    expect((await request(app).put(`/api/kept-runs/${id}/note`).send(body)).body.problems).toHaveLength(1);
  });

  test("is brought back by undoing its removal, with its note", async () => {
    const id = await finished();
    await request(app).put(`/api/kept-runs/${id}/note`).send({ note: "seen" });
    await request(app).delete(`/api/kept-runs/${id}`);
    const back = await request(app).post(`/api/kept-runs/${id}/undo-removal`);
    expect(back.status).toBe(200);
    expect(back.body).toMatchObject({ id, note: "seen", state: "finished" });
    expect((await request(app).get(`/api/runs/${id}`)).body.record).not.toBeNull();
    expect((await request(app).post("/api/kept-runs/none/undo-removal")).status).toBe(404);
  });

  test("has a note with versions: one written over another unseen is refused", async () => {
    const id = await finished();
    const write = (note: string, version: string) =>
      request(app).put(`/api/kept-runs/${id}/note`).set("if-match", version).send({ note });
    expect((await write("first", '"0"')).headers["etag"]).toBe('"1"');
    const late = await write("late", '"0"');
    expect(late.status).toBe(412);
    expect(late.body).toMatchObject({ code: "changed-meanwhile" });
    expect((await write("second", '"1"')).body).toMatchObject({ note: "second", noteVersion: 2 });
    expect((await write("any", "*")).body).toMatchObject({ note: "any", noteVersion: 3 });
    expect((await write("x", "3")).body.problems).toMatchObject([{ place: "If-Match", value: '"3"' }]);
  });

  test("says which version of its study it is of", async () => {
    const study = { ...readExample("published/additive-normal"), trials: 20_000 };
    const version = async (change: object): Promise<number> => {
      const { body } = await request(app)
        .post("/api/runs")
        .send({ study: { ...study, ...change } });
      await ended(body.id);
      return (await request(app).get(`/api/runs/${body.id}`)).body.studyVersion;
    };
    expect([await version({}), await version({ seed: "x" }), await version({ notes: "n" })]).toEqual([1, 1, 2]);
  });
});

/** A store that fails as a full disk does, from the moment it is told to. */
function fillingStore(): { readonly store: Store; full: boolean } {
  const disk = {
    full: false,
    store: {
      ...store,
      accept: (run: Parameters<Store["accept"]>[0]) => (fits(), store.accept(run)),
      end: (...ending: Parameters<Store["end"]>) => (fits(), store.end(...ending)),
    },
  };
  const fits = (): void => {
    if (disk.full) throw new Fault("cannot-keep", "The store cannot be used: the disk is full.");
  };
  return disk;
}

describe("a disk that is full", () => {
  test("a run is refused with 507, and none is listed", async () => {
    const disk = fillingStore();
    disk.full = true;
    const over = new Runs(async () => pool, disk.store);
    const { body, status } = await request(openApp(over))
      .post("/api/runs")
      .send({ study: "published/additive-normal" });
    expect(status).toBe(507);
    expect(body).toMatchObject({ code: "cannot-keep", detail: expect.stringContaining("the disk is full") });
    expect(over.list()).toEqual([]);
  });

  test("a run that ends then says so in its event, the list and its answer, and is kept once there is room", async () => {
    const disk = fillingStore();
    const over = new Runs(
      async () => pool,
      disk.store,
      (text) => warnings.push(text),
      { keepAgainEvery: 20 },
    );
    const id = await over.start(
      await loadStudyDocument({ ...readExample("published/additive-normal"), trials: 20_000 }, null),
    );
    disk.full = true;
    const notKept = expect.stringContaining("the disk is full");
    expect(await ended(id, over)).toMatchObject({ type: "finished", notKept });
    expect(over.list()).toMatchObject([{ id, state: "finished", notKept }]);
    const whole = await request(openApp(over)).get(`/api/runs/${id}`);
    expect(whole.body).toMatchObject({ state: "finished", notKept });
    expect(whole.body.record.trials.count).toBe(20_000);
    await expect(over.annotate(id, "n")).rejects.toMatchObject({ code: "cannot-keep" });
    expect(warnings).toHaveLength(1);
    disk.full = false;
    await expect.poll(() => over.get(id).notKept).toBeNull();
    expect((await restarted().read(id)).record).toEqual(whole.body.record);
  });
});

describe("an accepted run", () => {
  test("is in the store before its answer goes out", async () => {
    const { body, status } = await request(app)
      .post("/api/runs")
      .send({ study: "harrowfen/cold-store-4", trials: 20_000_000 });
    expect(status).toBe(202);
    // Another connection to the file: what the disk holds at this moment.
    expect(
      openStore({ folder })
        .heads()
        .map(({ id }) => id),
    ).toEqual([body.id]);
    runs.cancel(body.id);
    await ended(body.id);
  });

  test.each([
    ["line separators of JavaScript", "A\u2028B\u2029C"],
    ["two million characters", "x".repeat(2_000_000)],
  ])("is found again after a restart with a title of %s", async (_, title) => {
    const study = { ...readExample("published/additive-normal"), title, trials: 20_000 };
    const { body } = await request(app).post("/api/runs").send({ study });
    await ended(body.id);
    expect(
      restarted()
        .list()
        .map((head) => head.title),
    ).toEqual([title]);
    expect(warnings).toEqual([]);
  });

  test("is removed, also while a note is written to it", async () => {
    const ids = await Promise.all(Array.from({ length: 20 }, () => finished()));
    await Promise.all(
      ids.flatMap((id) => [
        request(app).put(`/api/kept-runs/${id}/note`).send({ note: "late" }),
        request(app).delete(`/api/kept-runs/${id}`),
      ]),
    );
    expect(restarted().list()).toEqual([]);
  });

  test("gives its memory back when it is cancelled", async () => {
    const { body } = await request(app)
      .post("/api/runs")
      .send({ study: "harrowfen/steriliser-134", trials: 20_000_000 });
    const spare = await new Promise<number>((resolve) => {
      runs.follow(body.id, (event) => {
        if (event.type !== "progress" || event.trials < 1_000_000) return;
        resolve(spareBytes());
        runs.cancel(body.id);
      });
    });
    await ended(body.id);
    // Eight bytes a trial that it kept, and four tasks that were on their way.
    expect(spareBytes() - spare).toBeGreaterThan(8e6);
  });
});

describe("a study that is being written", () => {
  const check = async (study: unknown): Promise<{ place: string }[]> =>
    (await request(app).post("/api/studies/check").send({ study })).body.problems;

  test("has no problems once it can be run", async () => {
    expect(await check(readExample("harrowfen/cold-store-4"))).toEqual([]);
  });

  const cold = readExample("harrowfen/cold-store-4");
  const withInput = (statement: unknown): object => ({
    ...cold,
    inputs: { ...(cold["inputs"] as object), bathAxial: statement },
  });
  test.each<[string, unknown, string]>([
    [
      "a text for a number",
      withInput({ distribution: "rectangular", estimate: 0, halfWidth: "wide" }),
      "inputs.bathAxial.halfWidth",
    ],
    [
      "both ways of stating limits",
      withInput({ distribution: "rectangular", estimate: 0, lower: 1 }),
      "inputs.bathAxial",
    ],
    ["no such distribution", withInput({ distribution: "oblong" }), "inputs.bathAxial.distribution"],
    ["no such model", { ...cold, model: "other" }, "model"],
    [
      "correlation with itself",
      { ...cold, correlations: [{ between: ["bathAxial", "bathAxial"], coefficient: 0.5 }] },
      "correlations.0",
    ],
    ["no document", null, ""],
    [
      "a model that is not finite at the estimates",
      {
        ...readExample("harrowfen/steriliser-134"),
        inputs: {
          ...(readExample("harrowfen/steriliser-134")["inputs"] as object),
          probeResistance: { distribution: "normal", estimate: 1e6, standardUncertainty: 1 },
        },
      },
      "inputs",
    ],
  ])("%s is told at its place", async (_, study, place) => {
    const places = (await check(study)).map((problem) => problem.place);
    expect(places.length).toBeGreaterThan(0);
    for (const found of places) expect(found.startsWith(place), found).toBe(true);
  });

  test("learns a family's inputs from its parameters, and what is wrong with them", async () => {
    const described = await request(app)
      .post("/api/models/additive")
      .send({ parameters: { coefficients: { length: 1, thermal: -0.5 } } });
    expect(Object.keys(described.body.inputs)).toEqual(["length", "thermal"]);
    const wrong = await request(app)
      .post("/api/models/additive")
      .send({ parameters: { coefficients: { length: "one" } } });
    expect(wrong.body.problems[0].place).toBe("parameters.coefficients.length");
    expect((await request(app).post("/api/models/bath-comparison").send({})).body.inputs).toHaveProperty(
      "bathAxial.unit",
      "°C",
    );
    expect((await request(app).post("/api/models/none").send({})).body.code).toBe("no-such-model");
    expect((await request(app).get("/api/schema/study")).body).toHaveProperty("properties.inputs");
  });
});

describe("a budget table", () => {
  const table = readFileSync(new URL("../../../examples/survey/budget-72.csv", import.meta.url));
  const send = (body: Buffer, query: string) =>
    request(app).post(`/api/budget-tables?${query}`).set("content-type", "application/octet-stream").send(body);

  test("is read, not run: its columns, its terms and the study it makes", async () => {
    const { body, status } = await send(table, "name=budget-72.csv");
    expect(status, JSON.stringify(body)).toBe(200);
    expect((body.mapping as { field: string | null }[]).map(({ field }) => field)).toContain("divisor");
    expect(body.terms).toHaveLength(11);
    expect(body.study).toMatchObject({ title: "budget-72", model: "additive" });
    expect((await request(app).post("/api/studies/check").send({ study: body.study })).body.problems).toEqual([]);
    expect(runs.list()).toEqual([]);
  });

  test("gives the study that the command gives, each input with its row as evidence", async () => {
    const { body } = await send(table, "name=budget-72.csv");
    const command = await trialband("budget", "examples/survey/budget-72.csv", "--json");
    expect(command.status, command.stderr).toBe(0);
    expect(body.study).toEqual(JSON.parse(command.stdout).study);
    expect(Object.values(body.study.inputs)).toHaveLength(11);
    for (const statement of Object.values(body.study.inputs))
      expect(statement).toMatchObject({ evidence: { files: [{ name: "budget-72.csv" }] } });
  });

  test("takes a column for what the reader says it is", async () => {
    const text = "Quantity;Estimate;Uncertainty;Kind of thing;Teiler\nA;0;6;rectangular;√3\nB;0;1;normal;2\n";
    const plain = await send(Buffer.from(text), "name=b.csv");
    const told = await send(Buffer.from(text), "name=b.csv&columns=E:divisor,D:distribution&title=Two%20terms");
    expect(told.status, JSON.stringify(told.body)).toBe(200);
    expect(told.body.study.title).toBe("Two terms");
    expect(told.body.combined).toBeCloseTo(Math.sqrt(12 + 0.25), 12);
    expect(plain.body.combined).not.toBeCloseTo(told.body.combined, 3);
  });

  test.each<[string, string, number, string]>([
    ["no name", "", 422, "name"],
    ["a column that is none", "name=b.csv&columns=1:divisor", 422, "columns"],
    ["a field that is none", "name=b.csv&columns=C:colour", 422, "columns"],
  ])("refuses %s", async (_, query, status, place) => {
    const answer = await send(table, query);
    expect(answer.status).toBe(status);
    expect(answer.body.problems[0].place).toBe(place);
  });

  test("refuses what is no table, with a place, and what is too large", async () => {
    const wrong = await send(Buffer.from("a;b\n1;2\n"), "name=b.csv");
    expect(wrong.status).toBe(422);
    expect(wrong.body.problems[0].accepted).toContain("headings");
    const large = await send(Buffer.alloc(5_000_001, "a;b\n"), "name=b.csv");
    expect(large.status).toBe(413);
  });
});

describe("a record from a file", () => {
  test("is shown with what its seal says", async () => {
    const record = (await runs.read(await finished())).record!;
    const file = JSON.parse(recordText(record)) as { measurands: { y: { linear: { estimate: number } } } };
    expect((await request(app).post("/api/records").send(file)).body).toMatchObject({
      record: file,
      seal: expect.stringContaining("as it was written"),
    });
    file.measurands.y.linear.estimate += 1;
    expect((await request(app).post("/api/records").send(file)).body.seal).toContain("altered");
    expect(
      (
        await request(app)
          .post("/api/records")
          .send({ ...file, measurands: 3 })
      ).body.problems[0].place,
    ).toBe("measurands");
    expect((await request(app).post("/api/records").send({ title: "no record" })).body.problems[0].place).toBe(
      "format",
    );
  });
});
