import { area, line } from "d3";
import type { ConditionalBin, ConditionalPicture } from "../../../engine/index.ts";
import type { Numbers } from "../numbers.ts";
import { axisBelow, axisLeft, roomForTicks, scaleOver } from "./axis.ts";
import { circle, path, px, text, type Label, type Scene } from "./scene.ts";

export interface OutputAgainstInput {
  readonly name: string;
  readonly picture: ConditionalPicture;
  /** The linear budget's line: through both estimates with the sensitivity coefficient as slope. */
  readonly line: { readonly input: number; readonly output: number; readonly slope: number };
  readonly width: number;
  readonly titles: readonly [below: Label, left: Label];
}

const HEAD = 12;
const TOP = HEAD + 16;
const HEIGHT = 190;
const TICKS = 4;

/** The measurand against one input: trials as dots, their mean and 5 % to 95 % band, the budget's straight line dashed. */
export function conditionalScene(
  { name, picture, line: straight, width, titles }: OutputAgainstInput,
  numbers: Numbers,
): Scene {
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
  const x = scaleOver(span(inputs), [roomForTicks(y, TICKS, numbers), width - 12]);
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
  const [left, right] = x.range() as [number, number];
  return {
    class: "conditional",
    width,
    height: bottom + 44,
    name,
    marks: [
      text("axis-title", 0, HEAD, titles[1]),
      axisLeft(y, left, right, TICKS, numbers),
      path("trials-area", band(bins) ?? ""),
      ...points.map(([input, output]) => circle("trials-dot", x(input), y(output), 1.25)),
      path("trials-line", means(bins) ?? ""),
      path("linear-line", stop > start ? `M${px(x(start))} ${px(y(at(start)))}L${px(x(stop))} ${px(y(at(stop)))}` : ""),
      axisBelow(x, bottom, width, numbers),
      text("axis-title", (left + right) / 2, bottom + 36, titles[0], "middle"),
    ],
  };
}
