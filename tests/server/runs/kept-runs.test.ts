import request from "supertest";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from "vitest";
import { Fault } from "../../../server/errors.ts";
import { createApp } from "../../../server/app.ts";
import { loadStudyDocument } from "../../../server/shelves/study.ts";
import { openPool, type Pool } from "../../../server/runs/pool/pool.ts";
import { spareBytes } from "../../../server/runs/pool/rooms.ts";
import { Runs } from "../../../server/runs/runs.ts";
import type { RunEvent } from "../../../viewer/api/runs.ts";
import { openStore } from "../../../server/store/open-store.ts";
import type { Store } from "../../../server/store/store.ts";
import { studyShelf } from "../../../server/shelves/studies.ts";
import { readExample } from "../../read-example.ts";
import { LONG } from "../../setup/long.ts";

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
  ])("is found again after a restart with a title of %s", LONG, async (_, title) => {
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

  test("is removed, also while a note is written to it", LONG, async () => {
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
    // Eight bytes a trial that it kept, and four tasks that were on their way; what is held has a limit of 64 MiB.
    await expect.poll(spareBytes).toBeGreaterThan(Math.min(spare + 8e6, 2 ** 26 - 2 ** 23));
  });
});
