import { readFileSync } from "node:fs";
import { createServer, type IncomingMessage, type ServerResponse } from "node:http";
import type { AddressInfo, Socket } from "node:net";
import { extname, join, normalize } from "node:path";
import type { Fault, RunEvent, RunState } from "../../../viewer/page/api.ts";
import { schemaText } from "../../../server/cli/schema.ts";
import type { RunRecord } from "../../../engine/index.ts";

const here = import.meta.dirname;
const readRecord = (name: string): RunRecord =>
  JSON.parse(readFileSync(join(here, "fixtures", `${name}.json`), "utf8")) as RunRecord;

const CORRELATION = {
  between: ["referenceMass", "balancingMass"],
  coefficient: 0.5,
  term: 0.001,
  share: 0.345,
} as const;

/** A finished record with a second measurand: the first under another name, moved by one, with a correlation. */
function withSecondMeasurand(record: RunRecord): RunRecord {
  const [[name, first]] = Object.entries(record.measurands) as [[string, RunRecord["measurands"][string]]];
  const second = {
    ...first,
    symbol: "d_2",
    meaning: "a second deviation",
    linear: { ...first.linear, estimate: first.linear.estimate + 1, correlatedTerms: [CORRELATION] },
  };
  return {
    ...record,
    study: { ...record.study, title: "Two measurands at once" },
    measurands: { [name]: first, second },
  };
}

/** A record whose calibration curve rises so steeply that nothing is seen of its band: the same line with 5 °C per °C more. */
function withSteepCurve(record: RunRecord): RunRecord {
  const curve = record.calibrationCurve!;
  const raised = (t: number, b: number): number => b + 5 * t;
  const ends = (t: number, [low, high]: readonly [number, number]): readonly [number, number] => [
    raised(t, low),
    raised(t, high),
  ];
  return {
    ...record,
    study: { ...record.study, title: "A steep calibration curve" },
    calibrationCurve: {
      ...curve,
      argument: { symbol: "x", meaning: "indication", unit: "mV" },
      points: curve.points.map(({ at, linear, monteCarlo }) => ({
        at,
        linear: { ...linear, estimate: raised(at, linear.estimate), interval: ends(at, linear.interval) },
        monteCarlo: {
          ...monteCarlo,
          estimate: raised(at, monteCarlo.estimate!),
          interval: ends(at, monteCarlo.interval),
        },
      })),
      observed: curve.observed.map(({ at, value, fitted }) => ({
        at,
        value: raised(at, value),
        fitted: raised(at, fitted),
      })),
    },
  };
}

/** A record whose inputs state figures without the input's unit: a count in °C, and the top of a trapezoid. */
function withUnitlessFields(record: RunRecord): RunRecord {
  const [first, second] = Object.keys(record.inputs) as [string, string];
  const inputs = {
    ...record.study.inputs,
    [first]: { distribution: "gamma", count: 7, scale: 0.5 },
    [second]: { distribution: "trapezoidal", estimate: 20, halfWidth: 2, topRatio: 0.25 },
  } as RunRecord["study"]["inputs"];
  const inDegrees = (name: string): RunRecord["inputs"][string] => ({ ...record.inputs[name]!, unit: "°C" });
  return {
    ...record,
    study: { ...record.study, title: "A count and a trapezoid", inputs },
    inputs: { ...record.inputs, [first]: inDegrees(first), [second]: inDegrees(second) },
  };
}

/** The records the fixture answers with, by the id of their study. */
export const RECORDS: Readonly<Record<string, RunRecord>> = {
  "harrowfen/cold-store-4": readRecord("cold-store-4"),
  "published/mass-calibration": readRecord("mass-calibration"),
  "published/additive-one-dominant": readRecord("additive-one-dominant"),
  "harrowfen/range": readRecord("range"),
  "harrowfen/pasteuriser-72": readRecord("pasteuriser-72"),
  "verdicts/curvature": readRecord("curvature"),
  "published/polar-010-correlated": readRecord("polar-010-correlated"),
  "published/thermometer-line": readRecord("thermometer-line"),
  "harrowfen/steep-curve": withSteepCurve(readRecord("thermometer-line")),
  "harrowfen/unitless-fields": withUnitlessFields(readRecord("mass-calibration")),
  "harrowfen/two-measurands": withSecondMeasurand(readRecord("mass-calibration")),
};

/** The record as it stood after the first `batches` batches; figures other than the counts are left as they ended. */
export function partOf(record: RunRecord, batches: number): RunRecord {
  const measurands = Object.entries(record.measurands).map(([name, measurand]) => {
    const { settling, histogram } = measurand.monteCarlo;
    const points = settling.points.slice(0, batches);
    const trials = points.at(-1)?.trials ?? 0;
    const share = trials / measurand.monteCarlo.trials;
    const counts = histogram.counts.map((count) => Math.round(count * share));
    const monteCarlo = {
      ...measurand.monteCarlo,
      trials,
      histogram: { ...histogram, counts, below: 0, above: 0 },
      settling: { ...settling, points, settled: false, doubled: points.at(-1)?.doubled ?? settling.doubled },
    };
    return [name, { ...measurand, monteCarlo }] as const;
  });
  const count = measurands[0]![1].monteCarlo.trials;
  return { ...record, trials: { ...record.trials, count }, measurands: Object.fromEntries(measurands) };
}

interface FixtureRun {
  readonly id: string;
  readonly study: string;
  readonly full: RunRecord;
  batches: number;
  state: RunState;
  readonly streams: Set<ServerResponse>;
}

const TYPES: Readonly<Record<string, string>> = {
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript",
  ".css": "text/css",
  ".svg": "image/svg+xml",
};

/** A server of fixed records for the tests of the page. Runs go on only when a test says so. */
export class FixtureServer {
  readonly #page: string;
  readonly #runs = new Map<string, FixtureRun>();
  readonly #sockets = new Set<Socket>();
  readonly #server = createServer((request, response) => void this.#answer(request, response));
  #down = false;

  /** @param page folder of the built page */
  constructor(page: string) {
    this.#page = page;
    this.#server.on("connection", (socket) => {
      this.#sockets.add(socket);
      socket.on("close", () => this.#sockets.delete(socket));
    });
  }

  async listen(): Promise<string> {
    await new Promise<void>((resolve) => this.#server.listen(0, "127.0.0.1", resolve));
    return `http://127.0.0.1:${(this.#server.address() as AddressInfo).port}/`;
  }

  async close(): Promise<void> {
    for (const socket of this.#sockets) socket.destroy();
    await new Promise((resolve) => this.#server.close(resolve));
  }

  /** A run that has already finished; returns its id. */
  addFinished(study: string): string {
    return this.#add(study, "finished").id;
  }

  /** Makes batches of the newest run and tells who listens. */
  advance(batches: number): void {
    const run = this.#newest();
    run.state = "running";
    run.batches += batches;
    const record = partOf(run.full, run.batches);
    this.#tell(run, { type: "progress", trials: record.trials.count, limit: limitOf(run.full) });
    this.#tell(run, { type: "snapshot", record });
  }

  finish(): void {
    const run = this.#newest();
    run.state = "finished";
    this.#tell(run, { type: "finished", record: run.full });
    this.#end(run);
  }

  fail(error: Fault): void {
    const run = this.#newest();
    run.state = "failed";
    this.#tell(run, { type: "failed", error });
    this.#end(run);
  }

  /** Cuts every connection and refuses new ones until `comeBack`. */
  goDown(): void {
    this.#down = true;
    for (const socket of this.#sockets) socket.destroy();
  }

  comeBack(): void {
    this.#down = false;
  }

  get newestState(): RunState {
    return this.#newest().state;
  }

  #newest(): FixtureRun {
    return [...this.#runs.values()].at(-1)!;
  }

  #add(study: string, state: RunState): FixtureRun {
    const run: FixtureRun = {
      id: `r${this.#runs.size + 1}`,
      study,
      full: RECORDS[study]!,
      batches: 0,
      state,
      streams: new Set(),
    };
    this.#runs.set(run.id, run);
    return run;
  }

  #tell(run: FixtureRun, event: RunEvent): void {
    for (const stream of run.streams) stream.write(`data: ${JSON.stringify(event)}\n\n`);
  }

  #end(run: FixtureRun): void {
    for (const stream of run.streams) stream.end();
    run.streams.clear();
  }

  async #answer(request: IncomingMessage, response: ServerResponse): Promise<void> {
    if (this.#down) return void request.socket.destroy();
    const { pathname } = new URL(request.url!, "http://page");
    const path = decodeURIComponent(pathname);
    if (!path.startsWith("/api/")) return this.#file(path, response);
    if (path === "/api/schema/study") return json(response, 200, JSON.parse(schemaText()));
    const [, kind, id, events] = /^\/api\/(\w+)(?:\/(.+?))?(\/events)?$/.exec(path) ?? [];
    const finer = /^\/api\/runs\/([^/]+)\/measurands\/([^/]+)\/(interval|histogram)$/.exec(path);
    if (finer !== null)
      return this.#finer(finer[1]!, finer[2]!, new URL(request.url!, "http://page").searchParams, response);
    if (kind === "studies") return id === undefined ? json(response, 200, studies()) : this.#study(id, response);
    if (request.method === "POST") return this.#start(await bodyOf(request), response);
    if (id === undefined) return json(response, 200, [...this.#runs.values()].toReversed().map(summary));
    const run = this.#runs.get(id);
    if (run === undefined)
      return fault(response, 404, { code: "unknown-run", message: `No run ${id} is known.`, problems: [] });
    if (request.method === "DELETE") return this.#cancel(run, response);
    if (events !== undefined) return this.#stream(run, response);
    const record = recordOf(run);
    json(response, 200, {
      id: run.id,
      study: run.study,
      title: run.full.study.title,
      state: run.state,
      trials: record?.trials.count ?? 0,
      limit: limitOf(run.full),
      record,
      error: null,
    });
  }

  /** Any interval is a tenth beyond the record's own; any histogram has flat bins over its range: both are easily told. */
  #finer(id: string, name: string, asked: URLSearchParams, response: ServerResponse): void {
    const { intervals, histogram, trials } = this.#runs.get(id)!.full.measurands[name]!.monteCarlo;
    const p = asked.get("p");
    if (p !== null) {
      const [low, high] = intervals.symmetric;
      const wider = [low - 0.1 * (high - low), high + 0.1 * (high - low)];
      return json(response, 200, { probability: Number(p), symmetric: wider, shortest: wider });
    }
    const bins = Number(asked.get("bins"));
    const width = (histogram.width * histogram.counts.length) / bins;
    json(response, 200, {
      low: histogram.low,
      width,
      counts: Array.from({ length: bins }, () => Math.floor(trials / bins)),
      below: 0,
      above: 0,
    });
  }

  #file(path: string, response: ServerResponse): void {
    const name = normalize(path === "/" ? "/index.html" : path);
    try {
      const content = readFileSync(join(this.#page, name));
      response.writeHead(200, { "content-type": TYPES[extname(name)] ?? "application/octet-stream" }).end(content);
    } catch {
      response.writeHead(404).end();
    }
  }

  #study(id: string, response: ServerResponse): void {
    const record = RECORDS[id];
    if (record === undefined)
      return fault(response, 404, { code: "unknown-study", message: `No study ${id} is known.`, problems: [] });
    json(response, 200, record.study);
  }

  #start({ study }: { study?: unknown }, response: ServerResponse): void {
    const document = study as { title?: string; inputs?: Record<string, unknown> };
    const id =
      typeof study === "string"
        ? study
        : Object.keys(RECORDS).find((key) => RECORDS[key]!.study.title === document.title);
    const full = id === undefined ? undefined : RECORDS[id];
    const missing =
      typeof study === "string" || full === undefined
        ? undefined
        : Object.keys(full.inputs).find((name) => document.inputs?.[name] === undefined);
    if (full === undefined || missing !== undefined) {
      return fault(response, 400, {
        code: "invalid-study",
        message: "The study cannot be run as it stands.",
        problems: [
          { place: `inputs.${missing ?? "?"}`, value: "nothing", accepted: "a distribution for this input quantity" },
        ],
      });
    }
    json(response, 202, { id: this.#add(id!, "waiting").id });
  }

  #cancel(run: FixtureRun, response: ServerResponse): void {
    run.state = "cancelled";
    this.#tell(run, { type: "cancelled", trials: recordOf(run)?.trials.count ?? 0 });
    this.#end(run);
    response.writeHead(204).end();
  }

  #stream(run: FixtureRun, response: ServerResponse): void {
    response.writeHead(200, { "content-type": "text/event-stream", "cache-control": "no-store" });
    response.flushHeaders();
    run.streams.add(response);
    response.on("close", () => run.streams.delete(response));
    const record = recordOf(run);
    if (record !== null) this.#tell(run, { type: "snapshot", record });
  }
}

const limitOf = ({ study, trials }: RunRecord): number =>
  study.trials === "adaptive" ? study.maximumTrials : trials.count;
const recordOf = (run: FixtureRun): RunRecord | null =>
  run.state === "finished" ? run.full : run.batches === 0 ? null : partOf(run.full, run.batches);

const studies = (): unknown[] =>
  Object.entries(RECORDS).map(([id, { study, model }]) => ({
    id,
    title: study.title,
    model: model.id,
    group: id.split("/")[0],
    laboratory: study.laboratory ?? null,
    notes: study.notes ?? null,
  }));

const summary = (run: FixtureRun): unknown => {
  const [[measurand, { validation }]] = Object.entries(run.full.measurands) as [
    [string, RunRecord["measurands"][string]],
  ];
  return {
    id: run.id,
    title: run.full.study.title,
    model: run.full.model.id,
    state: run.state,
    startedAt: "2026-03-02T09:30:00.000Z",
    trials: recordOf(run)?.trials.count ?? 0,
    limit: limitOf(run.full),
    verdict: run.state === "finished" ? { measurand, validated: validation.validated } : null,
  };
};

const json = (response: ServerResponse, status: number, body: unknown): void =>
  void response.writeHead(status, { "content-type": "application/json" }).end(JSON.stringify(body));
const fault = (response: ServerResponse, status: number, error: Fault): void => json(response, status, { error });

async function bodyOf(request: IncomingMessage): Promise<{ study?: unknown }> {
  const parts: Buffer[] = [];
  for await (const part of request) parts.push(part as Buffer);
  return JSON.parse(Buffer.concat(parts).toString("utf8")) as { study?: unknown };
}
