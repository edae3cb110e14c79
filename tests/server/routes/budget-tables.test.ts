import request from "supertest";
import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { trialband } from "../cli/trialband.ts";
import { appUnderTest } from "./app-under-test.ts";

const { app, runs } = appUnderTest();

describe("a budget table", () => {
  const table = readFileSync(new URL("../../../examples/survey/budget-72.csv", import.meta.url));
  const send = (body: Buffer, query: string) =>
    request(app).post(`/api/budget-tables?${query}`).set("content-type", "application/octet-stream").send(body);

  test("is read, not run: its columns, its terms and the study it makes", async () => {
    const { body, status } = await send(table, "name=budget-72.csv");
    expect(status, JSON.stringify(body)).toBe(200);
    expect((body.columns as { field: string | null }[]).map(({ field }) => field)).toContain("divisor");
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

  const sendWith = (mapping: object, file: string, query: string) => {
    const stated = Buffer.from(JSON.stringify(mapping));
    return send(Buffer.concat([stated, Buffer.from(file)]), `${query}&mapping=${stated.length}`);
  };

  test("takes a column for what the reader says it is", async () => {
    const text = "Quantity;Estimate;Uncertainty;Kind of thing;By what\nA;0;6;rectangular;√3\nB;0;1;normal;2\n";
    const plain = await send(Buffer.from(text), "name=b.csv");
    const told = await sendWith(
      { columns: { D: { field: "distribution" }, E: { field: "divisor" } } },
      text,
      "name=b.csv&title=Two%20terms",
    );
    expect(told.status, JSON.stringify(told.body)).toBe(200);
    expect(told.body.study.title).toBe("Two terms");
    expect(told.body.combined).toBeCloseTo(Math.sqrt(12 + 0.25), 12);
    // Neither heading is known: distributions are known by their cells, divisors only from the reader.
    expect(plain.body.columns[3].field).toBe("distribution");
    expect(plain.body.columns[4].field).toBeNull();
    expect(told.body.columns[4].field).toBe("divisor");
  });

  test.each<[string, string, number, string]>([
    ["no name", "", 422, "name"],
    ["a mapping of no size", "name=b.csv&mapping=many", 422, "mapping"],
    ["a mapping that is too large", "name=b.csv&mapping=1000001", 422, "mapping"],
    ["two mappings", "name=b.csv&mapping=1&mapping=2", 422, "mapping"],
    ["a name with a folder", "name=a%2Fb.csv", 422, "name"],
    ["two titles", "name=b.csv&title=a&title=b", 422, "title"],
    ["a unit of more than 500 characters", `name=b.csv&unit=${"x".repeat(501)}`, 422, "unit"],
    ["a mapping larger than the body", "name=b.csv&mapping=99999", 422, "mapping"],
    ["a mapping that is no JSON", "name=b.csv&mapping=20", 422, "mapping"],
  ])("refuses %s", async (_, query, status, place) => {
    const answer = await send(table, query);
    expect(answer.status).toBe(status);
    expect(answer.body.problems[0].place).toBe(place);
  });

  test("asks what the table does not say, and draws the sheet for it", async () => {
    const { body, status } = await send(Buffer.from("a;b\n1;2\n"), "name=b.csv");
    expect(status).toBe(200);
    expect(body).toMatchObject({
      study: null,
      rows: [
        { row: 1, cells: ["a", "b"] },
        { row: 2, cells: ["1", "2"] },
      ],
    });
    expect(body.questions[0].question).toBe("Which row heads the columns of the budget?");
  });

  test("refuses what is no table, with a place, and what is too large", async () => {
    const other = await send(Buffer.from("%PDF-1.7 and so on"), "name=b.pdf");
    expect(other.status).toBe(422);
    expect(other.body.problems[0]).toMatchObject({ value: expect.stringContaining("PDF") });
    expect((await sendWith({ colums: {} }, "a;b\n1;2\n", "name=b.csv")).body.problems[0].place).toBe("colums");
    const large = await send(Buffer.alloc(5_000_001, "a;b\n"), "name=b.csv");
    expect(large.status).toBe(413);
  });
});

test("a file whose name no study could cite is refused", async () => {
  const asked = request(app).post(`/api/budget-tables?name=${"a".repeat(501)}.csv`);
  const { body, status } = await asked.set("content-type", "application/octet-stream").send("a,b\n");
  expect(status).toBe(422);
  expect(body.problems).toMatchObject([{ place: "name" }]);
});
