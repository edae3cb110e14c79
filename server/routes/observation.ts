import { z } from "zod";
import { serverHealth, type ServerHealth } from "../../viewer/api/health.ts";
import { RUN_STATES, type RunHead } from "../../viewer/api/runs.ts";
import { METRICS_TYPE, type Gauge, type Metrics } from "../http/metrics.ts";
import { json } from "../openapi/described.ts";
import type { RouteRegistration } from "./route.ts";

/** What a program that watches the server asks it: whether it is well, and its figures. */
export const observation =
  (metrics: Metrics, health: (() => Promise<ServerHealth>) | null): RouteRegistration =>
  (router, { runs }) => {
    if (health !== null)
      router.get(
        "/healthz",
        "read",
        {
          id: "getHealth",
          summary: "Whether the server is well",
          answers: {
            200: { description: "Every part is well.", content: json(serverHealth) },
            503: { description: "A part is not well.", content: json(serverHealth) },
          },
        },
        async (_request, response) => {
          const found = await health();
          response
            .status(found.ok ? 200 : 503)
            .set("cache-control", "no-store")
            .json(found);
        },
      );
    router.get(
      "/metrics",
      "read",
      {
        id: "getMetrics",
        summary: "The figures of the server",
        answers: {
          200: {
            description: "Requests, durations, runs and memory, in the text format of Prometheus, version 0.0.4.",
            content: { type: "text/plain", schema: z.string() },
          },
        },
      },
      (_request, response) => {
        response
          .set({ "content-type": METRICS_TYPE, "cache-control": "no-store" })
          .end(metrics.text([runsBy(runs.list()), memory()]));
      },
    );
  };

const runsBy = (heads: readonly RunHead[]): Gauge => ({
  name: "trialband_runs",
  help: "Runs on the list, by their state.",
  values: Object.fromEntries(
    RUN_STATES.map((state) => [`state="${state}"`, heads.filter((head) => head.state === state).length]),
  ),
});

const memory = (): Gauge => ({
  name: "process_resident_memory_bytes",
  help: "Memory that the process takes, its threads included.",
  values: { "": process.memoryUsage.rss() },
});
