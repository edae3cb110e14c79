import { describe, expect, test } from "vitest";
import type { Model } from "../../../engine/index.ts";
import { LONG } from "../../setup/long.ts";
import { compared } from "./compared.ts";
import { moduleFrom } from "./paths.ts";
import { moduleOf, randomBody, randomly, randomTrials } from "./random-models.ts";

/** Random models whose programs give what their functions give, bit for bit, wherever they lie. */
async function check(seed: string, count: number): Promise<{ programs: number; equal: number; left: number }> {
  const random = randomly(seed);
  const bodies = Array.from({ length: count }, () => randomBody(random));
  const { exported, programOf } = await moduleFrom(moduleOf(bodies));
  let [programs, equal, left] = [0, 0, 0];
  (exported["default"] as readonly Model[]).forEach((model, i) => {
    const program = programOf(model);
    if (program === null) return;
    // An odd number: the last trial goes alone.
    const found = compared(model, program, randomTrials(random, 301));
    if (found === null) return;
    expect(found.different, bodies[i]).toBe(0);
    expect(found.told).toBe(true);
    programs += 1;
    equal += found.equal;
    left += found.left;
  });
  return { programs, equal, left };
}

describe("random models", () => {
  test("as programs give identical values, bit for bit", async () => {
    const { programs, equal, left } = await check("short", 30);
    expect(programs).toBeGreaterThan(25);
    // Only what @stdlib reduces, or what an elementary function leaves to itself, goes back to the plain path.
    expect(left / (equal + left)).toBeLessThan(0.05);
  });

  test("400 of them", LONG, async () => {
    const { programs } = await check("long", 400);
    expect(programs).toBeGreaterThan(360);
  });
});
