import type { MeasurandRecord } from "../../../engine/index.ts";
import { axisBelow, axisLeft, roomForTicks, scaleOver } from "../draw/axis.ts";
import { DENSITY_TICKS } from "../../present/pictures/density.ts";
import { densities, middleOf } from "../../present/pictures/histogram.ts";
import { svg } from "../draw/node.ts";
import { fillText } from "../../present/fill.ts";
import { messages } from "../language.ts";
import { overUnit, quotientUnit } from "../../present/numbers.ts";
import { symbolSpan } from "../draw/symbol.ts";

const TOP = 26;
const HEIGHT = 220;
const LANE = 30;

/**
 * What the trials of two runs show of the same measurand: the first filled, the second an open outline in ink, so that
 * neither hides the other and grey print keeps them apart. Below, each run's interval.
 *
 * @param width in CSS pixels
 */
export function overlay(
  a: MeasurandRecord,
  b: MeasurandRecord,
  names: readonly [string, string],
  interval: readonly ["symmetric" | "shortest", "symmetric" | "shortest"],
  width: number,
): SVGSVGElement {
  const measurands = [a, b] as const;
  const intervals = measurands.map(({ monteCarlo }, i) => monteCarlo.intervals[interval[i]!]);
  const histograms = measurands.map(({ monteCarlo }, i) => middleOf(monteCarlo.histogram, intervals[i]!));
  const heights = histograms.map((histogram, i) => densities(histogram, measurands[i]!.monteCarlo.trials));
  const bottom = TOP + HEIGHT;
  const y = scaleOver([0, 1.06 * Math.max(...heights.flat())], [bottom, TOP]);
  const left = roomForTicks(y, DENSITY_TICKS);
  const low = Math.min(...histograms.map((histogram) => histogram.low));
  const high = Math.max(...histograms.map((histogram) => histogram.low + histogram.width * histogram.counts.length));
  const x = scaleOver([low, high], [left, width - 10]);
  const outline = (i: 0 | 1): string => {
    const { low: from, width: step } = histograms[i]!;
    const stairs = heights[i]!.map((height, k) => `V${y(height).toFixed(1)}H${x(from + (k + 1) * step).toFixed(1)}`);
    return `M${x(from).toFixed(1)} ${bottom}${stairs.join("")}V${bottom}`;
  };
  const lane = (i: 0 | 1): SVGGElement => {
    const at = bottom + 46 + LANE * i;
    const [from, to] = intervals[i]!.map((value) => x(value)) as [number, number];
    const kind = i === 0 ? "trials-rule" : "other-rule";
    return svg(
      "g",
      {},
      svg("path", { class: kind, d: `M${from} ${at}H${to}M${from} ${at - 6}v12M${to} ${at - 6}v12` }),
      svg("text", { class: "lane-label", x: (from + to) / 2, y: at - 9, "text-anchor": "middle" }, names[i]),
    );
  };
  const total = bottom + 46 + 2 * LANE;
  return svg(
    "svg",
    {
      width,
      height: total,
      viewBox: `0 0 ${width} ${total}`,
      role: "img",
      "aria-label": fillText(messages.comparedRuns.pictureName, { y: a.meaning }),
    },
    svg("text", { class: "axis-title", x: 0, y: 12 }, overUnit(messages.monteCarlo.density, quotientUnit("1", a.unit))),
    axisLeft(y, left, width - 10, DENSITY_TICKS),
    svg("path", { class: "trials-area", d: `${outline(0)}Z` }),
    svg("path", { class: "trials-line", d: outline(0) }),
    svg("path", { class: "other-halo", d: outline(1) }),
    svg("path", { class: "other-line", d: outline(1) }),
    axisBelow(x, bottom, width),
    svg(
      "text",
      { class: "axis-title", x: width - 10, y: bottom + 34, "text-anchor": "end" },
      symbolSpan(a.symbol, overUnit("", a.unit)),
    ),
    lane(0),
    lane(1),
  );
}
