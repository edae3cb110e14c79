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
