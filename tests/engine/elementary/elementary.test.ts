import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { elementary } from "../../../engine/index.ts";

const functions = Object.fromEntries(Object.entries(elementary)) as typeof elementary;
type Name = keyof typeof elementary;

const reference = JSON.parse(readFileSync(new URL("../../reference/elementary.json", import.meta.url), "utf8")) as {
  readonly values: Readonly<Record<Name, readonly (readonly number[])[]>>;
};

/** The distance from |x| to the next larger double. */
function ulp(x: number): number {
  const view = new DataView(new ArrayBuffer(8));
  view.setFloat64(0, Math.abs(x));
  view.setBigUint64(0, view.getBigUint64(0) + 1n);
  return view.getFloat64(0) - Math.abs(x);
}

/**
 * Where more than one unit is accepted: functions put together from two rounded parts, half a unit more. (Found here:
 * asin 1.10, atan2 1.33, hypot 1.46; every other function stays within one.)
 */
const LIMITS: Partial<Record<Name, number>> = { asin: 1.5, atan2: 1.5, hypot: 1.5 };

// Source of every figure: tests/reference/elementary.py (mpmath, 60 digits).
describe("elementary functions are within about one unit of the last place", () => {
  test.each(Object.keys(elementary) as Name[])("%s", (name) => {
    const rows = reference.values[name];
    expect(rows.length).toBeGreaterThanOrEqual(200);
    const f = functions[name] as (...x: number[]) => number;
    let worst = 0;
    let where = "";
    for (const row of rows) {
      const [high, low] = row.slice(-2) as [number, number];
      const error = Math.abs(f(...row.slice(0, -2)) - high - low) / ulp(high);
      if (error > worst) {
        worst = error;
        where = row.slice(0, -2).join(", ");
      }
    }
    expect(worst, `at ${where}`).toBeLessThanOrEqual(LIMITS[name] ?? 1);
  });
});
