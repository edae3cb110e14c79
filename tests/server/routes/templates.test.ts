import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import request from "supertest";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { evaluateReadings, type SurveyDocument } from "../../../models/index.ts";
import { loadReadings } from "../../../server/intake/index.ts";
import type { TableReading } from "../../../viewer/api/budget-tables.ts";
import type { LogLook } from "../../../viewer/api/evidence.ts";
import type { EvaluatedSurvey } from "../../../viewer/api/surveys.ts";
import type { TemplateList } from "../../../viewer/api/templates.ts";
import { appUnderTest } from "./app-under-test.ts";

const { app } = appUnderTest();

let folder: string;
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "trialband-templates-"));
});
afterAll(() => rm(folder, { recursive: true }));

const fetched = async (file: string): Promise<Buffer> => {
  const answer = await request(app)
    .get(`/api/templates/${file}`)
    .buffer()
    .parse(bytesOf as never);
  expect(answer.status, file).toBe(200);
  expect(answer.headers["content-disposition"]).toBe(`attachment; filename=${file}`);
  return answer.body as Buffer;
};

function bytesOf(response: NodeJS.ReadableStream, done: (error: Error | null, body: Buffer) => void): void {
  const parts: Buffer[] = [];
  response.on("data", (part: Buffer) => parts.push(part));
  response.on("end", () => done(null, Buffer.concat(parts)));
}

describe("a template comes back unchanged", () => {
  test("the list names files that can be had, and no other can", async () => {
    const list = (await request(app).get("/api/templates")).body as TemplateList;
    expect(new Set(list.map((one) => one.for))).toEqual(
      new Set(["budget", "fill-in", "survey", "readings", "program"]),
    );
    for (const file of list.flatMap(({ files }) => files)) expect((await fetched(file)).length).toBeGreaterThan(100);
    const none = await request(app).get("/api/templates/budget.pdf");
    expect(none.status).toBe(404);
    expect((none.body as { detail: string }).detail).toContain("budget.csv");
  });

  test.each(["budget.csv", "budget.xlsx", "fill-in.csv", "fill-in.xlsx"])(
    "%s makes a study without a question",
    async (file) => {
      const read = await request(app)
        .post(`/api/budget-tables?name=${file}`)
        .set("content-type", "application/octet-stream")
        .send(await fetched(file));
      expect(read.status).toBe(200);
      const { terms, columns, combined, study } = read.body as TableReading;
      // A standard uncertainty with k or without ν is normal: JCGM 101, 6.4.7.
      const told = terms.flatMap(({ assumed }) => assumed);
      expect(file.startsWith("budget") ? told : new Set(told)).toEqual(
        file.startsWith("budget") ? [] : new Set(["normal, since no distribution is named"]),
      );
      expect(columns.filter(({ field }) => field === null)).toEqual([]);
      // √(5² + 3²/3 + 0.5²/3 + 2² + 1.5²) mK: JCGM 100, 5.1.2 with a/√3 of 4.3.7.
      expect(combined).toBeCloseTo(Math.sqrt(25 + 3 + 0.25 / 3 + 4 + 2.25), 6);
      const check = await request(app).post("/api/studies/check").send({ study });
      expect(check.body).toEqual({ problems: [] });
    },
  );

  test.each(["csv", "xlsx"])(
    "the description of a survey with its log as %s make an evaluated survey",
    async (ending) => {
      const log = await fetched(`survey-log.${ending}`);
      const described = JSON.parse((await fetched("survey.json")).toString("utf8")) as { log: object };
      const description = Buffer.from(JSON.stringify({ ...described, log: { file: `survey-log.${ending}` } }));
      const { status, body } = await request(app)
        .post(`/api/surveys?name=survey.json&size=${description.length}&name=survey-log.${ending}&size=${log.length}`)
        .set("content-type", "application/octet-stream")
        .send(Buffer.concat([description, log]));
      expect(body).toMatchObject({ evaluation: { title: "Survey of the bath at 37 °C" } });
      expect(status).toBe(201);
      const { evaluation } = body as EvaluatedSurvey;
      // Invented with 6 mK between 250 mm and 290 mm, 3 mK and −2 mK from the axis to 40 mm, and a wave of ±4 mK.
      expect(evaluation.axial!.quantity.halfWidth).toBeCloseTo(0.006, 3);
      expect(evaluation.radial!.quantity.halfWidth).toBeCloseTo(0.003, 3);
      expect(evaluation.stability.halfWidth).toBeGreaterThan(0.004);
      expect(evaluation.stability.halfWidth).toBeLessThan(0.004 + 0.0006 + 0.0001);
    },
  );

  test("the steps and the positions of a survey as tables are those of its description", async () => {
    const described = JSON.parse((await fetched("survey.json")).toString("utf8")) as SurveyDocument;
    for (const ending of ["csv", "xlsx"]) {
      const looks = await Promise.all(
        ["survey-steps", "survey-positions", "survey-log"].map(async (name) => {
          const sent = await request(app)
            .post(`/api/evidence-files?name=${name}.${ending}`)
            .set("content-type", "application/octet-stream")
            .send(await fetched(`${name}.${ending}`));
          const { sha256 } = sent.body as { sha256: string };
          const files = [{ name: `${name}.${ending}`, sha256 }];
          const answer = await request(app).post("/api/log-looks").send({ files });
          return (answer.body as LogLook[])[0]!.plan;
        }),
      );
      expect(looks[0]).toEqual({
        kind: "steps",
        steps: described.steps.map((step) => ({
          ...step,
          from: String(step.from).replace("T", " "),
          to: String(step.to).replace("T", " "),
        })),
      });
      expect(looks[1]).toEqual({
        kind: "positions",
        positions: Object.entries(described.positions).map(([name, { depth, radius, direction = "" }]) => ({
          name,
          depth: String(depth),
          radius: String(radius),
          direction,
        })),
      });
      expect(looks[2]).toBeNull();
    }
  });

  test("readings of a comparison, as CSV and as XLSX, give the difference they were made with", async () => {
    const described = JSON.parse((await fetched("comparison.json")).toString("utf8")) as object;
    for (const ending of ["csv", "xlsx"]) {
      const file = `comparison-readings.${ending}`;
      await writeFile(join(folder, file), await fetched(file));
      const path = join(folder, `comparison-${ending}.json`);
      await writeFile(path, JSON.stringify({ ...described, log: { file } }));
      const { description, indications } = await loadReadings(path);
      const [probe] = evaluateReadings(description, indications);
      expect(probe!.probe).toBe("probe");
      // 18 mK and digits that differ by 3 mK at most.
      expect(Math.abs(probe!.typeA.mean * 1000 - 18)).toBeLessThan(1.5);
      expect(probe!.typeA.degreesOfFreedom).toBe(5);
    }
  });
});
