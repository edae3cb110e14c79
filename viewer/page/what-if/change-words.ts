import { distributionTitle } from "../../../engine/distributions/titles.ts";
import type { RunRecord } from "../../../engine/index.ts";
import { fillText } from "../../present/fill.ts";
import type { Messages } from "../../present/messages/messages.ts";
import { labelOf } from "../../present/pictures/label.ts";
import type { Label } from "../../present/pictures/scene.ts";
import { withUnit } from "../../present/numbers.ts";
import { plain } from "../numbers.ts";
import { widthFigure } from "./figure.ts";
import { statedFreedom, USUAL_FREEDOM, type Kind, type StudyChange } from "./study-change.ts";

type Words = Pick<Messages, "whatIfPanel" | "language">;

/** The name of a distribution on offer. */
export function kindWords(kind: Kind, { whatIfPanel, language }: Words, freedom = USUAL_FREEDOM): string {
  if (kind === "stated") return whatIfPanel.kindStated;
  return kind === "t"
    ? fillText(whatIfPanel.kindT, { freedom: freedomText(freedom) })
    : distributionTitle(kind, language);
}

/** A figure to three digits, in the input's own unit. */
export const widthText = (value: number, unit: string): string => withUnit(plain(Number(value.toPrecision(3))), unit);

/** An estimate with every digit that was typed, in the input's own unit. */
export const placeText = (value: number, unit: string): string => withUnit(plain(value), unit);

export const freedomText = (ν: number): string => (ν === Infinity ? "∞" : plain(Number(ν.toPrecision(3))));

/** What an input's place is called: a constant has a value, everything else an estimate. */
export const estimateWord = ({ study }: RunRecord, name: string, { whatIfPanel }: Words): string =>
  study.inputs[name]!.distribution === "constant" ? whatIfPanel.value : whatIfPanel.estimate;

/** What was changed, a line each, with symbols as print sets them; `labelText` gives the words alone. */
export function changeLabels(
  record: RunRecord,
  { inputs, correlations }: StudyChange,
  words: Words,
): readonly Exclude<Label, string>[] {
  const panel = words.whatIfPanel;
  const symbolOf = (name: string): { readonly symbol: string } => ({ symbol: record.inputs[name]!.symbol });
  return [
    ...Object.entries(inputs).map(([name, { kind, width, estimate, freedom }]) => {
      const x = symbolOf(name);
      const { distribution, estimate: before, unit } = record.inputs[name]!;
      const elsewhere =
        estimate === undefined
          ? []
          : [
              fillText(panel.madeElsewhere, {
                figure: estimateWord(record, name, words),
                before: placeText(before, unit),
                after: placeText(estimate, unit),
              }),
            ];
      if (width === 0) return labelOf(panel.madeOther, { x, changes: [...elsewhere, panel.exact].join(", ") });
      const figure = widthFigure(record, name, kind);
      const ν = statedFreedom(record.study.inputs[name]!, kind);
      return labelOf(panel.madeOther, {
        x,
        changes: [
          ...elsewhere,
          ...(kind === "stated" ? [] : [`${distribution} → ${kindWords(kind, words, freedom)}`]),
          ...(width === 1
            ? []
            : [
                fillText(panel.madeWider, {
                  figure: panel[figure.name],
                  before: widthText(figure.value, unit),
                  after: widthText(figure.value * width, unit),
                }),
              ]),
          ...(freedom === undefined || kind === "t"
            ? []
            : [fillText(panel.madeFree, { before: freedomText(ν ?? Infinity), after: freedomText(freedom) })]),
        ].join(", "),
      });
    }),
    ...Object.entries(correlations).map(([pair, r]) => {
      const [a, b] = pair.split(":") as [string, string];
      const before = record.study.correlations.find(({ between }) => between.includes(a) && between.includes(b));
      const coefficient = before?.coefficient ?? 0;
      return labelOf(panel.madeCorrelated, {
        a: symbolOf(a),
        b: symbolOf(b),
        before: typeof coefficient === "number" ? plain(coefficient) : String(coefficient),
        after: plain(r),
      });
    }),
  ];
}
