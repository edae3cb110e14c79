import { strFromU8, strToU8, unzipSync, zipSync } from "fflate";
import { expect } from "vitest";
import type { ReportedRecord } from "../../../engine/index.ts";
import { xlsxSheets } from "../../../server/intake/xlsx.ts";

type Rows = readonly (readonly unknown[])[];

/** The rows of each sheet, as a program that opens the file shows them. */
export async function sheetsOf(bytes: Uint8Array): Promise<{ readonly name: string; readonly rows: Rows }[]> {
  const { sheets, withoutValue } = await xlsxSheets(Buffer.from(bytes), "budget.xlsx");
  expect(withoutValue).toBe(0);
  return sheets.map(({ name, rows }) => ({ name, rows: rows.map(({ cells }) => cells) }));
}

/** The same workbook with its formulas alone, so that what a program shows of them it has computed. */
export function withoutValues(bytes: Uint8Array): Uint8Array {
  const files = unzipSync(bytes);
  for (const [path, content] of Object.entries(files)) {
    if (!path.includes("worksheets/")) continue;
    files[path] = strToU8(
      strFromU8(content)
        .replace(/ t="str"(><f>)/g, "$1")
        .replace(/(<\/f>)<v>[^<]*<\/v>/g, "$1"),
    );
  }
  return zipSync(files);
}

/**
 * Holds a budget's sheet against the record: its rows, and every computed figure.
 *
 * @param relative how far a computed figure may lie off
 * @param quantile how far k may lie off, and what follows from it: a program finds the quantile of t by its own search
 * @param kept how far a value may lie off that the program wrote anew: 0, or the rounding to the digits that it writes
 */
export function holdBudget(
  rows: Rows,
  record: ReportedRecord,
  name: string,
  { relative, kept, quantile }: { readonly relative: number; readonly kept: number; readonly quantile: number },
): void {
  const { linear, monteCarlo, validation } = record.measurands[name]!;
  const near = (found: unknown, wanted: number, what: string, within = relative): void => {
    expect(typeof found, `${what}: ${String(found)}`).toBe("number");
    expect(Math.abs((found as number) - wanted), `${what}: ${String(found)}, ${wanted}`).toBeLessThanOrEqual(
      within * Math.max(Math.abs(wanted), 1e-300),
    );
  };
  const scale = Math.max(...linear.contributions.map(({ contribution }) => Math.abs(contribution)));
  const heads = rows.findIndex((row) => row[5] === "u(x)");
  linear.contributions.forEach((line, i) => {
    const row = rows[heads + 1 + i]!;
    near(row[3], line.estimate, `estimate of ${line.input}`, kept);
    near(row[5], line.standardUncertainty, `u of ${line.input}`, kept);
    near(row[8], line.sensitivityCoefficient, `c of ${line.input}`, kept);
    near(row[10], line.contribution, `c·u of ${line.input}`);
    expect(row[12]).toBeCloseTo(line.share, 9);
  });
  const results = rows.findIndex((row) => row[1] === "Computed here") + 1;
  const figures = [
    linear.estimate,
    linear.standardUncertainty,
    linear.effectiveDegreesOfFreedom,
    monteCarlo.probability,
    linear.coverageFactor,
    linear.expandedUncertainty,
  ];
  // Contributions that cancel leave a u(y) that rounding reaches sooner.
  const lost = scale === 0 ? 1 : scale / (linear.standardUncertainty || scale);
  const within = (row: number): number => (row < 4 ? relative : Math.max(relative, quantile)) * lost * lost;
  figures.forEach((figure, i) => {
    const [, here, there, difference] = rows[results + i]!;
    if (figure === null) {
      expect([here, there]).toEqual(["∞", "∞"]);
      return;
    }
    near(there, figure, `row ${i}`, kept);
    expect(Math.abs((here as number) - figure), `row ${i}: ${String(here)}, ${figure}`).toBeLessThanOrEqual(
      within(i) * Math.abs(figure),
    );
    expect(Math.abs(difference as number)).toBeLessThanOrEqual(within(i));
  });
  const [low, high] = [rows[results + 6]!, rows[results + 7]!];
  // An endpoint is written with as many digits as any number.
  const ends = linear.expandedUncertainty * within(5) + Math.max(1e-15, kept) * Math.abs(linear.estimate);
  expect(Math.abs((low[1] as number) - linear.interval[0])).toBeLessThanOrEqual(ends);
  expect(Math.abs((high[1] as number) - linear.interval[1])).toBeLessThanOrEqual(ends);
  const trials = rows.findIndex((row) => row[1] === "Monte Carlo");
  [...monteCarlo.intervals.symmetric, ...monteCarlo.intervals.shortest].forEach((end, i) =>
    near(rows[trials + 3 + i]![1], end, `endpoint ${i}`, kept),
  );
  for (const [label, d] of [
    ["d_low", validation.dLow],
    ["d_high", validation.dHigh],
  ] as const) {
    const row = rows.find((cells) => cells[0] === label)!;
    expect(Math.abs((row[1] as number) - d)).toBeLessThanOrEqual(2 * ends + Math.max(1e-15, kept) * Math.abs(d));
    expect(row[3]).toBe(d <= validation.numericalTolerance ? "within δ" : "beyond δ");
  }
}
