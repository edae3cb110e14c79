import type { LaboratoriesEvaluation, LaboratoryComparison, WeightedMean } from "../../../models/index.ts";
import { fillText } from "../fill.ts";
import { decimalsFor, overUnit } from "../numbers.ts";
import { labelOf } from "../pictures/label.ts";
import type { Speech } from "../statement.ts";
import { figureCell, type Cell, type Row, type Table } from "./table.ts";

/** Two significant digits of the smallest uncertainty shown. */
const placesOf = ({ laboratories, reference }: LaboratoriesEvaluation): number =>
  Math.max(
    0,
    decimalsFor(
      Math.min(reference.standardUncertainty, ...laboratories.map(({ standardUncertainty }) => standardUncertainty)),
      2,
    ),
  );

/** The reference values that the results give, and which of them is taken. */
export function referenceTable(
  found: LaboratoriesEvaluation,
  { unit }: LaboratoryComparison,
  { messages, numbers }: Speech,
): Table {
  const words = messages.equivalence;
  const places = placesOf(found);
  const { mean, alternative, subset, median, reference } = found;
  const over = { unit: overUnit("", unit) };
  const fixed = (value: number) => figureCell(numbers.fixed(value, places), value);
  const row = (
    head: string,
    kind: LaboratoriesEvaluation["reference"]["kind"],
    value: { readonly value: number; readonly standardUncertainty: number; readonly between?: number },
  ): Row => ({
    head,
    cells: [
      fixed(value.value),
      fixed(value.standardUncertainty),
      value.between === undefined ? messages.none : fixed(value.between),
      reference.kind === kind ? words.yes : words.no,
    ],
  });
  return {
    caption: words.reference,
    columns: [
      { head: words.kind, kind: "head" },
      { head: fillText(words.value, over), kind: "number" },
      { head: labelOf(words.uncertainty, { u: { symbol: "u" }, ...over }), kind: "number" },
      { head: fillText(words.between, over), kind: "number" },
      { head: words.taken, kind: "text" },
    ],
    rows: [
      ...(reference.kind === "assigned" ? [row(words.assigned, "assigned", reference)] : []),
      ...(mean === null ? [] : [row(words.weightedMean, "weighted mean", mean)]),
      ...(alternative === null ? [] : [row(words.randomEffects, "random effects", alternative)]),
      ...(subset === null ? [] : [row(words.subset, "largest consistent subset", subset)]),
      ...(median === null ? [] : [row(words.median, "median", median)]),
    ],
  };
}

/** Whether the results are consistent, and what follows, as sentences. */
export function consistencySentences(
  { mean, consistent, subset, median, reference, laboratories }: LaboratoriesEvaluation,
  { significance }: LaboratoryComparison,
  { messages, numbers }: Speech,
): string[] {
  const words = messages.equivalence;
  const all = numbers.whole(laboratories.filter(({ inReference }) => inReference).length);
  const test = ({ chiSquare, degreesOfFreedom, probability }: Omit<WeightedMean, "weights">) => ({
    chi: numbers.significant(chiSquare, 4),
    freedom: numbers.whole(degreesOfFreedom),
    p: numbers.significant(probability, 2),
  });
  const found: string[] = [];
  if (mean !== null)
    found.push(
      fillText(consistent === true ? words.consistent : words.inconsistent, {
        count: all,
        ...test(mean),
        alpha: numbers.plain(significance),
        birge: numbers.fixed(mean.birgeRatio, 2),
      }),
    );
  if (consistent === false && subset === null) found.push(words.noSubset);
  if (subset !== null) {
    const { members, excluded, majority } = subset;
    const count = numbers.whole(members.length);
    found.push(
      [
        fillText(words.subsetFound, { count, all, ...test(subset), excluded: numbers.list(excluded) }),
        ...(majority ? [] : [words.minority]),
      ].join(" "),
    );
  }
  if (median !== null) found.push(fillText(words.medianFound, { u: "u", trials: numbers.whole(median.trials) }));
  found.push(
    {
      assigned: words.assignedTaken,
      "weighted mean": words.correlated,
      "random effects": words.correlatedByEffects,
      "largest consistent subset": words.correlatedInSubset,
      median: words.correlatedByTrials,
    }[reference.kind],
  );
  return found;
}

/** Every laboratory against the reference value. */
export function equivalenceTable(
  found: LaboratoriesEvaluation,
  { unit, coverageFactor }: LaboratoryComparison,
  { messages, numbers }: Speech,
): Table {
  const words = messages.equivalence;
  const places = placesOf(found);
  const over = { unit: overUnit("", unit) };
  const members =
    found.reference.kind === "largest consistent subset" && found.subset !== null
      ? new Set(found.subset.members)
      : null;
  const inside = (name: string, counts: boolean): boolean => members?.has(name) ?? counts;
  const fixed = (value: number) => figureCell(numbers.fixed(value, places), value);
  const score = (value: number | null): Cell =>
    value === null ? messages.none : figureCell(numbers.fixed(value, 2), value);
  return {
    caption: labelOf(words.degrees, { k: numbers.plain(coverageFactor) }),
    columns: [
      { head: words.laboratory, kind: "head" },
      { head: labelOf(words.result, { x: { symbol: "x" }, ...over }), kind: "number" },
      { head: labelOf(words.own, { u: { symbol: "u" }, ...over }), kind: "number" },
      { head: labelOf(words.difference, { D: { symbol: "D" }, ...over }), kind: "number" },
      { head: labelOf(words.expanded, { UD: { symbol: "U(D)" }, ...over }), kind: "number" },
      { head: [{ symbol: words.normalised }], kind: "number" },
      { head: [{ symbol: words.zeta }], kind: "number" },
      { head: words.verdict, kind: "text" },
      ...(found.reference.kind === "median"
        ? [{ head: labelOf(words.interval, { D: { symbol: "D" }, ...over }), kind: "text" } as const]
        : []),
    ],
    rows: found.laboratories.map(
      ({
        name,
        inReference,
        interval,
        value,
        standardUncertainty,
        difference,
        differenceExpanded,
        normalisedError,
        zeta,
        passes,
      }) => ({
        head: name,
        ...(found.reference.kind === "assigned" || inside(name, inReference) ? {} : { note: words.outside }),
        cells: [
          fixed(value),
          fixed(standardUncertainty),
          fixed(difference),
          fixed(differenceExpanded),
          score(normalisedError),
          score(zeta),
          passes === null ? messages.none : passes ? words.passes : words.fails,
          ...(interval === null
            ? []
            : [numbers.interval([numbers.fixed(interval[0], places), numbers.fixed(interval[1], places)])]),
        ],
      }),
    ),
  };
}
