import type { FactorRecord, IndexRecord, RunRecord, SensitivityRecord } from "../../../engine/index.ts";
import { fillText } from "../fill.ts";
import { overUnit } from "../numbers.ts";
import { indexScale, indexScene } from "../pictures/index-bar.ts";
import { labelOf } from "../pictures/label.ts";
import type { Label } from "../pictures/scene.ts";
import type { Readable } from "../readable.ts";
import type { Speech } from "../statement.ts";
import { symbolOf } from "../symbol.ts";
import type { Cell, Row, Table } from "./table.ts";

/** The factors that vary, the largest total index first; by the linear share where there are none. */
export const rankedFactors = ({ factors }: SensitivityRecord): FactorRecord[] =>
  factors
    .filter(({ alone, linearShare }) => linearShare !== 0 || alone.standardUncertainty !== 0)
    .toSorted((a, b) => (b.total?.value ?? b.linearShare) - (a.total?.value ?? a.linearShare));

/** Shares of u²(y) that assume no linear model, beside those of the budget. */
export function sensitivityTable(
  { symbol, unit, places }: Readable,
  found: SensitivityRecord,
  { inputs }: Pick<RunRecord, "inputs">,
  { messages, numbers }: Speech,
): Table {
  const words = messages.sensitivity;
  const x = indexScale(found);
  const interval = ({ interval: [low, high] }: IndexRecord): string =>
    numbers.interval([numbers.percent(low), numbers.percent(high)]);
  const index = (name: string, of: IndexRecord | null, linear: number): Cell =>
    of === null
      ? messages.none
      : {
          text: numbers.percent(of.value),
          note: interval(of),
          value: of.value,
          picture: indexScene(
            fillText(words.pictureName, {
              index: name,
              value: numbers.percent(of.value),
              interval: interval(of),
              linear: numbers.percent(linear),
            }),
            of,
            linear,
            x,
          ),
        };
  const none = messages.notApplicable;
  const names = (members: readonly string[]): Label =>
    members.flatMap((member, i) => [...(i === 0 ? [] : [", "]), { symbol: symbolOf(inputs, member) }]);
  const u = { symbol: "u" };
  return {
    caption: labelOf(words.caption, { u, y: { symbol }, confidence: numbers.probability(found.confidence) }),
    columns: [
      { head: words.factor, kind: "head" },
      { head: words.linear, kind: "number", method: "linear" },
      { head: labelOf(words.firstOrder, { S: { symbol: "S" } }), kind: "number", method: "monte-carlo" },
      { head: labelOf(words.total, { T: { symbol: "T" } }), kind: "number", method: "monte-carlo" },
      { head: labelOf(words.alone, { u, unit: overUnit("", unit) }), kind: "number", fine: true },
    ],
    rows: rankedFactors(found).map(({ inputs: members, linearShare, firstOrder, total, alone }): Row => ({
      head: names(members),
      ...(members.length === 1 ? {} : { note: words.drawnTogether }),
      cells: [
        { text: numbers.percent(linearShare), value: linearShare },
        index(words.firstOrderName, firstOrder, linearShare),
        index(words.totalName, total, linearShare),
        alone.standardUncertainty === null ? messages.none : numbers.fixed(alone.standardUncertainty, places),
      ],
    })),
    ...(found.interaction === null
      ? {}
      : {
          total: [
            {
              head: words.interaction,
              cells: [
                none,
                {
                  text: numbers.percent(found.interaction.value),
                  note: interval(found.interaction),
                  value: found.interaction.value,
                },
                none,
                none,
              ],
            },
          ],
        }),
  };
}
