import { Router } from "express";
import type { ServerHealth } from "../../viewer/api/health.ts";
import type { RunHead } from "../../viewer/api/runs.ts";
import { METRICS_TYPE, type Gauge, type Metrics } from "./metrics.ts";

const STATES = ["waiting", "running", "finished", "failed", "cancelled"] as const satisfies readonly RunHead["state"][];

/** What a program that watches the server asks it: whether it is well, and its figures. */
export function observation(
  metrics: Metrics,
  health: (() => Promise<ServerHealth>) | null,
  runs: () => readonly RunHead[],
): Router {
  const router = Router();
  if (health !== null)
    router.get("/healthz", async (_request, response) => {
      const found = await health();
      response
        .status(found.ok ? 200 : 503)
        .set("cache-control", "no-store")
        .json(found);
    });
  router.get("/metrics", (_request, response) => {
    response
      .set({ "content-type": METRICS_TYPE, "cache-control": "no-store" })
      .end(metrics.text([runsBy(runs()), memory()]));
  });
  return router;
}

const runsBy = (heads: readonly RunHead[]): Gauge => ({
  name: "trialband_runs",
  help: "Runs on the list, by their state.",
  values: Object.fromEntries(
    STATES.map((state) => [`state="${state}"`, heads.filter((head) => head.state === state).length]),
  ),
});

const memory = (): Gauge => ({
  name: "process_resident_memory_bytes",
  help: "Memory that the process takes, its threads included.",
  values: { "": process.memoryUsage.rss() },
});
