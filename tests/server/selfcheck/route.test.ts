import { createServer, request as ask, type Server } from "node:http";
import type { AddressInfo } from "node:net";
import request from "supertest";
import { afterAll, beforeAll, beforeEach, describe, expect, test, vi } from "vitest";
import { createApp } from "../../../server/app.ts";
import { Runs } from "../../../server/runs/runs.ts";
import type { CheckGroup } from "../../../server/selfcheck/check.ts";
import { same } from "../../../server/selfcheck/judge.ts";
import { openStore } from "../../../server/store/open-store.ts";
import { studyShelf } from "../../../server/shelves/studies.ts";

/** Stands in for the real checks: one at once, one that waits until a test lets it go. */
const gate = vi.hoisted(() => ({
  open: (): void => undefined,
  wait: null as Promise<void> | null,
  quick: [] as boolean[],
}));
vi.mock("../../../server/selfcheck/groups/index.ts", () => {
  const checks: CheckGroup["checks"] = (quick) => {
    gate.quick.push(quick);
    return [
      { title: "first", source: "JCGM 101:2008, 9.2", lines: () => [same("first line", 1, 1)] },
      {
        title: "second",
        source: "JCGM 101:2008, 9.3",
        async lines() {
          await gate.wait;
          return [same("second line", "a", "b")];
        },
      },
    ];
  };
  return { checkGroups: [{ id: "g", title: "A group", checks }] };
});

const noPool = (): Promise<never> => Promise.reject(new Error("not wanted here"));
const app = createApp({
  runs: new Runs(noPool, openStore({ folder: null })),
  shelf: studyShelf("examples"),
  workers: 1,
  page: "dist/viewer",
  hosts: null,
});
let server: Server;
let port = 0;
beforeAll(async () => {
  server = createServer(app);
  await new Promise<void>((resolve) => server.listen(0, "127.0.0.1", resolve));
  port = (server.address() as AddressInfo).port;
});
afterAll(() => void server.close());
beforeEach(() => {
  gate.wait = null;
  gate.quick.length = 0;
});

const hold = (): void => {
  gate.wait = new Promise((resolve) => (gate.open = resolve));
};
const eventsIn = (text: string): { type: string }[] =>
  text
    .split("\n\n")
    .filter((part) => part !== "")
    .map((part) => JSON.parse(part.replace(/^data: /, "")));

/** Opens the stream; resolves once the first line has come. */
function open(): Promise<{ readonly text: () => string; readonly leave: () => void; readonly ended: Promise<void> }> {
  return new Promise((resolve, reject) => {
    const asked = ask({ port, method: "POST", path: "/api/selfcheck?quick=1" }, (response) => {
      let text = "";
      const ended = new Promise<void>((done) => response.on("close", done));
      response
        .setEncoding("utf8")
        .on("error", () => undefined)
        .on("data", (part: string) => {
          text += part;
          if (text.includes("first line")) resolve({ text: () => text, leave: () => asked.destroy(), ended });
        });
    });
    asked.on("error", reject).end();
  });
}

describe("POST /api/selfcheck", () => {
  test("tells groups, steps and lines as they come, then the summary", async () => {
    const response = await request(app).post("/api/selfcheck?quick=1");
    expect(response.status).toBe(200);
    expect(response.headers["content-type"]).toContain("text/event-stream");
    const events = eventsIn(response.text);
    expect(events.map(({ type }) => type)).toEqual(["group", "step", "line", "step", "line", "step", "done"]);
    expect(events[2]).toMatchObject({
      line: { group: "g", what: "first line", source: "JCGM 101:2008, 9.2", passed: true },
    });
    expect(events.at(-1)).toMatchObject({
      report: { scope: "quick", passed: 1, failed: 1, installation: { workers: 1 } },
    });
    expect(events.at(-1)).not.toHaveProperty("report.groups");
    expect(gate.quick).toEqual([true]);
  });

  test("is not begun by a GET", async () => {
    expect((await request(app).get("/api/selfcheck?quick=1")).status).toBe(404);
    expect(gate.quick).toEqual([]);
  });

  test("is full unless it is asked to be quick", async () => {
    await request(app).post("/api/selfcheck");
    await request(app).post("/api/selfcheck?quick=0");
    expect(gate.quick).toEqual([false, false]);
  });

  test("one at a time", async () => {
    hold();
    const first = await open();
    const second = await request(app).post("/api/selfcheck?quick=1");
    expect(second.status).toBe(503);
    expect(second.headers["retry-after"]).toBe("10");
    expect(second.body).toMatchObject({ code: "busy", detail: expect.stringContaining("going on already") });
    gate.open();
    await first.ended;
    expect(eventsIn(first.text()).at(-1)!.type).toBe("done");
    expect((await request(app).post("/api/selfcheck?quick=1")).status).toBe(200);
  });

  test("ends when the reader leaves, and another may begin", async () => {
    hold();
    const { leave, ended } = await open();
    leave();
    await ended;
    gate.open();
    await expect.poll(async () => (await request(app).post("/api/selfcheck?quick=1")).status).toBe(200);
  });

  test.each([
    ["quick=2", "quick"],
    ["quick=1&quick=0", "quick"],
    ["seed=7", "seed"],
  ])("%s is refused", async (query, place) => {
    const response = await request(app).post(`/api/selfcheck?${query}`);
    expect(response.status).toBe(422);
    expect(response.body.problems[0].place).toBe(place);
  });
});
