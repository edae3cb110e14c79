// A run's life from its acceptance to its end, whatever happens to the server and its threads. Needs dist/.
import { cpSync } from "node:fs";
import request from "supertest";
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from "vitest";
import { createApp } from "../../../server/app.ts";
import { openPool, type Pool } from "../../../server/runs/pool/pool.ts";
import type { RunLimits } from "../../../server/runs/limits.ts";
import { Runs } from "../../../server/runs/runs.ts";
import { openStore } from "../../../server/store/open-store.ts";
import type { Store } from "../../../server/store/store.ts";
import { studyShelf } from "../../../server/shelves/studies.ts";
import { loadStudyDocument, type LoadedStudy } from "../../../server/shelves/study.ts";
import { resultsOf } from "../../../server/record/seal.ts";
import type { RunEvent } from "../../../viewer/api/runs.ts";
import { readExample } from "../../read-example.ts";
import { emptyFolder } from "../store/sample.ts";
import { LONG } from "../../setup/long.ts";

let pool: Pool;
beforeAll(async () => {
  pool = await openPool(2);
});
afterAll(() => pool.close());

let folder: string;
let stores: Store[];
let servers: Runs[];
beforeEach(() => {
  folder = emptyFolder();
  stores = [];
  servers = [];
});
afterEach(() => {
  for (const runs of servers) runs.stop();
  for (const store of stores) store.close();
});

const warnings: string[] = [];

/** A server on a folder. */
function serverOn(place: string, limits: Partial<RunLimits> = {}, watched = (store: Store): Store => store): Runs {
  const store = openStore({ folder: place });
  stores.push(store);
  const runs = new Runs(
    async () => pool,
    watched(store),
    (text) => warnings.push(text),
    limits,
  );
  servers.push(runs);
  runs.restore();
  return runs;
}

const study = (id: string, changes: Record<string, unknown>): Promise<LoadedStudy> =>
  loadStudyDocument({ ...readExample(id), ...changes }, null);

const ended = (runs: Runs, id: string): Promise<RunEvent> =>
  new Promise((resolve) => {
    runs.follow(id, (event) => {
      if (event.type !== "progress" && event.type !== "snapshot") resolve(event);
    });
  });

/**
 * What the disk holds at the moment when a run has a checkpoint of at least these trials, as after a power cut.
 * Taken with the checkpoint itself: a busy machine looks again when the run has long ended.
 */
function copiedAt(trials: number): { readonly watched: (store: Store) => Store; readonly copy: Promise<string> } {
  let resolve = (_place: string): void => undefined;
  const copy = new Promise<string>((done) => (resolve = done));
  let taken = false;
  const watched = (store: Store): Store => ({
    ...store,
    writeCheckpoint: (...checkpoint: Parameters<Store["writeCheckpoint"]>) => {
      store.writeCheckpoint(...checkpoint);
      if (taken || store.head(checkpoint[0])!.trials < trials) return;
      taken = true;
      const other = emptyFolder();
      cpSync(folder, other, { recursive: true });
      resolve(other);
    },
  });
  return { watched, copy };
}

/** What a repetition must give again, of the record that the store has. */
const resultsIn = async (runs: Runs, id: string): Promise<unknown> => {
  const { record, state, error } = await runs.read(id);
  expect(error).toBeNull();
  expect(state).toBe("finished");
  return JSON.parse(JSON.stringify(resultsOf(record!)));
};

describe("a run that was going on when the server ended goes on from its last checkpoint and reproduces exactly", () => {
  const CASES: readonly (readonly [string, string, Readonly<Record<string, unknown>>, number])[] = [
    ["one measurand, all trials kept", "harrowfen/cold-store-4", { trials: 1_500_000 }, 100_000],
    ["one measurand, more trials than are kept", "harrowfen/cold-store-4", { trials: 4_000_000 }, 2_100_000],
    ["several measurands", "published/polar-010", { trials: 1_200_000 }, 100_000],
    ["an adaptive run", "harrowfen/steriliser-134", { trials: "adaptive", significantDigits: 2 }, 20_000],
    ["a sweep, at its points", "harrowfen/range", { trials: 300_000 }, 290_000],
  ];
  const goesOn = async (
    _: string,
    id: string,
    changes: Readonly<Record<string, unknown>>,
    trials: number,
  ): Promise<void> => {
    const loaded = await study(id, changes);
    const { watched, copy } = copiedAt(Math.max(1, trials));
    const first = serverOn(folder, { checkpointEvery: 1 }, watched);
    const run = await first.start(loaded);
    const other = await copy;
    await ended(first, run);
    const uninterrupted = await resultsIn(first, run);

    const second = serverOn(other);
    expect(stores[1]!.head(run)).toMatchObject({ state: "running" });
    expect(stores[1]!.head(run)!.trials).toBeGreaterThanOrEqual(trials);
    const progress: number[] = [];
    const stop = second.follow(run, (event) => {
      if (event.type === "progress" && event.trials > 0) progress.push(event.trials);
    });
    await ended(second, run);
    stop();
    expect(await resultsIn(second, run)).toEqual(uninterrupted);
    for (const made of progress) expect(made).toBeGreaterThanOrEqual(trials);
    expect(stores[1]!.readCheckpoint(run)).toBeNull();
    expect(stores[1]!.audit().problems).toEqual([]);
  };
  test.each(CASES.slice(0, 1))("%s", goesOn);
  test.each(CASES.slice(1))("%s", LONG, goesOn);

  test(
    "a server that is asked to stop keeps what its runs have gathered, without a checkpoint before",
    LONG,
    async () => {
      const loaded = await study("harrowfen/cold-store-4", { trials: 3_000_000 });
      const first = serverOn(folder);
      const run = await first.start(loaded);
      await new Promise<void>((resolve) => {
        first.follow(run, (event) => {
          if (event.type === "progress" && event.trials > 200_000) resolve();
        });
      });
      first.stop();
      const { trials } = stores[0]!.head(run)!;
      expect(trials).toBeGreaterThan(200_000);
      const second = serverOn(folder);
      await ended(second, run);
      const again = await second.start(loaded);
      await ended(second, again);
      expect(await resultsIn(second, run)).toEqual(await resultsIn(second, again));
    },
  );

  test("one whose checkpoint was made by another build begins anew, and its bits are the same", async () => {
    const loaded = await study("published/additive-normal", { trials: 60_000 });
    const first = serverOn(folder, { atOnce: 0 });
    const run = await first.start(loaded);
    stores[0]!.begin(run);
    stores[0]!.writeCheckpoint(run, { trials: 20_000, maker: "another", state: new Uint8Array([1, 2, 3]) }, []);
    const second = serverOn(folder);
    await ended(second, run);
    const again = await second.start(loaded);
    await ended(second, again);
    expect(await resultsIn(second, run)).toEqual(await resultsIn(second, again));
  });

  test("runs that waited keep their order", async () => {
    const first = serverOn(folder, { atOnce: 0 });
    const ids = [];
    for (const seed of ["a", "b", "c"])
      ids.push(await first.start(await study("published/additive-normal", { trials: 20_000, seed })));
    const second = serverOn(folder, { atOnce: 1 });
    const order: string[] = [];
    await Promise.all(ids.map((id) => ended(second, id).then(() => order.push(id))));
    expect(order).toEqual(ids);
  });
});

describe("limits", () => {
  test("a full queue is answered with 429 and when to try again", async () => {
    const runs = serverOn(folder, { atOnce: 0, waiting: 2 });
    const shelf = studyShelf(new URL("../../../examples", import.meta.url).pathname);
    const app = createApp({ runs, shelf, workers: 2, page: "/nowhere", hosts: null });
    const post = () => request(app).post("/api/runs").send({ study: "published/additive-normal" });
    expect([(await post()).status, (await post()).status]).toEqual([202, 202]);
    const refused = await post();
    expect(refused.status).toBe(429);
    expect(refused.body).toMatchObject({ code: "queue-full" });
    expect(Number(refused.headers["retry-after"])).toBeGreaterThanOrEqual(1);
    expect(runs.list()).toHaveLength(2);
  });

  test("those who ask take turns", async () => {
    const runs = serverOn(folder, { atOnce: 0 });
    const ids: string[] = [];
    for (const requester of ["much", "much", "much", "late"])
      ids.push(
        await runs.start(await study("published/additive-normal", { trials: 20_000 }), null, {
          requester,
          actor: null,
        }),
      );
    const order: string[] = [];
    const after = serverOn(folder, { atOnce: 1 });
    await Promise.all(ids.map((id) => ended(after, id).then(() => order.push(id))));
    expect(order.indexOf(ids[3]!)).toBe(1);
  });

  test("a run that takes too long fails, and says how long it may take", async () => {
    const runs = serverOn(folder, { seconds: 0.2 });
    const id = await runs.start(await study("harrowfen/cold-store-4", { trials: 500_000_000 }));
    expect(await ended(runs, id)).toMatchObject({
      type: "failed",
      error: { code: "took-too-long", message: expect.stringContaining("0.2 s") },
    });
  });

  test("a run whose trials need more memory than a run is given is refused", async () => {
    const runs = serverOn(folder, { bytes: 10_000_000 });
    await expect(runs.start(await study("harrowfen/cold-store-4", { trials: 2_000_000 }))).rejects.toMatchObject({
      code: "too-large",
      message: expect.stringContaining("expected at most 10 MB"),
    });
    expect(runs.list()).toEqual([]);
  });
});

test("a clock that is set back changes neither order nor end", async () => {
  let now = new Date("2026-11-29T10:00:00Z");
  const store = openStore({ folder, now: () => now });
  stores.push(store);
  const runs = new Runs(async () => pool, store);
  servers.push(runs);
  const first = await runs.start(await study("published/additive-normal", { trials: 20_000 }));
  now = new Date("2020-01-01T00:00:00Z");
  const second = await runs.start(await study("published/additive-normal", { trials: 20_000, seed: "other" }));
  await Promise.all([ended(runs, first), ended(runs, second)]);
  expect(runs.list().map(({ id }) => id)).toEqual([second, first]);
  expect(runs.list()[0]!.startedAt).toBe("2020-01-01T00:00:00.000Z");
  expect(store.audit().problems).toEqual([]);
});
