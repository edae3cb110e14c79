import type { ProbeEvaluation } from "../../../models/index.ts";
import { fillText } from "../fill.ts";
import { overUnit, type Numbers } from "../numbers.ts";
import { labelOf } from "../pictures/label.ts";
import type { Speech } from "../statement.ts";
import { inMilli, moment } from "../survey-figures.ts";
import type { Table } from "./table.ts";

/** Three digits behind the decimal sign of a mK: the microkelvin. */
const PLACES = 3;
const mK = (kelvin: number, numbers: Numbers): string => inMilli(kelvin, PLACES, numbers);

type CyclesShown = Pick<ProbeEvaluation, "probe" | "reference" | "sequence" | "together" | "timed"> & {
  readonly typeA: Pick<ProbeEvaluation["typeA"], "outliers">;
};
type MeanShown = Pick<ProbeEvaluation, "probe" | "reference" | "referenceMean" | "together"> & {
  readonly typeA: Pick<
    ProbeEvaluation["typeA"],
    "mean" | "standardDeviation" | "standardUncertainty" | "effectiveCount" | "count" | "basis"
  > & {
    /** `null` if they are infinitely many. */
    readonly degreesOfFreedom: number | null;
  };
};

/** Every cycle of a probe against the reference, or every pair if they were read together. */
export function cyclesTable(
  { probe, reference, sequence, typeA, together, timed }: CyclesShown,
  { messages, numbers }: Speech,
): Table {
  const words = messages.readings;
  if (together)
    return {
      caption: fillText(words.pairs, { probe, reference }),
      columns: [
        { head: words.pair, kind: "head" },
        ...(timed ? [{ head: words.from, kind: "text" } as const] : []),
        { head: overUnit(reference, "°C"), kind: "number" },
        { head: words.difference, kind: "number" },
        { head: words.note, kind: "text" },
      ],
      rows: sequence.cycles.map(({ from, reference: at, difference }, i) => ({
        head: numbers.whole(i + 1),
        cells: [
          ...(timed ? [moment(from, numbers)] : []),
          numbers.fixed(at, 5),
          mK(difference, numbers),
          typeA.outliers.flagged.includes(i) ? words.outlierPair : "",
        ],
      })),
    };
  return {
    caption: fillText(words.cycles, { probe, reference }),
    columns: [
      { head: words.cycle, kind: "head" },
      { head: words.from, kind: "text" },
      { head: overUnit(reference, "°C"), kind: "number" },
      { head: words.difference, kind: "number" },
      { head: words.drift, kind: "number" },
      { head: words.note, kind: "text" },
    ],
    rows: sequence.cycles.map(({ from, reference: at, difference, drift }, i) => ({
      head: numbers.whole(i + 1),
      cells: [
        moment(from, numbers),
        numbers.fixed(at, 5),
        mK(difference, numbers),
        mK(60 * drift, numbers),
        typeA.outliers.flagged.includes(i) ? words.outlier : "",
      ],
    })),
  };
}

/** The mean of a probe's differences, and what its uncertainty rests on. */
export function meanTable(
  { probe, reference, typeA, referenceMean, together }: MeanShown,
  { messages, numbers }: Speech,
): Table {
  const words = messages.readings;
  const number = (head: Table["caption"]): Table["columns"][number] => ({ head, kind: "number" });
  return {
    caption: fillText(words.mean, { probe }),
    columns: [
      { head: words.probe, kind: "head" },
      number(words.ofMean),
      number(labelOf(together ? words.deviationPair : words.deviation, { s: { symbol: "s" } })),
      number(labelOf(words.uncertainty, { u: { symbol: "u" } })),
      number(labelOf(words.freedom, { nu: { symbol: "ν" } })),
      { head: words.effective, kind: "text" },
      { head: words.dispersion, kind: "text" },
      number(fillText(words.referenceMean, { reference })),
    ],
    rows: [
      {
        head: probe,
        cells: [
          mK(typeA.mean, numbers),
          mK(typeA.standardDeviation, numbers),
          mK(typeA.standardUncertainty, numbers),
          numbers.freedom(typeA.degreesOfFreedom),
          fillText(words.effectiveOf, {
            effective: numbers.plain(Number(typeA.effectiveCount.toPrecision(3))),
            count: numbers.whole(typeA.count),
          }),
          typeA.basis,
          numbers.fixed(referenceMean, 5),
        ],
      },
    ],
  };
}
