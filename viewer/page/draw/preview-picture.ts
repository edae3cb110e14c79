import type { Histogram } from "../../../engine/index.ts";
import { axisBelow, scaleOver } from "./axis.ts";
import { densities } from "../../present/pictures/histogram.ts";
import { svg, type Child } from "./node.ts";

interface Previewed {
  readonly histogram: Histogram;
  readonly trials: number;
  readonly interval: readonly [number, number];
}

const HEIGHT = 150;
const TOP = 10;
const BINS = 50;
/** Trials from which every bin of the record is full enough. */
const MANY = 100_000;

/** Bins put together if the preview has too few trials to fill them. */
function coarse({ counts, width, ...rest }: Histogram, trials: number): Histogram {
  const each = Math.max(1, Math.floor(counts.length / (trials < MANY ? BINS : counts.length)));
  const merged = Array.from({ length: Math.floor(counts.length / each) }, (_, i) =>
    counts.slice(i * each, (i + 1) * each).reduce((sum, count) => sum + count, 0),
  );
  return { ...rest, width: width * each, counts: merged };
}

/** The density of the preview, filled, over that of the study as stated, an outline; the interval of each below. */
export function previewPicture(
  name: string,
  stated: Previewed,
  changed: Previewed,
  width: number,
  axisLabel: Child,
): SVGSVGElement {
  const base = TOP + HEIGHT;
  const both = [stated, changed].map(({ histogram, trials, interval }) => {
    const bins = coarse(histogram, trials);
    return { bins, heights: densities(bins, trials), interval };
  });
  // As far again as a third of the interval, but no farther than there are trials.
  const edges = both.flatMap(({ bins, interval: [low, high] }) => [
    Math.max(low - 0.35 * (high - low), Math.min(low, bins.low)),
    Math.min(high + 0.35 * (high - low), Math.max(high, bins.low + bins.counts.length * bins.width)),
  ]);
  const x = scaleOver([Math.min(...edges), Math.max(...edges)], [8, width - 8]);
  const y = scaleOver([0, 1.05 * Math.max(...both.flatMap(({ heights }) => heights))], [base, TOP]);
  const [from, to] = x.domain() as [number, number];
  const outline = ({ bins, heights }: (typeof both)[number]): string => {
    const shown = heights.flatMap((height, i) => {
      const [a, b] = [Math.max(from, bins.low + i * bins.width), Math.min(to, bins.low + (i + 1) * bins.width)];
      return b <= a ? [] : [[a, b, height] as const];
    });
    if (shown.length === 0) return "";
    return `M${x(shown[0]![0]).toFixed(1)} ${base}${shown.map(([, b, height]) => `V${y(height).toFixed(1)}H${x(b).toFixed(1)}`).join("")}V${base}`;
  };
  const bracket = ([low, high]: readonly [number, number], at: number): string =>
    `M${x(low)} ${at}H${x(high)}M${x(low)} ${at - 5}v10M${x(high)} ${at - 5}v10`;
  const [before, after] = both as [(typeof both)[number], (typeof both)[number]];
  const total = base + 92;
  return svg(
    "svg",
    { class: "preview", width, height: total, viewBox: `0 0 ${width} ${total}`, role: "img", "aria-label": name },
    svg("path", { class: "trials-area", d: `${outline(after)}Z` }),
    svg("path", { class: "trials-line", d: outline(after) }),
    svg("path", { class: "stated-line", d: outline(before) }),
    axisBelow(x, base, width),
    svg("path", { class: "stated-line heavy", d: bracket(before.interval, base + 34) }),
    svg("path", { class: "trials-rule", d: bracket(after.interval, base + 52) }),
    svg("text", { class: "axis-title", x: width / 2, y: base + 84, "text-anchor": "middle" }, axisLabel),
  );
}
