import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { openChecker } from "../../../server/checks/checker.ts";
import { serve, type Serving } from "../../../server/serve.ts";
import { LONG } from "../../setup/long.ts";

/** A study of many inputs: each derivative evaluates the model of them all, so that a check takes as their square. */
const studyOf = (count: number): Record<string, unknown> => {
  const names = Array.from({ length: count }, (_, i) => `x${i}`);
  return {
    title: "Many inputs",
    model: "additive",
    parameters: { coefficients: Object.fromEntries(names.map((name) => [name, 1])) },
    inputs: Object.fromEntries(
      names.map((name) => [name, { distribution: "normal", estimate: 1, standardUncertainty: 0.1 }]),
    ),
    coverage: { factor: 2 },
  };
};
const unlimited = (): AbortSignal => new AbortController().signal;

describe("a check of 400 inputs", () => {
  let serving: Serving;
  beforeAll(async () => {
    serving = await serve({ host: "127.0.0.1", port: 0, workers: 1, store: null, warn: () => undefined });
  });
  afterAll(() => serving.close());

  test("leaves the server free to answer", LONG, async () => {
    const check = { goesOn: true };
    const body = JSON.stringify({ study: studyOf(400) });
    const asked = fetch(new URL("api/studies/check", serving.url), {
      method: "POST",
      headers: { "content-type": "application/json" },
      body,
    }).then(async (answer) => {
      check.goesOn = false;
      return (await answer.json()) as unknown;
    });
    const slowest: number[] = [];
    while (check.goesOn) {
      const began = performance.now();
      expect((await fetch(new URL("healthz", serving.url))).status).toBe(200);
      if (check.goesOn) slowest.push(performance.now() - began);
      await new Promise((resolve) => setTimeout(resolve, 20));
    }
    expect(await asked).toEqual({ problems: [] });
    // While the check went on, not only before and after it.
    expect(slowest.length).toBeGreaterThan(5);
    expect(Math.max(...slowest)).toBeLessThan(1000);
  });
});

describe("a check", () => {
  test("that takes too long is refused in words, and the next one is made", async () => {
    const checker = openChecker(0.5);
    try {
      await expect(checker.check(studyOf(800), unlimited())).rejects.toMatchObject({
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
      const [first, second] = [checker.check(studyOf(800), left.signal), checker.check(studyOf(800), left.signal)];
      setTimeout(() => left.abort(), 300);
      const began = performance.now();
      await expect(first).rejects.toMatchObject({ code: "cancelled" });
      await expect(second).rejects.toMatchObject({ code: "cancelled" });
      expect(performance.now() - began).toBeLessThan(2000);
      expect(await checker.check(studyOf(2), unlimited())).toEqual([]);
    } finally {
      await checker.close();
    }
  });
});
