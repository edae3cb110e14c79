// How long a start keeps a server from answering: one of as many inputs as a server takes, and of more.
import request from "supertest";
import { describe, expect, test } from "vitest";
import { createApp } from "../../../server/app.ts";
import { USUAL_LIMITS } from "../../../server/runs/limits.ts";
import { Runs } from "../../../server/runs/runs.ts";
import { studyShelf } from "../../../server/shelves/studies.ts";
import { openStore } from "../../../server/store/open-store.ts";

const runs = new Runs(() => new Promise<never>(() => undefined), openStore({ folder: null }));
const shelf = studyShelf(new URL("../../../examples", import.meta.url).pathname);
const app = createApp({ runs, shelf, workers: 1, page: "/nowhere", hosts: null });

const studyOf = (count: number): Record<string, unknown> => {
  const names = Array.from({ length: count }, (_, i) => `x${i}`);
  return {
    title: `Of ${count} inputs`,
    model: "additive",
    parameters: { coefficients: Object.fromEntries(names.map((name) => [name, 1])) },
    inputs: Object.fromEntries(
      names.map((name) => [name, { distribution: "normal", estimate: 1, standardUncertainty: 0.1 }]),
    ),
    trials: 20_000,
  };
};

/** The longest time for which nothing else was done, in seconds of the processor: another program takes none of them. */
async function longestTurn(work: () => Promise<unknown>): Promise<number> {
  let longest = 0;
  let goesOn = true;
  let before = process.cpuUsage();
  const look = (): void => {
    const { user, system } = process.cpuUsage(before);
    longest = Math.max(longest, (user + system) / 1e6);
    before = process.cpuUsage();
    if (goesOn) setImmediate(look);
  };
  setImmediate(look);
  await work();
  // What a run does once it was answered counts too.
  for (let i = 0; i < 20; i++) await new Promise((resolve) => setImmediate(resolve));
  goesOn = false;
  return longest;
}

const start = (study: unknown): request.Test => request(app).post("/api/runs").send({ study });

describe("while a run is started the server answers others within 200 ms", () => {
  test("for a study of as many inputs as it takes", async () => {
    // Once before, so that what is compiled is compiled.
    await start(studyOf(20));
    const longest = await longestTurn(async () => expect((await start(studyOf(USUAL_LIMITS.inputs))).status).toBe(202));
    expect(longest).toBeLessThan(0.2);
  });

  test.each([USUAL_LIMITS.inputs + 1, 800, 100_000])("and one of %d inputs is refused in words", async (count) => {
    const study = studyOf(count);
    const longest = await longestTurn(async () => {
      const { status, body } = await start(study);
      expect(status).toBe(413);
      expect((body as { detail: string }).detail).toBe(
        `The study has ${count} inputs or parts of a parameter; expected at most ${USUAL_LIMITS.inputs} in a server, which answers other people meanwhile. The command line takes larger ones: trialband run.`,
      );
    });
    // 100 000 inputs are 10 MB of JSON, which is read in one piece.
    expect(longest).toBeLessThan(count === 100_000 ? 2 : 0.2);
  });

  test("and a parameter that makes the model as large is refused alike, before the model is made", async () => {
    const coefficients = Object.fromEntries(Array.from({ length: 5000 }, (_, i) => [`x${i}`, 1]));
    const { status } = await start({ ...studyOf(2), parameters: { coefficients } });
    expect(status).toBe(413);
  });
});
