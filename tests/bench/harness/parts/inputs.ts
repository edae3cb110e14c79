import { defineModel, prepare, propagate, readStudy, type Model } from "../../../../engine/index.ts";
import { spreadOf } from "../arithmetic.ts";
import { row, type Row } from "../row.ts";

const NUMBERS = [10, 100, 1000] as const;
/** The largest study is held to this. */
const TARGET = "≤1000";
/** Inputs of records that are timed whole: the most of which second-order terms are found for every pair, and of all. */
const OF_RECORDS = [100, 1000] as const;
/** A record of the most takes seconds. */
const ROUNDS_OF_MOST = 3;
const TRIALS = 10_000;

/** A sum of inputs, half normal and half rectangular, written as a person's own model would be. */
function sumOf(count: number): { readonly model: Model; readonly document: object } {
  const names = Array.from({ length: count }, (_, i) => `x${i}`);
  const quantity = (symbol: string): { symbol: string; meaning: string; unit: string } => ({
    symbol,
    meaning: `term ${symbol}`,
    unit: "K",
  });
  const evaluate = new Function("x", `return ${names.map((name) => `x.${name}`).join(" + ")};`) as (
    x: Readonly<Record<string, number>>,
  ) => number;
  return {
    model: defineModel({
      id: `sum-of-${count}`,
      title: `Sum of ${count} inputs`,
      measurands: { y: quantity("y") },
      inputs: Object.fromEntries(names.map((name) => [name, quantity(name)])),
      evaluate,
    }),
    document: {
      title: `Sum of ${count} inputs`,
      model: `sum-of-${count}`,
      trials: TRIALS,
      seed: "1",
      inputs: Object.fromEntries(
        names.map((name, i) => [
          name,
          i % 2 === 0
            ? { distribution: "normal", estimate: i, standardUncertainty: 1 }
            : { distribution: "rectangular", estimate: i, halfWidth: 1 },
        ]),
      ),
    },
  };
}

/** Studies of many inputs: what is spent before the first trial, and a whole record. On this thread. */
export function measureInputs(rounds: number): Row[] {
  const timed = (work: () => unknown, times = rounds): number[] => {
    work();
    return Array.from({ length: times }, () => {
      const start = performance.now();
      work();
      return performance.now() - start;
    });
  };
  const note = `one thread, median of ${rounds} rounds`;
  const rows = NUMBERS.map((count) => {
    const { model, document } = sumOf(count);
    const study = readStudy(document);
    const spread = spreadOf(timed(() => prepare(model, study)));
    const target = count === NUMBERS.at(-1) ? TARGET : null;
    return row("inputs", `${count} inputs: checked and linearised, before the first trial`, target, spread.median, {
      spread,
      unit: "ms",
      note,
    });
  });
  return [
    ...rows,
    ...OF_RECORDS.map((count) => {
      const { model, document } = sumOf(count);
      const times = count === OF_RECORDS[0] ? rounds : Math.min(rounds, ROUNDS_OF_MOST);
      const spread = spreadOf(timed(() => propagate(model, readStudy(document)), times));
      return row("inputs", `${count} inputs: the whole record of 10^4 trials`, null, spread.median, {
        spread,
        unit: "ms",
        note: `one thread, median of ${times} rounds`,
      });
    }),
  ];
}
