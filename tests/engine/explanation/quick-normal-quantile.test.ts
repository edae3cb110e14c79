import { expect, test } from "vitest";
import { normalQuantile } from "../../../engine/numerics/standard-normal.ts";
import { quickNormalQuantile } from "../../../engine/explanation/quick-normal-quantile.ts";

test("seven digits of the exact quantile, from 10⁻³⁰⁰ to the nearest number below 1 (AS 241: 1 part in 10⁷)", () => {
  const probabilities = [1e-300, 1e-100, 1e-30, 1e-16, 1 - 2 ** -53, 0.075, 0.925, 0.5];
  for (let i = 1; i < 4000; i++) probabilities.push(i / 4000, Number(`1e-${(i % 40) + 1}`) * (1 + i / 4000));
  for (const p of probabilities) {
    const exact = normalQuantile(p);
    expect(Math.abs(quickNormalQuantile(p) - exact), `${p}`).toBeLessThanOrEqual(
      2e-7 * Math.max(Math.abs(exact), 1e-3),
    );
  }
});
