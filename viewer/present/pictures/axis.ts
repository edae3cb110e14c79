import { scaleLinear, type ScaleLinear } from "d3";
import type { Numbers } from "../numbers.ts";
import { group, path, px, text, type Mark } from "./scene.ts";

export type Scale = ScaleLinear<number, number>;

/** A linear scale from values to places along a picture. */
export const scaleOver = (domain: readonly [number, number], range: readonly [number, number]): Scale =>
  scaleLinear(domain, range);

export interface Tick {
  readonly value: number;
  readonly text: string;
}

/** Round values for ticks with texts that all have the places their step needs. */
export function tickTexts(scale: Scale, count: number, numbers: Numbers): Tick[] {
  const values = scale.ticks(Math.max(2, count));
  const step = values.length > 1 ? Math.abs(values[1]! - values[0]!) : 1;
  const decimals = Math.max(0, -Math.floor(Math.log10(step) + 1e-9));
  return values.map((value) => ({ value, text: numbers.fixed(value, decimals) }));
}

/** About the width of a digit in the texts of an axis. */
const DIGIT = 6.4;
const room = ({ text: words }: Tick): number => DIGIT * words.length;

/** Width that the texts of a vertical axis take, with the space to the axis. */
export const roomForTicks = (scale: Scale, count: number, numbers: Numbers): number =>
  12 + DIGIT * Math.max(...tickTexts(scale, count, numbers).map(({ text: words }) => words.length));

/**
 * A horizontal axis along the line `y` of a picture `width` wide: a rule, short ticks below and their values, as many
 * as stand clear of each other and of the edges.
 */
export function axisBelow(scale: Scale, y: number, width: number, numbers: Numbers): Mark {
  const [from, to] = scale.range() as [number, number];
  let count = Math.floor((to - from) / 70);
  let ticks = tickTexts(scale, count, numbers);
  while (count > 2 && ticks.length * (Math.max(...ticks.map(room)) + 28) > to - from)
    ticks = tickTexts(scale, (count -= 1), numbers);
  return group("axis", [
    path("", `M${px(from)} ${px(y + 0.5)}H${px(to)}`),
    ...ticks.flatMap((tick): Mark[] => {
      const x = Math.round(scale(tick.value)) + 0.5;
      const fits = x - room(tick) / 2 >= 0 && x + room(tick) / 2 <= width;
      return [path("", `M${x} ${px(y)}v5`), ...(fits ? [text("", x, y + 18, tick.text, "middle")] : [])];
    }),
  ]);
}

/** A vertical axis at `x` with faint lines across to `right`. */
export const axisLeft = (scale: Scale, x: number, right: number, count: number, numbers: Numbers): Mark =>
  group(
    "axis",
    tickTexts(scale, count, numbers).flatMap(({ value, text: words }): Mark[] => {
      const y = Math.round(scale(value)) + 0.5;
      return [path("gridline", `M${px(x)} ${y}H${px(right)}`), text("", x - 7, y + 4, words, "end")];
    }),
  );
