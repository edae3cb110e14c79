import type { Numbers } from "../numbers.ts";
import { axisBelow, scaleOver, tickTexts } from "./axis.ts";
import { circle, group, path, px, rect, text, type Label, type Mark, type Scene } from "./scene.ts";

/** An input's part in a budget. */
export interface DrawnContribution {
  readonly label: Label;
  /** |c·u(x)|, in the unit of the measurand. */
  readonly size: number;
  /** The same as text, for beside the bar. */
  readonly text: string;
  /** Part of u². */
  readonly share: number;
}

export interface ContributionsPicture {
  readonly name: string;
  /** The largest first. */
  readonly contributions: readonly DrawnContribution[];
  /** Whether the shares add up to all of u²: with correlated inputs they do not, and no sum is drawn. */
  readonly cumulative: boolean;
  readonly titles: readonly [below: Label, above: Label];
  readonly width: number;
}

const ROW = 24;
const BAR = 12;
/** Room for the symbols, and for a figure beside the longest bar. */
const LEFT = 84;
const RIGHT = 76;

/**
 * Contributions as bars, the largest first, and over them, on a scale of its own above, how much of u² is reached with each:
 * where the line grows no more, a better input changes nothing.
 */
export function contributionsScene(
  { name, contributions, cumulative, titles, width }: ContributionsPicture,
  numbers: Numbers,
): Scene {
  const top = cumulative ? 44 : 8;
  const bottom = top + ROW * contributions.length + 4;
  const most = Math.max(...contributions.map(({ size }) => size));
  const range: [number, number] = [LEFT, Math.max(LEFT + 60, width - RIGHT)];
  const x = scaleOver([0, most > 0 ? most : 1], range);
  const s = scaleOver([0, 1], range);
  const middle = (i: number): number => top + ROW * i + ROW / 2;
  let sum = 0;
  const reached = contributions.map(({ share }) => Math.min(1, (sum += share)));
  const above: Mark[] = cumulative
    ? [
        text("axis-title", (range[0] + range[1]) / 2, 12, titles[1], "middle"),
        group("axis", [
          path("", `M${px(range[0])} ${top - 4.5}H${px(range[1])}`),
          ...tickTexts(scaleOver([0, 100], range), 4, numbers).flatMap(({ value, text: words }): Mark[] => [
            path("gridline", `M${px(s(value / 100))} ${top - 4}V${bottom}`),
            text("", s(value / 100), top - 10, words, "middle"),
          ]),
        ]),
      ]
    : [];
  const line = reached.map((share, i) => `${px(s(share))} ${px(middle(i))}`).join("L");
  return {
    class: "contributions",
    width,
    height: bottom + 44,
    name,
    marks: [
      ...above,
      ...contributions.flatMap(({ label, size, text: words }, i): Mark[] => [
        text("row-label", LEFT - 8, middle(i) + 4, label, "end"),
        rect("contribution", range[0], middle(i) - BAR / 2, Math.max(1, x(size) - range[0]), BAR),
        text("halo", x(size) + 6, middle(i) + 4, words),
      ]),
      ...(cumulative
        ? [
            path("cumulative", `M${line}`),
            ...reached.map((share, i) => circle("cumulative-mark", s(share), middle(i), 3)),
          ]
        : []),
      axisBelow(x, bottom, width, numbers),
      text("axis-title", (range[0] + range[1]) / 2, bottom + 36, titles[0], "middle"),
    ],
  };
}
