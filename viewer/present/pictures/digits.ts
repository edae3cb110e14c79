import type { Numbers } from "../numbers.ts";
import { axisBelow, scaleOver } from "./axis.ts";
import { labelText } from "./label.ts";
import { circle, path, px, rect, text, type Label, type Mark, type Scene } from "./scene.ts";

/** An endpoint of the trials less that of the budget. */
export interface DrawnDifference {
  readonly label: Label;
  readonly difference: number;
  /** `null` where it is not known. */
  readonly standardError: number | null;
}

export interface DigitsPicture {
  readonly name: string;
  readonly differences: readonly [low: DrawnDifference, high: DrawnDifference];
  /** δ at one and at two significant digits of u(y), with its words. */
  readonly tolerances: readonly { readonly tolerance: number; readonly label: Label }[];
  readonly axisLabel: Label;
  readonly width: number;
}

const ROW = 34;
/** Room for the words of the rows: at least this much, so that pictures of one language stand alike. */
const LEFT = 84;
/** About the width of a letter. */
const LETTER = 5.1;

/**
 * Both endpoints' differences, with ± 2 standard errors, against the tolerance at one and at two significant digits: the
 * budget is validated at the digits within whose limits both marks lie (JCGM 101, 8.1).
 */
export function digitsScene(
  { name, differences, tolerances, axisLabel, width }: DigitsPicture,
  numbers: Numbers,
): Scene {
  const top = 20 + 16 * tolerances.length;
  const bottom = top + ROW * differences.length;
  const far = Math.max(
    ...tolerances.map(({ tolerance }) => 1.15 * tolerance),
    ...differences.map(({ difference, standardError }) => 1.1 * (Math.abs(difference) + 2 * (standardError ?? 0))),
  );
  const left = Math.max(LEFT, ...differences.map(({ label }) => 12 + LETTER * labelText(label).length));
  const x = scaleOver([-(far || 1), far || 1], [left, width - 12]);
  const within = ({ tolerance, label }: DigitsPicture["tolerances"][number], i: number): Mark[] => {
    const [from, to] = [x(-tolerance), x(tolerance)];
    const y = 12 + 16 * i;
    return [
      rect("tolerance-field", from, y + 6, to - from, bottom - y - 6),
      path("tolerance-edge", `M${px(from)} ${y + 6}V${bottom}M${px(to)} ${y + 6}V${bottom}`),
      text("halo", x(0), y, label, "middle"),
    ];
  };
  return {
    class: "digits-picture",
    width,
    height: bottom + 44,
    name,
    marks: [
      // The wider one first, so that the other lies upon it.
      ...tolerances
        .map((tolerance, i) => ({ tolerance, i }))
        .toSorted((a, b) => b.tolerance.tolerance - a.tolerance.tolerance)
        .flatMap(({ tolerance, i }) => within(tolerance, i)),
      path("linear-line", `M${px(x(0))} ${top - 4}V${bottom}`),
      ...differences.flatMap(({ label, difference, standardError }, i): Mark[] => {
        const y = top + ROW * i + ROW / 2;
        const reach = 2 * (standardError ?? 0);
        return [
          text("row-label", left - 8, y + 4, label, "end"),
          ...(reach > 0
            ? [path("trials-line", `M${px(x(difference - reach))} ${y}H${px(x(difference + reach))}`)]
            : []),
          circle("trials-rule", x(difference), y, 4),
        ];
      }),
      axisBelow(x, bottom, width, numbers),
      text("axis-title", (left + width - 12) / 2, bottom + 36, axisLabel, "middle"),
    ],
  };
}
