import { scaleLinear, type ScaleLinear } from "d3";
import { fixed } from "../../present/numbers.ts";
import { svg, type Child } from "./node.ts";

export type Scale = ScaleLinear<number, number>;

/** A linear scale from values to places along a picture. */
export const scaleOver = (domain: readonly [number, number], range: readonly [number, number]): Scale =>
  scaleLinear(domain, range);

/** Round values for ticks with texts that all have the same places. */
export function tickTexts(scale: Scale, count: number): { readonly value: number; readonly text: string }[] {
  const values = scale.ticks(Math.max(2, count));
  const step = values.length > 1 ? Math.abs(values[1]! - values[0]!) : 1;
  const decimals = Math.max(0, -Math.floor(Math.log10(step) + 1e-9));
  return values.map((value) => ({ value, text: fixed(value, decimals) }));
}

/** Width that the texts of a vertical axis take, with the space to the axis. */
export const roomForTicks = (scale: Scale, count: number): number =>
  12 + DIGIT * Math.max(...tickTexts(scale, count).map(({ text }) => text.length));

/** About the width of a digit in the texts of an axis. */
const DIGIT = 6.4;
const room = ({ text }: { readonly text: string }): number => DIGIT * text.length;

/**
 * A horizontal axis along the line `y` of a picture `width` wide: a rule, short ticks below and their values, as many
 * as stand clear of each other and of the edges.
 */
export function axisBelow(scale: Scale, y: number, width: number): SVGGElement {
  const [from, to] = scale.range() as [number, number];
  let count = Math.floor((to - from) / 70);
  let ticks = tickTexts(scale, count);
  while (count > 2 && ticks.length * (Math.max(...ticks.map(room)) + 28) > to - from)
    ticks = tickTexts(scale, (count -= 1));
  return svg(
    "g",
    { class: "axis", transform: `translate(0 ${y})` },
    svg("path", { d: `M${from} .5H${to}` }),
    ticks.map((tick): Child => {
      const x = Math.round(scale(tick.value)) + 0.5;
      const fits = x - room(tick) / 2 >= 0 && x + room(tick) / 2 <= width;
      return [
        svg("path", { d: `M${x} 0v5` }),
        fits ? svg("text", { x, y: 18, "text-anchor": "middle" }, tick.text) : null,
      ];
    }),
  );
}

/** A vertical axis at `x` with faint lines across to `right`. */
export function axisLeft(scale: Scale, x: number, right: number, count: number): SVGGElement {
  return svg(
    "g",
    { class: "axis" },
    tickTexts(scale, count).map(({ value, text }): Child => {
      const y = Math.round(scale(value)) + 0.5;
      return [
        svg("path", { class: "gridline", d: `M${x} ${y}H${right}` }),
        svg("text", { x: x - 7, y: y + 4, "text-anchor": "end" }, text),
      ];
    }),
  );
}
