import type { SelfcheckEvent } from "../../viewer/api/selfcheck.ts";
import { Fault, refused, reportOf } from "../errors.ts";
import { checkGroups } from "../selfcheck/groups/index.ts";
import { selfcheck as carryOut } from "../selfcheck/selfcheck.ts";
import type { RouteRegistration } from "./route.ts";

/** Seconds that a quick selfcheck takes. */
const RETRY_AFTER = 10;

/**
 * Checks of this installation, sent line by line as they are made. By POST, since it takes every worker for a minute: no
 * GET spends anything.
 */
export const selfcheck: RouteRegistration = (router, { workers }) => {
  let going = false;

  router.post("/selfcheck", "run", async (request, response) => {
    const { quick = "0", ...rest } = request.query;
    const stray = Object.keys(rest)[0];
    if (stray !== undefined) throw refused(stray, rest[stray], "nothing: a selfcheck is asked for with quick alone");
    if (quick !== "0" && quick !== "1") throw refused("quick", quick, "0 or 1");
    // Its checks use every worker: two at once would only take turns.
    if (going)
      throw new Fault("busy", "A selfcheck is going on already; try again when it has ended.", [], RETRY_AFTER);
    going = true;
    const abort = new AbortController();
    response.on("close", () => abort.abort());
    response.writeHead(200, {
      "content-type": "text/event-stream",
      "cache-control": "no-store",
      "x-accel-buffering": "no",
    });
    const tell = (event: SelfcheckEvent): void => {
      if (!abort.signal.aborted) response.write(`data: ${JSON.stringify(event)}\n\n`);
    };
    try {
      const report = await carryOut(checkGroups, {
        quick: quick === "1",
        workers,
        seed: undefined,
        signal: abort.signal,
        onEvent: tell,
      });
      const { groups: _lines, ...summary } = report;
      tell({ type: "done", report: summary });
    } catch (error) {
      tell({ type: "failed", error: reportOf(error) });
    } finally {
      going = false;
      response.end();
    }
  });
};
