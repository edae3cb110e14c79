import { loadStudyDocument, type Overrides } from "../shelves/study.ts";
import { listQuery } from "../../viewer/api/paging.ts";
import {
  run as runShown,
  runEvent,
  runList,
  runRequest,
  startedRun,
  type Run,
  type RunEvent,
  type RunList,
  type StartedRun,
} from "../../viewer/api/runs.ts";
import { studyShown } from "../../viewer/api/study-document.ts";
import { digestOf } from "../canonical.ts";
import { jsonOf } from "../runs/live-run.ts";
import type { Asked } from "../runs/runs.ts";
import { requireFewInputs } from "../runs/limits.ts";
import { identityOf } from "../access/identity.ts";
import { refused } from "../errors.ts";
import { events, json, type Described } from "../openapi/described.ts";
import { bodyOf } from "./body.ts";
import { answerList } from "./paging.ts";
import type { RouteRegistration } from "./route.ts";

const path = { id: "Id of the run." };

const LIST = {
  id: "listRuns",
  summary: "The runs, newest first",
  query: listQuery,
  answers: {
    200: {
      description: "Each run in short.",
      content: json(runList),
      mayHave: { Link: "Leads to the next part, if there is one: RFC 8288, relation next." },
    },
  },
} satisfies Described;

const START = {
  id: "startRun",
  summary: "Start a run",
  description:
    "Of a listed study, or of one in the request. It is kept before it is answered, and goes on after a restart of the server.",
  reads: {
    "Idempotency-Key":
      "A name for this request, such as a UUID in quotation marks. The same request sent again with it within 14 days, after a lost answer or a restart, is answered alike and starts no second run; with another body it is refused.",
  },
  body: json(runRequest),
  answers: {
    202: {
      description: "It waits for its turn, or goes on.",
      content: json(startedRun),
      headers: { Location: "Address of the run." },
    },
  },
  faults: ["no-such-study", "no-such-model", "model-not-finite", "key-used", "queue-full", "cannot-keep", "busy"],
} satisfies Described;

const READ = {
  id: "getRun",
  summary: "A run, with its record if it is finished",
  path,
  answers: { 200: { description: "The run, its record, and the fault if it failed.", content: json(runShown) } },
  faults: ["no-such-run"],
} satisfies Described;

const STUDY = {
  id: "getStudyOfRun",
  summary: "The study as it was run",
  description: "With its defaults filled in.",
  path,
  answers: { 200: { description: "The study.", content: json(studyShown()) } },
  faults: ["no-such-run"],
} satisfies Described;

const CANCEL = {
  id: "cancelRun",
  summary: "Cancel a run",
  description: "One that has ended stays as it is.",
  path,
  answers: { 204: { description: "It is cancelled, or had ended." } },
  faults: ["no-such-run"],
} satisfies Described;

const FOLLOW = {
  id: "followRun",
  summary: "Follow a run",
  description:
    "Each event has an id; a reader that takes the stream up again sends the last it has, and gets what is newer.",
  path,
  reads: { "Last-Event-ID": "Id of the last event that the reader has: a number of trials, or end." },
  answers: {
    200: {
      description: "Progress and snapshots as they come; the last event is finished, failed or cancelled.",
      content: events(runEvent),
    },
    204: { description: "The reader has the last event already." },
  },
  faults: ["no-such-run", "bad-input"],
} satisfies Described;

export const runs: RouteRegistration = (router, { runs: all, shelf }) => {
  router.get("/runs", "read", LIST, (request, response) => {
    answerList(request, response, all.list() satisfies RunList);
  });

  router.post("/runs", "run", START, async (request, response) => {
    const { study, own, seed, trials } = bodyOf(runRequest, request.body);
    const asked = {
      requester: request.ip ?? "",
      actor: identityOf(response).name,
      ...keyOf(request.headers["idempotency-key"], request.body),
      ...(own === undefined ? {} : { own }),
    };
    const answer = (id: string): void =>
      void response
        .status(202)
        .location(`/api/runs/${id}`)
        .json({ id } satisfies StartedRun);
    // Before anything that could be refused by now: what was accepted stays accepted.
    const before = all.startedBy(asked);
    if (before !== null) return answer(before);
    const document = typeof study === "string" ? await shelf.read(study) : study;
    requireFewInputs(document);
    const overrides = {
      ...(seed === undefined ? {} : { seed }),
      ...(trials === undefined ? {} : { trials }),
    } as Overrides;
    const loaded = await loadStudyDocument(document, null, overrides);
    // While the study was loaded, the same request may have come a second time.
    answer(all.startedBy(asked) ?? (await all.start(loaded, typeof study === "string" ? study : null, asked)));
  });

  router.get("/runs/:id", "read", READ, async (request, response) => {
    const { document: _, ...run } = await all.read(request.params.id);
    response.json(run satisfies Run);
  });

  router.get("/runs/:id/study", "read", STUDY, async (request, response) => {
    const { document } = await all.read(request.params.id);
    response.json(document);
  });

  router.delete("/runs/:id", "run", CANCEL, (request, response) => {
    all.cancel(request.params.id, identityOf(response).name);
    response.status(204).end();
  });

  router.get("/runs/:id/events", "read", FOLLOW, (request, response) => {
    const { id } = request.params;
    all.get(id);
    const seen = lastSeen(request.headers["last-event-id"]);
    // Its reader has the end already: 204 tells a browser to stop asking (WHATWG HTML, 9.2.3).
    if (seen === ENDED) {
      response.status(204).end();
      return;
    }
    response.writeHead(200, {
      "content-type": "text/event-stream",
      "cache-control": "no-store",
      "x-accel-buffering": "no",
    });
    let stop: () => void = () => undefined;
    // A comment now and then keeps the connection, and shows when the reader has left.
    const beat = setInterval(() => response.write(": \n\n"), 15_000);
    const end = (): void => {
      clearInterval(beat);
      stop();
    };
    response.on("close", end);
    stop = all.follow(id, (event: RunEvent) => {
      // A reader that lags skips snapshots rather than piling them up here.
      if (event.type === "snapshot" && response.writableNeedDrain) return;
      const at = placeOf(event);
      if (at !== ENDED && at <= seen) return;
      response.write(frameOf(event));
      if (at === ENDED) {
        end();
        response.end();
      }
    });
  });
};

/**
 * The key of a request, with what it is a name for: draft-ietf-httpapi-idempotency-key-header, 2.1, a string in quotation
 * marks (RFC 8941, 3.3.3), which many programs leave out.
 *
 * @throws {Fault} `bad-input`
 */
function keyOf(header: string | string[] | undefined, body: unknown): Pick<Asked, "key"> {
  if (header === undefined) return {};
  const key =
    typeof header === "string" ? /^\s*(?:"([!#-[\]-~]{1,128})"|([!#-+\--:<-~]{1,128}))\s*$/.exec(header) : null;
  if (key === null)
    throw refused("Idempotency-Key", header, "one name of 1 to 128 characters, such as a UUID, in quotation marks");
  try {
    return { key: { key: key[1] ?? key[2]!, request: digestOf(body) } };
  } catch {
    throw refused("", "half a surrogate pair", "text of whole Unicode characters");
  }
}

/** Frames of events, as bytes: two hundred who follow a run are sent the same. */
const frames = new WeakMap<RunEvent, Buffer>();

function frameOf(event: RunEvent): Buffer {
  const known = frames.get(event);
  if (known !== undefined) return known;
  const at = placeOf(event);
  const frame = Buffer.from(`id: ${at === ENDED ? "end" : at}\ndata: ${jsonOf(event)}\n\n`);
  frames.set(event, frame);
  return frame;
}

/** The place of the last event, after every count of trials. */
const ENDED = Infinity;

/** Where an event stands among those of its run: the trials it tells of. */
function placeOf(event: RunEvent): number {
  if (event.type === "progress") return event.trials;
  return event.type === "snapshot" ? event.record.trials.count : ENDED;
}

/** The place of the last event that a reader has who takes the stream up again; before any, −1. */
function lastSeen(header: string | string[] | undefined): number {
  if (header === undefined) return -1;
  if (header === "end") return ENDED;
  if (typeof header === "string" && /^\d{1,15}$/.test(header)) return Number(header);
  throw refused("Last-Event-ID", header, "the id of an event of this run: a number of trials, or end");
}
