import express, { Router } from "express";
import request from "supertest";
import { cpSync, mkdtempSync, readFileSync, rmSync, truncateSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, test } from "vitest";
import { BATHS } from "../../../examples/survey/baths.ts";
import { nameIdentity, OWNER } from "../../../server/access/identity.ts";
import { quiet } from "../../../server/http/log.ts";
import { refuse } from "../../../server/http/refuse.ts";
import { guarded } from "../../../server/routes/guarded.ts";
import type { EvaluatedSurvey } from "../../../viewer/api/surveys.ts";
import { openStore } from "../../../server/store/open-store.ts";
import { openReader } from "../../../server/checks/reader.ts";
import { surveyShelf, surveys } from "../../../server/routes/surveys.ts";
import { evaluateListed } from "../../../server/shelves/surveys.ts";

const examples = new URL("../../../examples/survey", import.meta.url).pathname;
const app = express();
const api = Router();
api.use((_request, response, next) => {
  nameIdentity(response, OWNER);
  next();
});
const reader = openReader();
surveys(
  guarded(api, "/api", () => undefined),
  { evidence: openStore({ folder: null }).evidence, reader } as never,
);
app.use("/api", api);
app.use(refuse(quiet));

afterAll(() => reader.close());

describe("GET /api/surveys", () => {
  test("lists the descriptions of surveys, and nothing else that lies there", async () => {
    const { body, status } = await request(app).get("/api/surveys");
    expect(status).toBe(200);
    expect((body as { id: string }[]).map(({ id }) => id)).toEqual(BATHS.map(({ name }) => name).toSorted());
    expect(body).toContainEqual({
      id: "cold-store-4",
      title: "Survey of the water bath at 4 °C",
      notes: expect.any(String) as string,
      log: "cold-store-4.csv",
    });
  });
});

describe("GET /api/surveys/:id", () => {
  test.each(BATHS)("$name: what a page draws", async ({ name, axial, offset }) => {
    const { body, status } = await request(app).get(`/api/surveys/${name}`);
    expect(status).toBe(200);
    const { evaluation, positions, statements } = body as EvaluatedSurvey;
    expect(evaluation.outlines.map(({ thermometer }) => thermometer)).toEqual(["HS-11", "HS-12"]);
    expect(
      evaluation.outlines.every(
        ({ times, lowest, highest }) =>
          times.length > 100 &&
          times.length <= 600 &&
          lowest.length === times.length &&
          highest.length === times.length,
      ),
    ).toBe(true);
    const { worst, window } = evaluation.stability;
    // A window of w holds readings from its first to its last, less than an interval short of w.
    expect(worst.to - worst.from).toBeGreaterThanOrEqual(window - 10);
    expect(evaluation.map.points.map(({ position }) => position).toSorted()).toEqual(Object.keys(positions).toSorted());
    expect(evaluation.map.comparisons).toHaveLength(4);
    for (const swapped of evaluation.map.comparisons)
      expect(Math.abs(swapped.offset - offset)).toBeLessThan(4 * swapped.standardUncertainty + 0.5e-5);
    expect(Math.abs(evaluation.axial!.quantity.halfWidth - axial)).toBeLessThan(
      4 * evaluation.axial!.limits.noise + 0.5e-5,
    );
    expect(statements.bathAxial).toMatchObject({ distribution: "rectangular" });
    expect(JSON.stringify(body).length).toBeLessThan(200_000);
  });

  test.each(["none", "..%2fharrowfen%2fcold-store-4", "reference-HR-02", "%00", "a".repeat(200)])(
    "%s is no survey",
    async (id) => {
      const { body, status } = await request(app).get(`/api/surveys/${id}`);
      expect(status).toBe(404);
      expect((body as { code: string }).code).toBe("no-such-file");
    },
  );
});

describe("the shelf", () => {
  const folder = mkdtempSync(join(tmpdir(), "trialband-surveys-"));
  cpSync(examples, folder, { recursive: true });
  afterAll(() => rmSync(folder, { recursive: true }));
  const shelf = surveyShelf(folder, evaluateListed);
  const description = JSON.parse(readFileSync(join(examples, "cold-store-4.json"), "utf8")) as Record<string, unknown>;
  const write = (id: string, change: object): void =>
    writeFileSync(join(folder, `${id}.json`), JSON.stringify({ ...description, ...change }));

  test("evaluates once while the files stay as they are, however many ask", async () => {
    const [first, second] = await Promise.all([shelf.evaluate("cold-store-4"), shelf.evaluate("cold-store-4")]);
    expect(second).toBe(first);
    write("cold-store-4", { title: "Another" });
    const third = await shelf.evaluate("cold-store-4");
    expect(third.evaluation.title).toBe("Another");
  });

  test("forgets the ones not asked for the longest", async () => {
    const first = await shelf.evaluate("freezer-minus-40");
    for (let i = 0; i < 8; i++) {
      write(`copy-${i}`, {});
      await shelf.evaluate(`copy-${i}`);
    }
    const again = await shelf.evaluate("freezer-minus-40");
    expect(again).not.toBe(first);
    expect(again).toEqual(first);
  });

  test("tells what cannot be used of a survey, and tries again", async () => {
    write("wrong", { reference: "middle" });
    await expect(shelf.evaluate("wrong")).rejects.toMatchObject({
      code: "bad-input",
      message: "One thing in wrong.json cannot be used.",
      problems: [{ place: "reference" }],
    });
    await expect(shelf.evaluate("wrong")).rejects.toMatchObject({ code: "bad-input" });
    write("wrong", {});
    expect((await shelf.evaluate("wrong")).id).toBe("wrong");
  });

  test("reads no log that lies elsewhere, and none beyond measure", async () => {
    write("outside", { log: { file: "../../etc/passwd" } });
    await expect(shelf.evaluate("outside")).rejects.toMatchObject({ code: "no-such-file" });
    write("missing", { log: { file: "none.csv" } });
    await expect(shelf.evaluate("missing")).rejects.toMatchObject({ code: "no-such-file" });
    writeFileSync(join(folder, "long.csv"), "time,A\n");
    truncateSync(join(folder, "long.csv"), 30_000_000);
    write("long", { log: { file: "long.csv" } });
    await expect(shelf.evaluate("long")).rejects.toMatchObject({ code: "too-large" });
  });
});
