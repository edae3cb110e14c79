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

/** A contribution whose label is a plain text too. */
export interface PlainContribution extends DrawnContribution {
  readonly plain: string;
}

/** The contributions of a budget that are drawn, the largest first; `null` if nothing contributes, or one input alone. */
export function drawnContributions(
  record: Pick<RunRecord, "inputs">,
  measurand: Readable,
  { messages, numbers }: Speech,
): readonly PlainContribution[] | null {
  const { contributionPlaces } = measurand;
  const at = (size: number): string => numbers.fixed(size, contributionPlaces);
  const all = budgetRows(record, measurand, numbers)
    .map(({ input, line }): PlainContribution => ({
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
  const others = fillText(messages.budget.pictureOthers, { count: numbers.whole(rest.length) });
  return [
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
}

/** Whether the shares of a budget add up to all of u². */
export const addUp = ({ linear }: Pick<Readable, "linear">): boolean =>
  linear.correlatedTerms.every(({ coefficient }) => coefficient === 0);

/** The contributions of a budget as a picture; `null` as for {@link drawnContributions}. */
export function contributionsOf(
  record: Pick<RunRecord, "inputs">,
  measurand: Readable,
  speech: Speech,
  width: number,
): Scene | null {
  const { messages, numbers } = speech;
  const words = messages.budget;
  const { unit, symbol } = measurand;
  const drawn = drawnContributions(record, measurand, speech);
  if (drawn === null) return null;
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
      cumulative: addUp(measurand),
      titles: [
        labelOf(words.pictureBelow, { c: { symbol: "c_i" }, u, x: { symbol: "x_i" }, unit: dividedBy(unit) }),
        labelOf(words.pictureAbove, { u, y }),
      ],
      width,
    },
    numbers,
  );
}
