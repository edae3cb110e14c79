import { distributionTitle } from "../../../engine/distributions/titles.ts";
import type { RunRecord } from "../../../engine/index.ts";
import { fillText } from "../../present/fill.ts";
import type { Messages } from "../../present/messages/messages.ts";
import { labelOf } from "../../present/pictures/label.ts";
import type { Label } from "../../present/pictures/scene.ts";
import { plain, withUnit } from "../../present/numbers.ts";
import { widthFigure } from "./figure.ts";
import type { Kind, StudyChange } from "./study-change.ts";

type Words = Pick<Messages, "whatIfPanel" | "language">;

/** The name of a distribution on offer. */
export function kindWords(kind: Kind, { whatIfPanel, language }: Words): string {
  if (kind === "stated") return whatIfPanel.kindStated;
  return kind === "t" ? whatIfPanel.kindT : distributionTitle(kind, language);
}

/** A figure to three digits, in the input's own unit. */
export const widthText = (value: number, unit: string): string => withUnit(plain(Number(value.toPrecision(3))), unit);

/** What was changed, a line each, with symbols as print sets them; `labelText` gives the words alone. */
export function changeLabels(
  record: RunRecord,
  { inputs, correlations }: StudyChange,
  words: Words,
): readonly Exclude<Label, string>[] {
  const panel = words.whatIfPanel;
  const symbolOf = (name: string): { readonly symbol: string } => ({ symbol: record.inputs[name]!.symbol });
  return [
    ...Object.entries(inputs).map(([name, { kind, width }]) => {
      const x = symbolOf(name);
      if (width === 0) return labelOf(panel.madeExact, { x });
      const { distribution, unit } = record.inputs[name]!;
      const figure = widthFigure(record, name, kind);
      return labelOf(panel.madeOther, {
        x,
        changes: [
          ...(kind === "stated" ? [] : [`${distribution} → ${kindWords(kind, words)}`]),
          ...(width === 1
            ? []
            : [
                fillText(panel.madeWider, {
                  figure: panel[figure.name],
                  before: widthText(figure.value, unit),
                  after: widthText(figure.value * width, unit),
                }),
              ]),
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
