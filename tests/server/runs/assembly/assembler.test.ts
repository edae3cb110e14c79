// Records of a server's runs are assembled beside the thread that serves. Needs dist/ (the tests' set-up builds it).
import request from "supertest";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { prepare } from "../../../../engine/index.ts";
import { openTrials } from "../../../../engine/internal.ts";
import { createApp } from "../../../../server/app.ts";
import { openAssembler, type Assembler } from "../../../../server/runs/assembly/assembler.ts";
import { MOST_INPUTS } from "../../../../server/runs/limits.ts";
import { openPool, type Pool } from "../../../../server/runs/pool/pool.ts";
import { runStudy } from "../../../../server/runs/run-study.ts";
import { Runs } from "../../../../server/runs/runs.ts";
import { resultsOf } from "../../../../server/record/seal.ts";
import { writtenRecord } from "../../../../server/record/written.ts";
import { openStore } from "../../../../server/store/open-store.ts";
import { studyShelf } from "../../../../server/shelves/studies.ts";
import { loadStudyDocument } from "../../../../server/shelves/study.ts";
import type { RunEvent } from "../../../../viewer/api/runs.ts";
import { readExample } from "../../../read-example.ts";
import { LONG } from "../../../setup/long.ts";
import { leastTurn } from "../../longest-turn.ts";
import { studyOf } from "../../many-inputs.ts";

let assembler: Assembler;
let pool: Pool;
beforeAll(async () => {
  assembler = openAssembler();
  pool = await openPool(1);
});
afterAll(() => Promise.all([assembler.close(), pool.close()]));

const ended = (runs: Runs, id: string): Promise<RunEvent> =>
  new Promise((resolve) => {
    runs.follow(id, (event) => {
      if (event.type !== "progress" && event.type !== "snapshot") resolve(event);
    });
  });

const asFiled = (record: object): unknown => JSON.parse(JSON.stringify(resultsOf(record as never)));

describe("the record that another thread assembles is the one that this thread would, bit for bit", () => {
  const CASES: readonly (readonly [string, string, Readonly<Record<string, unknown>>, object?])[] = [
    ["with an explanation", "verdicts/curvature", { trials: 20_000 }],
    ["of several measurands", "published/impedance", { trials: 20_000 }, LONG],
    ["with a sweep", "harrowfen/pasteuriser-72", { trials: 20_000 }, LONG],
    [
      "with conformity and sensitivity",
      "harrowfen/steriliser-134",
      { trials: 20_000, sensitivity: { trials: 25_000 } },
      LONG,
    ],
    ["of more trials than are kept", "published/additive-normal", { trials: 2_500_000 }, LONG],
  ];
  for (const [name, id, changes, options = {}] of CASES)
    test(name, options, async () => {
      const loaded = await loadStudyDocument({ ...readExample(id), ...changes }, null);
      const store = openStore({ folder: null });
      const runs = new Runs(
        async () => pool,
        store,
        () => undefined,
        {},
        assembler,
      );
      const run = await runs.start(loaded);
      const event = await ended(runs, run);
      const { record } = await runStudy(loaded);
      const expected = asFiled(record);
      expect(event.type === "finished" ? asFiled(event.record) : event).toEqual(expected);
      const { record: kept, state, verdict } = await runs.read(run);
      expect(asFiled(kept!)).toEqual(expected);
      expect(state).toBe("finished");
      expect(verdict).not.toBeNull();
      store.close();
    });
});

describe("a run of as many inputs as a server takes", () => {
  /** An assembler that answers what was assembled before. */
  async function prepared(): Promise<{
    readonly runs: Runs;
    readonly app: ReturnType<typeof createApp>;
    readonly asked: string[];
    readonly json: string;
  }> {
    const loaded = await loadStudyDocument(studyOf(MOST_INPUTS), null);
    const drawn = openTrials(prepare(loaded.model, loaded.study).source);
    const batches = [drawn(0, 10_000), drawn(10_000, 10_000)];
    const asked: string[] = [];
    const compared = await assembler.compare(
      { recipe: { model: loaded.reference as never, study: loaded.study } },
      new AbortController().signal,
    );
    const { record } = await runStudy(loaded);
    const written = writtenRecord(record);
    const runs = new Runs(
      async () => ({
        workers: 1,
        draw: async ({ first, counts }) => batches.filter(({ first: at }) => at >= first).slice(0, counts.length),
        close: async () => undefined,
      }),
      openStore({ folder: null }),
      () => undefined,
      {},
      {
        compare: async () => (asked.push("compare"), compared),
        figures: () => Promise.reject(new Error("there is no sweep")),
        file: async () => (asked.push("file"), { written, trials: 20_000, verdict: null }),
        close: async () => undefined,
      },
    );
    const app = createApp({ runs, shelf: studyShelf("/nowhere"), workers: 1, page: "/nowhere", hosts: null });
    return { runs, app, asked, json: Buffer.from(written.json).toString("utf8") };
  }

  test("leaves the serving thread free within 100 ms from its start to its end: what is heavy is asked of the assembler", async () => {
    const { runs, app, asked, json } = await prepared();
    const follow = async (): Promise<string> => {
      const { body } = await request(app)
        .post("/api/runs")
        .send({ study: studyOf(MOST_INPUTS) });
      const { text } = await request(app)
        .get(`/api/runs/${(body as { id: string }).id}/events`)
        .buffer(true)
        .parse((answer, done) => {
          let whole = "";
          answer.on("data", (chunk: Buffer) => (whole += chunk.toString("utf8")));
          answer.on("end", () => done(null, whole));
        })
        .then(({ body: whole }) => ({ text: whole as string }));
      return text;
    };
    // Once before, so that what is compiled is compiled.
    await follow();
    asked.length = 0;
    const longest = await leastTurn(0.1, async () => {
      const text = await follow();
      // Its record is the one that the assembler gave, not one made here.
      expect(text.includes(`data: {"type":"finished","record":${json},"notKept":null}`)).toBe(true);
    });
    expect(asked).toContain("file");
    expect(longest).toBeLessThan(0.1);
    runs.stop();
  });
});
