import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { openChecker } from "../../../server/checks/checker.ts";
import { serve, type Serving } from "../../../server/serve.ts";
import { MOST_INPUTS } from "../../../server/runs/limits.ts";
import { LONG } from "../../setup/long.ts";
import { studyOf } from "../many-inputs.ts";

/** A study whose every point is prepared: seconds of work for one request. */
function longStudy(points: number): Record<string, unknown> {
  const inputs = { x0: { distribution: "normal", estimate: 2, standardUncertainty: 0.1 } };
  return {
    ...studyOf(MOST_INPUTS),
    sweep: { quantity: "temperature", unit: "°C", points: Array.from({ length: points }, (_, at) => ({ at, inputs })) },
  };
}
const unlimited = (): AbortSignal => new AbortController().signal;

describe("a check of as many inputs as a server takes, at every point of a sweep", () => {
  let serving: Serving;
  beforeAll(async () => {
    serving = await serve({ host: "127.0.0.1", port: 0, workers: 1, store: null, warn: () => undefined });
  });
  afterAll(() => serving.close());

  test("leaves the server free: what is asked after it is answered before it", LONG, async () => {
    const answered: string[] = [];
    const asked = fetch(new URL("api/studies/check", serving.url), {
      method: "POST",
      headers: { "content-type": "application/json" },
      body: JSON.stringify({ study: longStudy(50) }),
    }).then(async (answer) => {
      answered.push("check");
      return (await answer.json()) as unknown;
    });
    for (let i = 0; i < 5; i++) {
      expect((await fetch(new URL("healthz", serving.url))).status).toBe(200);
      answered.push("health");
    }
    expect(await asked).toEqual({ problems: [] });
    expect(answered).toEqual([...Array.from({ length: 5 }, () => "health"), "check"]);
  });
});

describe("a check", () => {
  test("that takes too long is refused in words, and the next one is made", async () => {
    const checker = openChecker(0.5);
    try {
      await expect(checker.check(longStudy(50), unlimited())).rejects.toMatchObject({
        code: "bad-input",
        problems: [{ place: "study", value: expect.stringContaining("more than 0.5 s") as string }],
      });
    } finally {
      await checker.close();
    }
  });

  test("finds what is wrong as the run would", async () => {
    const checker = openChecker();
    try {
      const wrong = { ...studyOf(2), trials: 5 };
      expect(await checker.check(wrong, unlimited())).toMatchObject([{ place: "trials" }]);
      await expect(checker.check(undefined, unlimited())).resolves.toMatchObject([{ place: "" }]);
      expect(await checker.check(studyOf(2), unlimited())).toEqual([]);
    } finally {
      await checker.close();
    }
  });

  test("finds no place among too many, and finds one when they are done", async () => {
    const checker = openChecker();
    try {
      const asked = Array.from({ length: 40 }, () => checker.check(studyOf(2), unlimited()));
      const ended = await Promise.allSettled(asked);
      const refused = ended.filter(({ status }) => status === "rejected");
      expect(refused.length).toBe(23);
      expect(refused[0]).toMatchObject({ reason: { code: "busy", retryAfter: 5 } });
      expect(await checker.check(studyOf(2), unlimited())).toEqual([]);
    } finally {
      await checker.close();
    }
  });

  test("that nobody waits for any more is given up, also while it waits", async () => {
    const checker = openChecker();
    try {
      const left = new AbortController();
      // Carried out to its end, each would be refused for the time it takes.
      const long = longStudy(1000);
      const [first, second] = [checker.check(long, left.signal), checker.check(long, left.signal)];
      setTimeout(() => left.abort(), 300);
      await expect(first).rejects.toMatchObject({ code: "cancelled" });
      await expect(second).rejects.toMatchObject({ code: "cancelled" });
      expect(await checker.check(studyOf(2), unlimited())).toEqual([]);
    } finally {
      await checker.close();
    }
  });
});
