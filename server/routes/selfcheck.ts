import { selfcheckEvent, selfcheckQuery, type SelfcheckEvent } from "../../viewer/api/selfcheck.ts";
import { Fault, reportOf } from "../errors.ts";
import { checkGroups } from "../selfcheck/groups/index.ts";
import { selfcheck as carryOut } from "../selfcheck/selfcheck.ts";
import { bodyOf } from "./body.ts";
import { events, type Described } from "../openapi/described.ts";
import type { RouteRegistration } from "./route.ts";

/** Seconds that a quick selfcheck takes. */
const RETRY_AFTER = 10;

/**
 * Checks of this installation, sent line by line as they are made. By POST, since it takes every worker for a minute: no
 * GET spends anything.
 */
export const selfcheck: RouteRegistration = (router, { workers }) => {
  let going = false;

  const described = {
    id: "selfcheck",
    summary: "Check this installation against published figures",
    description: "Takes every worker, for seconds if quick, else for a minute. One goes on at a time.",
    query: selfcheckQuery,
    answers: {
      200: {
        description: "Each check as it is made; the last event is done or failed.",
        content: events(selfcheckEvent),
      },
    },
    faults: ["busy"],
  } satisfies Described;

  router.post("/selfcheck", "run", described, async (request, response) => {
    const { quick } = bodyOf(selfcheckQuery, request.query);
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
