import type { RunRecord } from "../../../engine/index.ts";
import { budgetRows } from "../budget.ts";
import { fillText } from "../fill.ts";
import { dividedBy, withUnit } from "../numbers.ts";
import type { Readable } from "../readable.ts";
import type { Speech } from "../statement.ts";
import { symbolText } from "../symbol.ts";
import { contributionsScene, type DrawnContribution } from "./contributions.ts";
import { labelOf } from "./label.ts";
import type { Scene } from "./scene.ts";

/** Most bars; the smaller contributions are one, the root of the sum of their squares. */
const MOST = 16;

/** The contributions of a budget as a picture; `null` if nothing contributes, or one input alone. */
export function contributionsOf(
  record: Pick<RunRecord, "inputs">,
  measurand: Readable,
  { messages, numbers }: Speech,
  width: number,
): Scene | null {
  const words = messages.budget;
  const { linear, unit, symbol, contributionPlaces } = measurand;
  const at = (size: number): string => numbers.fixed(size, contributionPlaces);
  const all = budgetRows(record, measurand, numbers)
    .map(({ input, line }): DrawnContribution & { readonly plain: string } => ({
      label: [{ symbol: input.symbol }],
      plain: symbolText(input.symbol),
      size: Math.abs(line.contribution),
      text: at(Math.abs(line.contribution)),
      share: line.share,
    }))
    .filter(({ size }) => size > 0)
    .toSorted((a, b) => b.size - a.size);
  if (all.length < 2) return null;
  const shown = all.length > MOST ? all.slice(0, MOST - 1) : all;
  const rest = all.slice(shown.length);
  const size = Math.sqrt(rest.reduce((sum, one) => sum + one.size * one.size, 0));
  const others = fillText(words.pictureOthers, { count: numbers.whole(rest.length) });
  const drawn = [
    ...shown,
    ...(rest.length === 0
      ? []
      : [
          {
            label: others,
            plain: others,
            size,
            text: at(size),
            share: rest.reduce((sum, one) => sum + one.share, 0),
          },
        ]),
  ];
  const y = { symbol };
  const u = { symbol: "u" };
  return contributionsScene(
    {
      name: fillText(words.pictureName, {
        u: "u",
        y: symbolText(symbol),
        list: numbers.list(drawn.map(({ plain, text }) => `${plain} ${withUnit(text, unit)}`)),
      }),
      contributions: drawn,
      cumulative: linear.correlatedTerms.every(({ coefficient }) => coefficient === 0),
      titles: [
        labelOf(words.pictureBelow, { c: { symbol: "c_i" }, u, x: { symbol: "x_i" }, unit: dividedBy(unit) }),
        labelOf(words.pictureAbove, { u, y }),
      ],
      width,
    },
    numbers,
  );
}
