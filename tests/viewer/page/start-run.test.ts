import { afterEach, describe, expect, test, vi } from "vitest";
import { startRun } from "../../../viewer/page/api.ts";

afterEach(() => void vi.unstubAllGlobals());

/** Answers each request with the next of these; `null` loses the answer. Returns the keys that were sent. */
function answering(...answers: readonly (Response | null)[]): string[] {
  const keys: string[] = [];
  const left = [...answers];
  vi.stubGlobal("fetch", (_path: string, { headers }: { headers: Record<string, string> }) => {
    keys.push(headers["idempotency-key"]!);
    const answer = left.shift()!;
    return answer === null ? Promise.reject(new TypeError("Failed to fetch")) : Promise.resolve(answer);
  });
  return keys;
}

const started = (id: string): Response => Response.json({ id }, { status: 202 });

describe("the key of a start", () => {
  test("is sent, in quotation marks, and is another one for each start that was answered", async () => {
    const keys = answering(started("a"), started("b"));
    expect(await startRun("published/additive-normal")).toEqual({ id: "a" });
    expect(await startRun("published/additive-normal")).toEqual({ id: "b" });
    expect(keys).toEqual([expect.stringMatching(/^"[0-9a-f]{32}"$/), expect.stringMatching(/^"[0-9a-f]{32}"$/)]);
    expect(keys[0]).not.toBe(keys[1]);
  });

  test("is the same if the answer was lost, on the way or behind a proxy, so that no second run starts", async () => {
    const silent = Response.json({}, { status: 504 });
    const keys = answering(null, silent, started("a"), started("b"));
    await expect(startRun("s")).rejects.toMatchObject({ status: 0 });
    await expect(startRun("s")).rejects.toMatchObject({ status: 504 });
    await startRun("s");
    await startRun("s");
    expect(new Set(keys.slice(0, 3)).size).toBe(1);
    expect(keys[3]).not.toBe(keys[0]);
  });

  test("is another one for another study, and after a refusal", async () => {
    const keys = answering(null, Response.json({ code: "queue-full" }, { status: 429 }), started("a"));
    await expect(startRun("s")).rejects.toThrow();
    await expect(startRun("other")).rejects.toMatchObject({ status: 429 });
    await startRun("other");
    expect(new Set(keys).size).toBe(3);
  });
});
