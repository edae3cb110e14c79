import { watchedLogList, watchEvent, watchQuery, type WatchedLogList } from "../../viewer/api/watched-logs.ts";
import { refused } from "../errors.ts";
import { events, json, type Described } from "../openapi/described.ts";
import { bodyOf } from "./body.ts";
import type { RouteRegistration } from "./route.ts";

const LIST = {
  id: "listWatchedLogs",
  summary: "The logs that this server was started to follow",
  answers: { 200: { description: "Each log by its name.", content: json(watchedLogList) } },
} satisfies Described;

const FOLLOW = {
  id: "followLog",
  summary: "How a log stands, and again whenever readings were added",
  description:
    "Drift, latest and worst window of each thermometer, and whether the criterion is met. The file is only read; one that is cut, replaced or not there is told and followed on.",
  path: { id: "Id of a log of the list." },
  query: watchQuery,
  reads: { "Last-Event-ID": "Id of the last event that the reader has." },
  answers: { 200: { description: "A stream that ends when the reader leaves.", content: events(watchEvent) } },
  faults: ["no-such-file", "busy"],
} satisfies Described;

/** Time between two comments that keep a stream open, ms. */
const BEAT = 15_000;

/** Logs as they grow, read-only, and only those named when the server was started. */
export const watchedLogs: RouteRegistration = (router, { watched }) => {
  router.get("/watched-logs", "read", LIST, (_request, response) => {
    response.json(watched.list() satisfies WatchedLogList);
  });

  router.get("/watched-logs/:id/events", "read", FOLLOW, (request, response) => {
    const asked = bodyOf(watchQuery, request.query);
    const seen = request.headers["last-event-id"] ?? null;
    if (seen !== null && (typeof seen !== "string" || !/^[0-9a-f]{8}-\d{1,12}$/.test(seen)))
      throw refused("Last-Event-ID", seen, "the id of an event of a followed log");
    let open = false;
    const waiting: string[] = [];
    const write = (text: string): void => {
      // A reader that lags skips states rather than piling them up here: each is whole.
      if (!open) waiting.push(text);
      else if (!response.writableNeedDrain) response.write(text);
    };
    const stop = watched.follow(request.params.id, asked, seen, (id, event) =>
      write(`id: ${id}\ndata: ${JSON.stringify(event)}\n\n`),
    );
    response.writeHead(200, {
      "content-type": "text/event-stream",
      "cache-control": "no-store",
      "x-accel-buffering": "no",
    });
    open = true;
    response.flushHeaders();
    for (const text of waiting) response.write(text);
    const beat = setInterval(() => response.write(": \n\n"), BEAT);
    response.on("close", () => {
      clearInterval(beat);
      stop();
    });
  });
};
