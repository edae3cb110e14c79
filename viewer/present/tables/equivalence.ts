import type { LaboratoriesEvaluation, LaboratoryComparison } from "../../../models/index.ts";
import { fillText } from "../fill.ts";
import { decimalsFor, overUnit } from "../numbers.ts";
import { labelOf } from "../pictures/label.ts";
import type { Speech } from "../statement.ts";
import type { Row, Table } from "./table.ts";

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
  const { mean, alternative, reference } = found;
  const over = { unit: overUnit("", unit) };
  const row = (
    head: string,
    kind: LaboratoriesEvaluation["reference"]["kind"],
    value: { readonly value: number; readonly standardUncertainty: number; readonly between?: number },
  ): Row => ({
    head,
    cells: [
      numbers.fixed(value.value, places),
      numbers.fixed(value.standardUncertainty, places),
      value.between === undefined ? messages.none : numbers.fixed(value.between, places),
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
    ],
  };
}

/** Whether the results are consistent, and what follows, as sentences. */
export function consistencySentences(
  { mean, consistent, reference, laboratories }: LaboratoriesEvaluation,
  { significance }: LaboratoryComparison,
  { messages, numbers }: Speech,
): string[] {
  const words = messages.equivalence;
  return [
    ...(mean === null
      ? []
      : [
          fillText(consistent === true ? words.consistent : words.inconsistent, {
            count: numbers.whole(laboratories.filter(({ inReference }) => inReference).length),
            chi: numbers.significant(mean.chiSquare, 4),
            freedom: numbers.whole(mean.degreesOfFreedom),
            p: numbers.significant(mean.probability, 2),
            alpha: numbers.plain(significance),
            birge: numbers.fixed(mean.birgeRatio, 2),
          }),
        ]),
    reference.kind === "assigned" ? words.assignedTaken : words.correlated,
  ];
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
  const score = (value: number | null): string => (value === null ? messages.none : numbers.fixed(value, 2));
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
    ],
    rows: found.laboratories.map(
      ({
        name,
        inReference,
        value,
        standardUncertainty,
        difference,
        differenceExpanded,
        normalisedError,
        zeta,
        passes,
      }) => ({
        head: name,
        ...(inReference || found.reference.kind === "assigned" ? {} : { note: words.outside }),
        cells: [
          numbers.fixed(value, places),
          numbers.fixed(standardUncertainty, places),
          numbers.fixed(difference, places),
          numbers.fixed(differenceExpanded, places),
          score(normalisedError),
          score(zeta),
          passes === null ? messages.none : passes ? words.passes : words.fails,
        ],
      }),
    ),
  };
}
