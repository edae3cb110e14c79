// How long a start keeps a server from answering: one of as many inputs as a server takes, and of more.
import request from "supertest";
import { describe, expect, test } from "vitest";
import { createApp } from "../../../server/app.ts";
import { MOST_INPUTS } from "../../../server/runs/limits.ts";
import { Runs } from "../../../server/runs/runs.ts";
import { studyShelf } from "../../../server/shelves/studies.ts";
import { openStore } from "../../../server/store/open-store.ts";
import { studyOf } from "../many-inputs.ts";
import { leastTurn } from "../longest-turn.ts";
import { LONG } from "../../setup/long.ts";

const runs = new Runs(() => new Promise<never>(() => undefined), openStore({ folder: null }));
const shelf = studyShelf(new URL("../../../examples", import.meta.url).pathname);
const app = createApp({ runs, shelf, workers: 1, page: "/nowhere", hosts: null });

const start = (study: unknown): request.Test => request(app).post("/api/runs").send({ study });

test.each(["runs", "studies/check", "explorations"])(
  "POST /api/%s refuses a study of more inputs than a server takes, in the same words",
  async (path) => {
    const study = studyOf(MOST_INPUTS + 1);
    const { status, body } = await request(app).post(`/api/${path}`).send({ study });
    expect({ status, detail: (body as { detail: string }).detail }).toEqual({
      status: 413,
      detail: `The study has ${MOST_INPUTS + 1} inputs or parts of a parameter; expected at most ${MOST_INPUTS} in a server, which answers other people meanwhile. The command line takes larger ones: trialband run.`,
    });
  },
);

describe("while a run is started the server answers others within 100 ms", () => {
  test("for a study of as many inputs as it takes", async () => {
    // Once before, so that what is compiled is compiled.
    await start(studyOf(20));
    const study = studyOf(MOST_INPUTS);
    expect(await leastTurn(0.1, async () => expect((await start(study)).status).toBe(202))).toBeLessThan(0.1);
  });

  const REFUSED: readonly (readonly [count: number, words: RegExp])[] = [
    [MOST_INPUTS + 1, /^The study has 201 inputs or parts of a parameter; expected at most 200 in a server/],
    // 10 MB of JSON.
    [100_000, /^The body is larger than 5 MB\.$/],
    [25_000, /^The study has 25000 inputs or parts of a parameter; expected at most 200 in a server/],
  ];
  test.each(REFUSED.slice(0, 1))("and one of %d inputs is refused in words", isRefused);
  test.each(REFUSED.slice(1))("and one of %d inputs is refused in words", LONG, isRefused);

  async function isRefused(count: number, words: RegExp): Promise<void> {
    const study = studyOf(count);
    const longest = await leastTurn(0.1, async () => {
      const { status, body } = await start(study);
      expect(status).toBe(413);
      expect((body as { detail: string }).detail).toMatch(words);
    });
    expect(longest).toBeLessThan(count < 1000 ? 0.1 : 0.5);
  }

  test("and a parameter that makes the model as large is refused alike, before the model is made", async () => {
    const coefficients = Object.fromEntries(Array.from({ length: 5000 }, (_, i) => [`x${i}`, 1]));
    const { status } = await start({ ...studyOf(2), parameters: { coefficients } });
    expect(status).toBe(413);
  });
});
