import { type Statement } from "../../../../engine/index.ts";
import { linearisedOf, readStatement, type LinearTerm } from "../../../../engine/internal.ts";
import { spreadOf } from "../arithmetic.ts";
import { row, type Row } from "../row.ts";

/** Sums of each size that are convolved before the clock starts, and within each round. */
const WARMING = 20;
const EACH = 5;

const normal = (standardUncertainty: number): Statement => ({
  distribution: "normal",
  estimate: 0,
  standardUncertainty,
});
const rectangular = (halfWidth: number): Statement => ({ distribution: "rectangular", estimate: 0, halfWidth });
const t = (standardUncertainty: number, degreesOfFreedom: number): Statement => ({
  distribution: "t",
  estimate: 0,
  standardUncertainty,
  degreesOfFreedom,
});

/** Half normals, a third rectangulars and two t, as a bath comparison has them. */
const TWELVE: readonly Statement[] = [
  ...[1, 0.2, 0.4, 0.1, 0.7, 0.02].map(normal),
  ...[Math.sqrt(3), 0.5, 0.3, 0.05].map(rectangular),
  t(1, 5),
  t(0.3, 8),
];

/** Twenty each of normals, rectangulars and t. */
const SIXTY: readonly Statement[] = Array.from({ length: 20 }, (_, i) => [
  normal(1 + (i % 5)),
  rectangular(1 + (i % 7)),
  t(0.2 + (i % 4), 4 + (i % 9)),
]).flat();

const termsOf = (statements: readonly Statement[]): LinearTerm[] =>
  statements.map((statement) => {
    const { distribution, budget } = readStatement(statement, "inputs.x");
    return { inputs: ["x"], distribution, coefficient: 1, centre: budget.estimate, twin: budget.standardUncertainty };
  });

/** The endpoints of a sum by convolution, from the terms on, on this thread alone. */
export function measureConvolution(rounds: number): Row[] {
  return (
    [
      ["12 inputs", TWELVE, "≤10"],
      ["60 inputs", SIXTY, "≤40"],
    ] as const
  ).map(([words, statements, target]) => {
    const terms = termsOf(statements);
    const convolve = (): number | null => {
      const found = linearisedOf(terms, { probability: 0.95, tolerance: 1e-4 });
      return found.kind === "distribution" ? found.cells : null;
    };
    for (let i = 0; i < WARMING; i++) convolve();
    const milliseconds = Array.from({ length: rounds }, () => {
      const start = performance.now();
      for (let i = 0; i < EACH; i++) convolve();
      return (performance.now() - start) / EACH;
    });
    const spread = spreadOf(milliseconds);
    return row("convolution", `linearised model, ${words}: both 95 % endpoints`, target, spread.median, {
      spread,
      unit: "ms",
      note: `${convolve()} cells, median of ${rounds} rounds on one thread`,
    });
  });
}
