import { join } from "node:path";
import request from "supertest";
import { beforeEach, describe, expect, test } from "vitest";
import { createApp } from "../../../server/app.ts";
import { Runs } from "../../../server/runs/runs.ts";
import { studyShelf } from "../../../server/shelves/studies.ts";
import { openStore } from "../../../server/store/open-store.ts";
import { startServing } from "../../campaign/serving.ts";
import { guardedApp, TOKEN } from "../access/people.ts";
import { emptyFolder } from "../store/sample.ts";
import { LONG } from "../../setup/long.ts";

/** draft-ietf-httpapi-idempotency-key-header: 2.1 the header, 2.6 and 2.7 what a request sent again is answered. */
const shelf = studyShelf(join(import.meta.dirname, "../../../examples"));
const noPool = (): Promise<never> => new Promise(() => undefined);
const BODY = { study: "published/additive-normal", trials: 10_000, seed: "one" };
let now: Date;
let runs: Runs;
let app: ReturnType<typeof createApp>;
beforeEach(() => {
  now = new Date("2026-03-02T08:00:00.000Z");
  runs = new Runs(noPool, openStore({ folder: null, now: () => now }), () => undefined, { waiting: 3, atOnce: 1 });
  app = createApp({ runs, shelf, workers: 1, page: "/nowhere", hosts: null });
});

const start = (key: string | null, body: object = BODY): request.Test => {
  const asked = request(app).post("/api/runs").send(body);
  return key === null ? asked : asked.set("idempotency-key", key);
};
const idOf = ({ body }: request.Response): string => (body as { id: string }).id;

describe("a run is started once for a key", () => {
  test("the same request sent again is answered alike, whatever the order of its fields", async () => {
    const first = await start('"a"');
    const { seed, study, trials } = BODY;
    const again = await start('"a"', { seed, trials, study });
    expect(again.status).toBe(202);
    expect(again.body).toEqual(first.body);
    expect(again.headers["location"]).toBe(first.headers["location"]);
    expect(runs.list()).toHaveLength(1);
  });

  test("a bare key is the same as one in quotation marks; another key, or none, starts another run", async () => {
    const id = idOf(await start('"a"'));
    expect(idOf(await start("a"))).toBe(id);
    expect(idOf(await start("b"))).not.toBe(id);
    expect(idOf(await start(null))).not.toBe(id);
  });

  test("ten at once start one", async () => {
    const answers = await Promise.all(Array.from({ length: 10 }, () => start("a")));
    expect(new Set(answers.map(idOf)).size).toBe(1);
    expect(runs.list()).toHaveLength(1);
  });

  test("also when the queue is full by now, and when the run was cancelled and removed", async () => {
    const first = await start("a");
    for (let i = 0; i < 4; i++) await start(null);
    expect((await start(null)).status).toBe(429);
    expect((await start("a")).body).toEqual(first.body);
    const last = runs.list()[0]!.id;
    runs.cancel(last);
    const waited = await start("c");
    runs.cancel(idOf(waited));
    await runs.remove(idOf(waited));
    expect((await start("c")).body).toEqual(waited.body);
  });

  test("another body with it is refused with 422, and starts nothing", async () => {
    const id = idOf(await start("a"));
    const answer = await start("a", { ...BODY, seed: "two" });
    expect(answer.status).toBe(422);
    expect(answer.body).toMatchObject({ code: "key-used", detail: expect.stringContaining(id) });
    expect(runs.list()).toHaveLength(1);
  });

  test("a request that was refused leaves its key free", async () => {
    expect((await start("a", { study: "published/none" })).status).toBe(404);
    expect((await start("a", { ...BODY, trials: -1 })).status).toBe(422);
    expect((await start("a")).status).toBe(202);
  });

  test("after 14 days a key is forgotten", async () => {
    const id = idOf(await start("a"));
    now = new Date("2026-03-16T07:59:59.999Z");
    expect(idOf(await start("a"))).toBe(id);
    now = new Date("2026-03-16T08:00:00.000Z");
    expect(idOf(await start("a"))).not.toBe(id);
  });

  test.each(['""', "a, b", '"a", "b"', '"a\\"b"', "a;b=1", "é", `"${"x".repeat(129)}"`, "a b"])(
    "the key %j is refused",
    async (key) => {
      const answer = await request(app)
        .post("/api/runs")
        .set("idempotency-key", Buffer.from(key).toString("latin1"))
        .send(BODY);
      expect(answer.status).toBe(422);
      expect((answer.body as { problems: object[] }).problems).toMatchObject([{ place: "Idempotency-Key" }]);
      expect(runs.list()).toHaveLength(0);
    },
  );
});

test("a key belongs to who sent it", async () => {
  const store = openStore({ folder: null });
  const own = new Runs(noPool, store);
  const guarded = await guardedApp({ runs: own });
  const send = (who: Record<string, string>): request.Test =>
    request(guarded.app).post("/api/runs").set("idempotency-key", "a").set(who).send(BODY);
  const first = await send({ authorization: `Bearer ${TOKEN}` });
  expect(first.status).toBe(202);
  const other = await send({ cookie: await guarded.cookieOf("administer") });
  expect(other.status).toBe(202);
  expect(idOf(other)).not.toBe(idOf(first));
  // Nor is another's found out by another body.
  expect((await send({ authorization: `Bearer ${TOKEN}` })).body).toEqual(first.body);
});

test("it is known by the next server after the first was killed, and the run is there once", LONG, async () => {
  const folder = emptyFolder();
  const send = (url: string, body: object): Promise<Response> =>
    fetch(`${url}api/runs`, {
      method: "POST",
      headers: { "content-type": "application/json", "idempotency-key": '"after-a-kill"' },
      body: JSON.stringify(body),
    });
  const first = await startServing(folder);
  const started: unknown = await (await send(first.url, BODY)).json();
  await first.kill();
  const second = await startServing(folder);
  try {
    const again = await send(second.url, BODY);
    expect({ status: again.status, body: await again.json() }).toEqual({ status: 202, body: started });
    expect((await send(second.url, { ...BODY, seed: "two" })).status).toBe(422);
    expect(await (await fetch(`${second.url}api/runs`)).json()).toHaveLength(1);
  } finally {
    await second.stop();
  }
});
