import request from "supertest";
import { describe, expect, test } from "vitest";
import { recordText } from "../../../server/record/seal.ts";
import { runStudy } from "../../../server/runs/run-study.ts";
import { loadStudyDocument } from "../../../server/shelves/study.ts";
import { readExample } from "../../read-example.ts";
import { appUnderTest } from "./app-under-test.ts";

const { app } = appUnderTest();

describe("a record from a file", () => {
  test("is shown with what its seal says", async () => {
    const { record } = await runStudy(
      await loadStudyDocument({ ...readExample("published/additive-normal"), trials: 20_000 }, null),
    );
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
