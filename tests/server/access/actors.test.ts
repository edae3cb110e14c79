import request from "supertest";
import { expect, test } from "vitest";
import { Runs } from "../../../server/runs/runs.ts";
import { openStore } from "../../../server/store/open-store.ts";
import { emptyFolder, finished } from "../store/sample.ts";
import { guardedApp, TOKEN } from "./people.ts";

test("the audit trail says who started, cancelled, noted, removed and put back", async () => {
  const folder = emptyFolder();
  const store = openStore({ folder });
  const kept = finished(store);
  const runs = new Runs(
    () => new Promise(() => undefined),
    store,
    () => undefined,
    { atOnce: 1 },
  );
  const { app, cookieOf } = await guardedApp({ runs });
  const [ada, egon] = [await cookieOf("administer"), await cookieOf("run")];
  const start = (): request.Test =>
    request(app).post("/api/runs").send({ study: "published/additive-normal", trials: 10_000 });
  // The first takes the only place, so that the second waits and is cancelled at once.
  const going = (await start().set("cookie", egon)).body as { id: string };
  const waits = (await start().set("authorization", `Bearer ${TOKEN}`)).body as { id: string };
  await request(app).delete(`/api/runs/${waits.id}`).set("cookie", ada);
  await request(app).put(`/api/kept-runs/${kept}/note`).set("cookie", egon).send({ note: "seen" });
  await request(app).delete(`/api/kept-runs/${kept}`).set("cookie", ada);
  const removed = await request(app).get("/api/removed-runs").set("cookie", egon);
  expect(removed.body).toMatchObject([{ id: kept, removedBy: "ada" }]);
  await request(app).post(`/api/kept-runs/${kept}/undo-removal`).set("cookie", ada);
  expect(store.trail(6).map(({ actor, action, subject }) => [actor, action, subject])).toEqual([
    ["egon", "run accepted", going.id],
    ["token", "run accepted", waits.id],
    ["ada", "run ended", waits.id],
    ["egon", "note written", kept],
    ["ada", "run removed", kept],
    ["ada", "run brought back", kept],
  ]);
  expect(store.audit().problems).toEqual([]);
});
