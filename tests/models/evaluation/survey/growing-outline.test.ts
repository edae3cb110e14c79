import { expect, test } from "vitest";
import { GrowingOutline } from "../../../../models/index.ts";

test("keeps its size, and the lowest and highest reading of every time", () => {
  const outline = new GrowingOutline(50);
  const values: number[] = [];
  for (let i = 0; i < 5000; i += 1) {
    values.push(((i * 7919) % 1000) / 1000);
    outline.take(i / 2, values[i]!);
  }
  const { times, lowest, highest } = outline.outline("T");
  expect(times.length).toBeLessThanOrEqual(50);
  expect(times.length).toBeGreaterThan(25);
  const width = times[1]! - times[0]!;
  times.forEach((middle, k) => {
    const own = values.filter((_, i) => i / 2 >= middle - width / 2 && i / 2 < middle + width / 2);
    expect([lowest[k], highest[k]]).toEqual([Math.min(...own), Math.max(...own)]);
  });
});

test("a silence leaves a gap", () => {
  const outline = new GrowingOutline(10);
  outline.take(0, 1);
  outline.take(100, 2);
  expect(outline.outline("T").times).toEqual([0.5, 100.5]);
});
