import type { AssessmentRecord, ConformityRecord } from "../../../engine/index.ts";
import { chanceText, leastOfTrials } from "../chance.ts";
import { withUnit, type Numbers } from "../numbers.ts";
import { labelOf } from "../pictures/label.ts";
import type { Readable } from "../readable.ts";
import type { Speech } from "../statement.ts";
import { fillText } from "../fill.ts";
import type { Cell, Row, Table } from "./table.ts";

/** A limit as it was stated: rounding to the uncertainty would move it; 12 digits leave out what binary sums add. */
export const statedLimit = (value: number, numbers: Pick<Numbers, "plain">): string =>
  numbers.plain(Number(value.toPrecision(12)));

/** "from −0.22 to 0.22 °C", "at most 0.1 °C". */
export function requirementText(
  { lower, upper }: ConformityRecord["tolerance"],
  unit: string,
  { messages, numbers }: Speech,
): string {
  const words = messages.conformity;
  const stated = (value: number): string => withUnit(statedLimit(value, numbers), unit);
  if (lower === null) return fillText(words.atMost, { upper: stated(upper!) });
  if (upper === null) return fillText(words.atLeast, { lower: stated(lower) });
  return fillText(words.between, { lower: statedLimit(lower, numbers), upper: stated(upper) });
}

/** Decision and risks of both methods (JCGM 106). */
export function conformityTable(measurand: Readable, found: ConformityRecord, speech: Speech): Table {
  const { messages, numbers } = speech;
  const words = messages.conformity;
  const { unit, symbol, places, monteCarlo } = measurand;
  const y = { symbol };
  const { tolerance } = found;
  const at = (value: number): string => withUnit(numbers.fixed(value, places), unit);
  const orNone = <T>(value: T | null, text: (value: T) => string): string =>
    value === null ? messages.notApplicable : text(value);
  const row = (head: Row["head"], text: (of: AssessmentRecord) => Cell): Row => ({
    head,
    cells: [text(found.linear), text(found.monteCarlo)],
  });
  // A tail that no trial reached is known only to lie below what this many trials can show.
  const chance = (of: AssessmentRecord, value: number, rest: number): string =>
    chanceText(
      of === found.monteCarlo ? { value, rest, least: leastOfTrials(monteCarlo.trials) } : { value, rest },
      numbers,
    );
  const alone = (value: number): string => chanceText({ value, rest: 1 - value }, numbers);
  const some = (value: (of: AssessmentRecord) => unknown): boolean =>
    value(found.linear) !== null || value(found.monteCarlo) !== null;
  const conforming = (of: AssessmentRecord): Cell => {
    const { probabilityOfConformity: p, below, above, standardError } = of;
    const text = chance(of, p, below + above);
    return standardError === null || standardError === 0 || /^[<>]/.test(text)
      ? text
      : { text, note: `±\u00a0${withUnit(numbers.significant(100 * standardError, 2), "%")}` };
  };
  const risks = (["consumer", "producer"] as const).filter(
    (bearer) => found.linear.specificRisk.bearer === bearer || found.monteCarlo.specificRisk.bearer === bearer,
  );
  const risk =
    (bearer: (typeof risks)[number]) =>
    (of: AssessmentRecord): Cell => {
      if (of.specificRisk.bearer !== bearer) return messages.notApplicable;
      const [conforms, fails] = [of.probabilityOfConformity, of.below + of.above];
      return bearer === "consumer" ? chance(of, fails, conforms) : chance(of, conforms, fails);
    };
  return {
    caption: labelOf(words.caption, { y }),
    columns: [
      { head: words.figure, kind: "head" },
      { head: messages.monteCarlo.linear, kind: "text", method: "linear" },
      { head: messages.monteCarlo.monteCarlo, kind: "text", method: "monte-carlo" },
    ],
    rows: [
      row(words.decision, ({ decision, firm }) =>
        firm === false ? { text: words[decision], note: `(${words.withinScatter})` } : words[decision],
      ),
      row(labelOf(words.estimate, { y }), ({ estimate }) => at(estimate)),
      row(labelOf(words.uncertainty, { u: { symbol: "u" }, y }), ({ standardUncertainty: u }) => orNone(u, at)),
      row(labelOf(words.expanded, { U: { symbol: "U" } }), ({ expandedUncertainty: U }) => at(U)),
      row(labelOf(words.guardBand, { w: { symbol: "w" } }), (of) => guardBands(of, tolerance, at, speech)),
      row(words.acceptance, (of) => acceptance(of, measurand, speech)),
      row(labelOf(words.probability, { p: { symbol: "p_c" } }), conforming),
      ...(tolerance.lower === null ? [] : [row(words.below, (of) => chance(of, of.below, 1 - of.below))]),
      ...(tolerance.upper === null ? [] : [row(words.above, (of) => chance(of, of.above, 1 - of.above))]),
      ...risks.map((bearer) => row(words[bearer], risk(bearer))),
      ...(some(({ measurementCapability }) => measurementCapability)
        ? [
            row(labelOf(words.capability, { C: { symbol: "C_m" } }), ({ measurementCapability: C }) =>
              orNone(C, (value) => numbers.fixed(value, 2)),
            ),
          ]
        : []),
      ...(some(({ posterior }) => posterior)
        ? [row(words.posterior, ({ posterior }) => orNone(posterior, (of) => alone(of.probabilityOfConformity)))]
        : []),
      ...(some(({ globalRisk }) => globalRisk)
        ? [
            row(words.globalConsumer, ({ globalRisk }) => orNone(globalRisk, ({ consumer }) => alone(consumer))),
            row(words.globalProducer, ({ globalRisk }) => orNone(globalRisk, ({ producer }) => alone(producer))),
          ]
        : []),
    ],
  };
}

function guardBands(
  { guardBand, guardBands: apart }: AssessmentRecord,
  { lower, upper }: ConformityRecord["tolerance"],
  at: (value: number) => string,
  { messages }: Speech,
): string {
  if (apart === undefined || lower === null || upper === null) return at(guardBand);
  const [low, high] = [at(apart.lower), at(apart.upper)];
  return low === high ? low : fillText(messages.conformity.guardBands, { lower: low, upper: high });
}

function acceptance(
  { acceptance: limits }: AssessmentRecord,
  { places, unit }: Readable,
  { messages, numbers }: Speech,
): string {
  const words = messages.conformity;
  if (limits === null) return words.nothing;
  const text = (value: number): string => numbers.fixed(value, places);
  const { lower, upper } = limits;
  if (lower === null)
    return upper === null ? messages.notApplicable : fillText(words.atMostSide, { upper: withUnit(text(upper), unit) });
  return upper === null
    ? fillText(words.atLeastSide, { lower: withUnit(text(lower), unit) })
    : withUnit(numbers.interval([text(lower), text(upper)]), unit);
}
