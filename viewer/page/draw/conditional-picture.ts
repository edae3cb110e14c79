import { area, line } from "d3";
import type { ConditionalBin, ConditionalPicture } from "../../../engine/index.ts";
import { axisBelow, axisLeft, roomForTicks, scaleOver } from "./axis.ts";
import { svg, type Child } from "./node.ts";

export interface OutputAgainstInput {
  readonly name: string;
  readonly picture: ConditionalPicture;
  /** The linear budget's line: through both estimates with the sensitivity coefficient as slope. */
  readonly line: { readonly input: number; readonly output: number; readonly slope: number };
  readonly width: number;
  readonly titles: readonly [below: Child, left: Child];
}

const HEAD = 12;
const TOP = HEAD + 16;
const HEIGHT = 190;
const TICKS = 4;

/** The measurand against one input: trials as dots, their mean and 5 % to 95 % band, the budget's straight line dashed. */
export function conditionalPicture({
  name,
  picture,
  line: straight,
  width,
  titles,
}: OutputAgainstInput): SVGSVGElement {
  const { bins, points } = picture;
  const inputs = [...points.map(([input]) => input), ...bins.flatMap(({ from, to }) => [from, to])];
  const outputs = [...points.map(([, output]) => output), ...bins.flatMap(({ low, high }) => [low, high])];
  const span = (values: readonly number[]): [number, number] => {
    const [from, to] = [Math.min(...values), Math.max(...values)];
    const margin = 0.04 * (to - from) || 1;
    return [from - margin, to + margin];
  };
  const bottom = TOP + HEIGHT;
  const y = scaleOver(span(outputs), [bottom, TOP]);
  const x = scaleOver(span(inputs), [roomForTicks(y, TICKS), width - 12]);
  const total = bottom + 44;
  const band = area<ConditionalBin>(
    ({ at }) => x(at),
    ({ low }) => y(low),
    ({ high }) => y(high),
  ).digits(1);
  const means = line<ConditionalBin>(
    ({ at }) => x(at),
    ({ mean }) => y(mean!),
  )
    .digits(1)
    .defined(({ mean }) => mean !== null);
  const [from, to] = x.domain() as [number, number];
  const [least, most] = y.domain() as [number, number];
  const at = (input: number): number => straight.output + straight.slope * (input - straight.input);
  // Cut where it leaves the picture.
  const ends =
    straight.slope === 0
      ? [from, to]
      : [least, most]
          .map((output) => straight.input + (output - straight.output) / straight.slope)
          .sort((a, b) => a - b);
  const [start, stop] = [Math.max(from, ends[0]!), Math.min(to, ends[1]!)];
  return svg(
    "svg",
    { class: "conditional", width, height: total, viewBox: `0 0 ${width} ${total}`, role: "img", "aria-label": name },
    svg("text", { class: "axis-title", x: 0, y: HEAD }, titles[1]),
    axisLeft(y, x.range()[0]!, x.range()[1]!, TICKS),
    svg("path", { class: "trials-area", d: band(bins) ?? "" }),
    points.map(([input, output]) =>
      svg("circle", { class: "trials-dot", cx: x(input).toFixed(1), cy: y(output).toFixed(1), r: 1.25 }),
    ),
    svg("path", { class: "trials-line", d: means(bins) ?? "" }),
    svg("path", {
      class: "linear-line",
      d:
        stop > start
          ? `M${x(start).toFixed(1)} ${y(at(start)).toFixed(1)}L${x(stop).toFixed(1)} ${y(at(stop)).toFixed(1)}`
          : "",
    }),
    axisBelow(x, bottom, width),
    svg(
      "text",
      { class: "axis-title", x: (x.range()[0]! + x.range()[1]!) / 2, y: bottom + 36, "text-anchor": "middle" },
      titles[0],
    ),
  );
}
