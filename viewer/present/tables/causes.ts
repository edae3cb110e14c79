import type { Cause, ExplanationRecord, RunRecord } from "../../../engine/index.ts";
import { fillText } from "../fill.ts";
import { overUnit, type Numbers } from "../numbers.ts";
import { labelOf } from "../pictures/label.ts";
import type { Move } from "../pictures/moves.ts";
import type { Label } from "../pictures/scene.ts";
import type { Readable } from "../readable.ts";
import type { Speech } from "../statement.ts";
import { symbolOf } from "../symbol.ts";
import { figureCell, textOfCell, type Cell, type Row, type Table } from "./table.ts";

export const CAUSES: readonly Cause[] = ["curvature", "shape", "degreesOfFreedom"];

/** Inputs named beside a cause. */
const MOST_NAMED = 4;

/** A move with its sign. */
export function signedText(value: number, places: number, { fixed }: Pick<Numbers, "fixed">): string {
  const text = fixed(value, places);
  return value > 0 && /[1-9]/.test(text) ? `+${text}` : text;
}

/** What moves one endpoint, cause by cause, and what is left over. */
export const movesAt = (
  { parts, remainder }: ExplanationRecord,
  end: 0 | 1,
  { messages: { validation: words } }: Speech,
): readonly Move[] => [
  ...CAUSES.map((cause) => ({ label: words[cause], by: parts[cause].shapley[end] })),
  { label: words.remainder, by: remainder[end] },
];

/** Where the Shapley values come from. */
export const sourceOfCauses = (
  { parts, trials }: ExplanationRecord,
  { messages: { validation: words }, numbers }: Speech,
): string =>
  fillText(parts.shape.byInput === undefined ? words.causesDrawn : words.causesExact, {
    trials: numbers.whole(trials),
  });

/** What each cause moves the endpoints by: its Shapley value, what it would do alone, and its share. */
export function causesTable(
  { symbol, unit, places }: Readable,
  found: ExplanationRecord,
  { inputs }: Pick<RunRecord, "inputs">,
  speech: Speech,
): Table {
  const { messages, numbers } = speech;
  const words = messages.validation;
  const none = messages.notApplicable;
  const pair = ([low, high]: readonly [number, number]): readonly Cell[] =>
    [low, high].map((value) => figureCell(signedText(value, places, numbers), value));
  const listed = (names: readonly string[]): Exclude<Label, string> =>
    names.flatMap((name, i) => [...(i === 0 ? [] : [", "]), { symbol: symbolOf(inputs, name) }]);
  const by = (names: readonly string[]): Label => [`${words.aboveAll} `, ...listed(names.slice(0, MOST_NAMED))];
  /** Its inputs, but those whose part rounds to nothing, if there are several. */
  const inputsOf = (cause: Cause): readonly Row[] => {
    const parts = (found.parts[cause].byInput ?? []).map((part) => ({ ...part, texts: pair(part.shapley) }));
    const counting = parts.filter(({ texts }) => texts.some((cell) => /[1-9]/.test(textOfCell(cell))));
    return parts.length < 2
      ? []
      : counting.map(({ inputs: names, texts }): Row => ({
          head: listed(names),
          cells: [...texts, none, none, none],
          part: true,
        }));
  };
  return {
    caption: labelOf(words.causesTable, { y: { symbol }, source: sourceOfCauses(found, speech) }),
    columns: [
      { head: overUnit(words.cause, unit), kind: "head" },
      { head: messages.monteCarlo.low, kind: "number" },
      { head: messages.monteCarlo.high, kind: "number" },
      { head: words.lowAlone, kind: "number" },
      { head: words.highAlone, kind: "number" },
      { head: words.shareOf, kind: "number" },
    ],
    rows: [
      ...CAUSES.flatMap((cause): readonly Row[] => {
        const { shapley, alone, share, inputs: names } = found.parts[cause];
        const parts = inputsOf(cause);
        return [
          {
            head: words[cause],
            ...(names.length === 0 || parts.length > 0 ? {} : { note: by(names) }),
            cells: [...pair(shapley), ...pair(alone), numbers.percent(share, 0)],
          },
          ...parts,
        ];
      }),
      { head: words.remainder, cells: [...pair(found.remainder), none, none, none] },
    ],
    total: [
      { head: words.difference, cells: [...pair(found.difference), none, none, none] },
      { head: words.interplay, cells: [...pair(found.interplay), none, none, none] },
    ],
  };
}
