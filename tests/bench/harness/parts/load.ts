import autocannon, { type Result } from "autocannon";
import { nearestRank } from "../arithmetic.ts";
import type { Places } from "../contestants.ts";
import { row, type Row } from "../row.ts";
import { lastEventIn, startRun, untilFinished, withServer } from "../server.ts";

const STUDY = "harrowfen/steriliser-134";
/** Seconds that a finished record is read for, over so many connections. */
const READING = 10;
const READERS = 50;
/** Readers of the events of one run. */
const STREAMS = 200;
/** A run that goes on while they all are there. */
const LONG_TRIALS = 30_000_000;
/** Starts sent as fast as they are answered, over so many connections. */
const BURST = 500;
const SENDERS = 50;
const BURST_TRIALS = 20_000;
/** Milliseconds between two looks at whether the server answers meanwhile. */
const LOOK_EVERY = 20;

/** How many requests can be borne: reads of a finished record, many readers of one run's events, a burst of starts. */
export const measureLoad = ({ root }: Places): Promise<Row[]> =>
  withServer(root, async (home) => [...(await reads(home)), ...(await streams(home)), ...(await burst(home))]);

/** @throws {Error} an answer that is missing, or of another status than these */
function requireAnswered(
  what: string,
  { errors, timeouts, mismatches, statusCodeStats }: Result,
  statuses: string[],
): void {
  const other = Object.keys(statusCodeStats).filter((status) => !statuses.includes(status));
  if (errors + timeouts + mismatches > 0 || other.length > 0)
    throw new Error(
      `${what}: ${errors} errors, ${timeouts} without an answer, ${mismatches} with another content, statuses ${JSON.stringify(statusCodeStats)}`,
    );
}

async function reads(home: string): Promise<Row[]> {
  const id = await startRun(home, { study: STUDY });
  await untilFinished(home, id);
  const result = await autocannon({
    url: `${home}api/runs/${id}`,
    connections: READERS,
    duration: READING,
    verifyBody: (body) => body.includes('"state":"finished"'),
  });
  requireAnswered("reads of a finished record", result, ["200"]);
  const note = `autocannon, ${READERS} connections, ${READING} s, ${result.requests.total} reads`;
  return [
    row("load", "reads of a finished record a second", null, result.requests.average, { note }),
    row("load", "reads of a finished record: 99th percentile", null, result.latency.p99, { unit: "ms", note }),
  ];
}

async function streams(home: string): Promise<Row[]> {
  const id = await startRun(home, { study: STUDY, trials: LONG_TRIALS });
  const looking = answersMeanwhile(home);
  const result = await autocannon({
    url: `${home}api/runs/${id}/events`,
    connections: STREAMS,
    amount: STREAMS,
    timeout: 600,
    verifyBody: (body) => lastEventIn(body) === "finished",
  });
  const times = await looking.end();
  requireAnswered("event streams", result, ["200"]);
  const note = `autocannon, ${STREAMS} streams of a run of ${LONG_TRIALS / 1e6}·10^6 trials, all read to the event finished`;
  return [
    row("load", `${STREAMS} event streams: /healthz meanwhile, 99th percentile`, null, nearestRank(times, 0.99), {
      unit: "ms",
      note,
    }),
  ];
}

async function burst(home: string): Promise<Row[]> {
  const looking = answersMeanwhile(home);
  const clock = performance.now();
  const result = await autocannon({
    url: `${home}api/runs`,
    method: "POST",
    headers: { "content-type": "application/json" },
    body: JSON.stringify({ study: "published/additive-normal", trials: BURST_TRIALS }),
    connections: SENDERS,
    amount: BURST,
    timeout: 600,
  });
  const answered = performance.now() - clock;
  requireAnswered("a burst of starts", result, ["202", "429"]);
  const accepted = result.statusCodeStats["202"]?.count ?? 0;
  const runs = await ended(home);
  const times = await looking.end();
  const finished = runs.filter(({ state }) => state === "finished").length;
  // The two runs before the burst are on the list too.
  if (finished !== accepted + 2)
    throw new Error(`a burst of starts: ${accepted} runs were accepted; ${finished - 2} of them finished`);
  const note = `autocannon, ${SENDERS} connections: ${accepted} accepted and finished, ${BURST - accepted} refused with 429 as the queue was full`;
  return [
    row("load", `burst of ${BURST} starts: until the last is answered`, null, answered, { unit: "ms", note }),
    row("load", `burst of ${BURST} starts: 99th percentile of an answer`, null, result.latency.p99, {
      unit: "ms",
      note,
    }),
    row("load", `burst of ${BURST} starts: /healthz meanwhile, 99th percentile`, null, nearestRank(times, 0.99), {
      unit: "ms",
      note,
    }),
  ];
}

interface Listed {
  readonly state: string;
}

/** The runs, once none waits or goes on. */
async function ended(home: string): Promise<readonly Listed[]> {
  for (;;) {
    const runs = (await (await fetch(`${home}api/runs`)).json()) as readonly Listed[];
    if (runs.every(({ state }) => state !== "waiting" && state !== "running")) return runs;
    await new Promise((resolve) => setTimeout(resolve, 200));
  }
}

/** Asks again and again whether the server is well. @returns ends it, with the milliseconds of each answer */
function answersMeanwhile(home: string): { readonly end: () => Promise<readonly number[]> } {
  const stop = new AbortController();
  const times: number[] = [];
  const asking = (async () => {
    while (!stop.signal.aborted) {
      const clock = performance.now();
      const answer = await fetch(`${home}healthz`);
      await answer.text();
      if (answer.status !== 200) throw new Error(`/healthz answered ${answer.status} meanwhile`);
      times.push(performance.now() - clock);
      await new Promise((resolve) => setTimeout(resolve, LOOK_EVERY));
    }
  })();
  asking.catch(() => undefined);
  return {
    async end() {
      stop.abort();
      await asking;
      return times;
    },
  };
}
