import type { ControlLimits } from "../control-limits.ts";
import type { Numbers } from "../numbers.ts";
import { axisLeft, roomForTicks, scaleOver } from "./axis.ts";
import { circle, group, path, px, text, type Label, type Mark, type Scene } from "./scene.ts";

/** A figure of one run. */
export interface TrendPoint {
  /** The moment of the run, in milliseconds. */
  readonly at: number;
  readonly value: number;
  /** Half the length of its interval; `null` for a figure without one. */
  readonly half: number | null;
}

export interface TrendPicture {
  readonly name: string;
  readonly title: Label;
  /** In the order of time. */
  readonly points: readonly TrendPoint[];
  readonly limits: ControlLimits | null;
  readonly width: number;
}

const HEAD = 12;
const TOP = HEAD + 18;
const HEIGHT = 130;
const TICKS = 4;
/** Pixels that a day takes on the axis of time. */
const DAY = 92;

/** The day of a moment as the axis writes it. */
const dayOf = (at: number): string => new Date(at).toISOString().slice(0, 10);

/** A figure over time, run by run, between its control limits; a run outside them is a ring. */
export function trendScene({ name, title, points, limits, width }: TrendPicture, numbers: Numbers): Scene {
  const values = points.flatMap(({ value, half }) => [value - (half ?? 0), value + (half ?? 0)]);
  const all = [...values, ...(limits === null ? [] : [limits.lower, limits.upper])];
  const [least, most] = [Math.min(...all), Math.max(...all)];
  const margin = 0.06 * (most - least) || Math.abs(most) * 0.01 || 1;
  const bottom = TOP + HEIGHT;
  const y = scaleOver([least - margin, most + margin], [bottom, TOP]);
  const [first, last] = [points[0]!.at, points.at(-1)!.at];
  const aside = 0.03 * (last - first) || 1;
  const x = scaleOver([first - aside, last + aside], [roomForTicks(y, TICKS, numbers), width - 16]);
  const [left, right] = x.range() as [number, number];
  const days = Math.max(1, Math.min(points.length - 1, Math.floor((right - left) / DAY)));
  const dates =
    first === last ? [first] : Array.from({ length: days + 1 }, (_, i) => first + (i * (last - first)) / days);
  const across = (value: number, look: string): Mark => path(look, `M${px(left)} ${px(y(value))}H${px(right)}`);
  const outside = ({ value }: TrendPoint): boolean => limits !== null && (value < limits.lower || value > limits.upper);
  return {
    class: "trend",
    width,
    height: bottom + 30,
    name,
    marks: [
      text("axis-title", 0, HEAD, title),
      axisLeft(y, left, right, TICKS, numbers),
      ...(limits === null
        ? []
        : [
            across(limits.centre, "control-centre"),
            across(limits.lower, "control-limit"),
            across(limits.upper, "control-limit"),
          ]),
      path(
        "trend-line",
        points.map(({ at, value }, i) => `${i === 0 ? "M" : "L"}${px(x(at))} ${px(y(value))}`).join(""),
      ),
      ...points.flatMap((point): Mark[] => [
        ...(point.half === null
          ? []
          : [
              path(
                "trend-bar",
                `M${px(x(point.at))} ${px(y(point.value - point.half))}V${px(y(point.value + point.half))}`,
              ),
            ]),
        circle(
          outside(point) ? "trend-mark outside-limits" : "trend-mark",
          x(point.at),
          y(point.value),
          outside(point) ? 6 : 3.5,
        ),
      ]),
      group("axis", [
        path("", `M${px(left)} ${px(bottom + 0.5)}H${px(right)}`),
        ...dates.flatMap((at, i): Mark[] => {
          const place = Math.round(x(at)) + 0.5;
          const anchor = i === 0 ? "start" : i === dates.length - 1 ? "end" : "middle";
          // A day is named once.
          const named = i === 0 || dayOf(at) !== dayOf(dates[i - 1]!);
          return [
            path("", `M${place} ${px(bottom + 0.5)}v5`),
            ...(named ? [text("", place, bottom + 18, dayOf(at), anchor)] : []),
          ];
        }),
      ]),
    ],
  };
}
