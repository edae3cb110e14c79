import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import request from "supertest";
import { afterAll, describe, expect, test } from "vitest";
import { createApp, type AppOptions } from "../../../server/app.ts";
import { healthOf } from "../../../server/health.ts";
import type { Pool } from "../../../server/runs/pool/pool.ts";
import { Runs } from "../../../server/runs/runs.ts";
import { studyShelf } from "../../../server/shelves/studies.ts";
import { openStore } from "../../../server/store/open-store.ts";
import type { Store } from "../../../server/store/store.ts";

const folder = mkdtempSync(join(tmpdir(), "trialband-observe-"));
const store = openStore({ folder });
afterAll(() => {
  rmSync(folder, { recursive: true });
});

const appWith = (changes: Partial<AppOptions>) =>
  createApp({
    runs: new Runs(() => new Promise(() => undefined), openStore({ folder: null })),
    shelf: studyShelf(join(import.meta.dirname, "../../../examples")),
    workers: 1,
    page: "/nowhere",
    hosts: null,
    ...changes,
  });

describe("GET /healthz", () => {
  const closed = openStore({ folder: null });
  closed.close();
  const threads = {
    workers: 3,
    draw: () => Promise.reject(new Error("not wanted here")),
    close: () => Promise.resolve(),
  };

  test.each<
    [
      string,
      readonly [Pick<Store, "head">, string | null, (() => Promise<Pool>)?],
      number,
      Record<string, [boolean, RegExp]>,
    ]
  >([
    [
      "well, before a run",
      [store, folder],
      200,
      { store: [true, /can be read/], pool: [true, /first run/], disk: [true, /^\d+ MB free$/] },
    ],
    [
      "well, in memory",
      [store, null, () => Promise.resolve(threads)],
      200,
      { pool: [true, /^3 threads$/], disk: [true, /nothing/] },
    ],
    ["a store that is closed", [closed, folder], 503, { store: [false, /./], disk: [true, /free/] }],
    [
      "threads that do not start",
      [store, folder, () => Promise.reject(new Error("no threads"))],
      503,
      { pool: [false, /^no threads$/] },
    ],
    ["a folder that is gone", [store, join(folder, "gone")], 503, { disk: [false, /ENOENT/], store: [true, /./] }],
  ])("%s", async (_, [its, place, pool], status, parts) => {
    const answer = await request(appWith({ health: () => healthOf(its, place, pool?.()) })).get("/healthz");
    expect(answer.status).toBe(status);
    expect(answer.headers["cache-control"]).toBe("no-store");
    expect(answer.body.ok).toBe(status === 200);
    for (const [name, [ok, found]] of Object.entries(parts))
      expect(answer.body.parts[name], name).toEqual({ ok, found: expect.stringMatching(found) });
  });
});

describe("GET /metrics", () => {
  test("counts requests, their durations and runs, in the text format of Prometheus", async () => {
    const app = appWith({});
    for (let i = 0; i < 3; i++) await request(app).get("/api/about");
    await request(app).get("/api/nothing");
    await request(app).post("/api/runs").send({ study: "published/additive-normal", trials: 20_000 });
    let text = "";
    // An answer is counted when its connection has seen it, which can be after its reader has.
    await expect
      .poll(async () => {
        const answer = await request(app).get("/metrics");
        expect(answer.headers["content-type"]).toBe("text/plain; version=0.0.4; charset=utf-8");
        text = answer.text;
        return text;
      })
      .toContain('trialband_requests_total{method="POST",status="202"} 1');
    const figures = figuresIn(text);
    expect(figures.get('trialband_requests_total{method="GET",status="404"}')).toBe(1);
    expect(figures.get('trialband_requests_total{method="GET",status="200"}')).toBeGreaterThanOrEqual(3);
    // Buckets are cumulative, the last one is the count.
    const buckets = [...figures].filter(([name]) => name.startsWith("trialband_request_duration_seconds_bucket"));
    expect(buckets.map(([, count]) => count)).toEqual(buckets.map(([, count]) => count).toSorted((a, b) => a - b));
    expect(buckets.at(-1)).toEqual([
      'trialband_request_duration_seconds_bucket{le="+Inf"}',
      figures.get("trialband_request_duration_seconds_count"),
    ]);
    const counted = [...figures].filter(([name]) => name.startsWith("trialband_requests_total"));
    expect(counted.reduce((sum, [, count]) => sum + count, 0)).toBe(buckets.at(-1)![1]);
    expect(figures.get('trialband_runs{state="running"}')).toBe(1);
    expect(figures.get('trialband_runs{state="failed"}')).toBe(0);
    expect(figures.get("process_resident_memory_bytes")).toBeGreaterThan(1e6);
  });

  /**
   * Prometheus documentation, Exposition formats, Text-based format, version 0.0.4: a line is a comment, or a name with
   * labels and a number; HELP and TYPE come before the samples of their family; the last line ends in a line feed.
   */
  function figuresIn(text: string): Map<string, number> {
    expect(text.endsWith("\n")).toBe(true);
    const figures = new Map<string, number>();
    let family = "";
    for (const line of text.trimEnd().split("\n")) {
      const declared = /^# (?:HELP ([a-z_]+) .+|TYPE ([a-z_]+) (?:counter|gauge|histogram))$/.exec(line);
      if (declared !== null) {
        family = declared[1] ?? declared[2]!;
        continue;
      }
      const sample = /^([a-z_]+(?:\{[a-z]+="[^"\\]*"(?:,[a-z]+="[^"\\]*")*\})?) ([\d.e+-]+)$/.exec(line);
      expect(sample, line).not.toBeNull();
      expect(sample![1]!.startsWith(family), line).toBe(true);
      expect(figures.has(sample![1]!), line).toBe(false);
      figures.set(sample![1]!, Number(sample![2]));
    }
    return figures;
  }
});
