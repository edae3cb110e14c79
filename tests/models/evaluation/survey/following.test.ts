import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { evaluateStability, StabilityFollower, thermometerLog, type Followed } from "../../../../models/index.ts";

interface Reference {
  readonly window: number;
  readonly limit: number;
  readonly times: readonly number[];
  readonly values: readonly number[];
  readonly states: readonly {
    readonly readings: number;
    readonly worst: { readonly from: number; readonly to: number; readonly halfRange: number } | null;
    readonly drift: number;
    readonly latest: number;
    readonly since: number | null;
    readonly steadyFrom: number;
  }[];
}

// By brute force over every window, and by numpy.polyfit: tests/reference/following.py.
const { window, limit, times, values, states } = JSON.parse(
  readFileSync(new URL("../../../reference/following.json", import.meta.url), "utf8"),
) as Reference;

const follow = (readings: number, criterion: number | null = limit): Followed => {
  const follower = new StabilityFollower({ window, criterion });
  for (let i = 0; i < readings; i++) follower.take(times[i]!, values[i]!);
  return follower.state()!;
};

describe("a bath followed reading by reading", () => {
  it.each(states)("after $readings readings as NumPy finds it", (expected) => {
    const state = follow(expected.readings);
    if (expected.worst === null) expect(state.worst).toBeNull();
    else {
      expect(state.worst).toEqual({
        from: expected.worst.from,
        to: expected.worst.to,
        halfRange: expect.closeTo(expected.worst.halfRange, 12) as number,
      });
    }
    // Slopes of some 1e-6 K/s from readings near 72 °C: both lose five digits of sixteen.
    expect(state.drift! / expected.drift).toBeCloseTo(1, 8);
    expect(state.latest.halfRange).toBeCloseTo(expected.latest, 12);
    expect(state.criterion!.since).toBe(expected.since);
    expect(state.criterion!.met).toBe(expected.since !== null);
    expect(state.criterion!.steadyFrom).toBe(expected.steadyFrom);
    expect(state.criterion!.remaining).toBeCloseTo(
      expected.since === null ? window - 10 - (state.to - expected.steadyFrom) : 0,
      9,
    );
  });

  it("finds the worst window that the evaluation of the whole log finds", () => {
    const { worst } = evaluateStability(thermometerLog("A", times, values), { calibration: 600, window });
    expect(follow(times.length, null).worst!.halfRange).toBeCloseTo(worst.halfRange, 12);
    expect(follow(times.length, null).gaps).toBe(1);
  });

  it("keeps no more than a window however long the log is, and says nothing before there is a reading", () => {
    const follower = new StabilityFollower({ window: 60, criterion: 0.001 });
    expect(follower.state()).toBeNull();
    for (let i = 0; i < 200_000; i++) follower.take(i, 20 + 0.0005 * (i % 2));
    expect(follower.state()).toMatchObject({
      samples: 200_000,
      criterion: { met: true, remaining: 0 },
      worst: { halfRange: expect.closeTo(0.00025, 9) as number },
    });
    expect(JSON.stringify(follower.state())).not.toContain("null,null");
  });
});
