import { scaleOver } from "../draw/axis.ts";
import { svg, type Child } from "../draw/node.ts";
import { fillText } from "../../present/fill.ts";
import { messages } from "../language.ts";
import { fixed, whole } from "../numbers.ts";
import type { AllanPoint } from "../../api/surveys.ts";
import { duration, milli } from "./figures.ts";
import { pointReader, readRing } from "./point-reader.ts";

const words = messages.surveyPanels;

const TOP = 30;
const PLOT = 170;
const BOTTOM = TOP + PLOT;
const HEIGHT = BOTTOM + 46;
const LEFT = 48;

/**
 * Allan deviation against averaging time, both in equal ratios, with the line that readings free of drift and of the
 * bath's own movement would follow.
 */
export function allanPicture(points: readonly AllanPoint[], width: number): HTMLElement {
  const first = points[0]!;
  const least = points.reduce((a, b) => (b.deviation < a.deviation ? b : a));
  const white = points.map(({ averaged }) => first.deviation / Math.sqrt(averaged));
  const [low, high] = [Math.min(...white, least.deviation), Math.max(...points.map(({ deviation }) => deviation))];
  const y = scaleOver([Math.log10(low) - 0.08, Math.log10(high) + 0.12], [BOTTOM, TOP]);
  const x = scaleOver([Math.log2(first.time), Math.log2(points.at(-1)!.time)], [LEFT + 12, width - 36]);
  const places = points.map(({ time, deviation }) => ({ x: x(Math.log2(time)), y: y(Math.log10(deviation)) }));
  const line = (through: readonly { readonly x: number; readonly y: number }[]): string =>
    `M${through.map((point) => `${point.x.toFixed(1)} ${point.y.toFixed(1)}`).join("L")}`;
  const ring = svg("circle", { class: "cursor" });
  const best = places[points.indexOf(least)]!;
  const picture = svg(
    "svg",
    {
      class: "allan",
      width,
      height: HEIGHT,
      viewBox: `0 0 ${width} ${HEIGHT}`,
      role: "img",
      "aria-label": fillText(words.allanName, {
        first: milli(first.deviation),
        time: duration(least.time),
        least: milli(least.deviation),
      }),
    },
    svg("text", { class: "axis-title", x: 0, y: 12 }, words.allanAxis),
    decades(low, high).map((value): Child => {
      const at = Math.round(y(Math.log10(value))) + 0.5;
      return at < TOP || at > BOTTOM
        ? null
        : svg(
            "g",
            { class: "axis" },
            svg("path", { class: "gridline", d: `M${LEFT} ${at}H${width - 6}` }),
            svg("text", { x: LEFT - 7, y: at + 4, "text-anchor": "end" }, tick(1000 * value)),
          );
    }),
    svg("path", { class: "limit", d: line(white.map((value, i) => ({ x: places[i]!.x, y: y(Math.log10(value)) }))) }),
    svg("path", { class: "log-line", d: line(places) }),
    places.map((place) =>
      svg("circle", { class: "reading-dot", cx: place.x.toFixed(1), cy: place.y.toFixed(1), r: 3.5 }),
    ),
    svg("circle", { class: "least", cx: best.x.toFixed(1), cy: best.y.toFixed(1), r: 7 }),
    ring,
    svg(
      "g",
      { class: "axis" },
      svg("path", { d: `M${LEFT} ${BOTTOM + 0.5}H${width - 6}` }),
      timeTicks(points, places, width),
    ),
    svg("text", { class: "axis-title", x: (LEFT + width) / 2, y: HEIGHT - 6, "text-anchor": "middle" }, words.timeAxis),
  );
  return pointReader({
    id: "allan",
    picture,
    width,
    height: HEIGHT,
    points: places,
    label: words.readAllan,
    hint: messages.reading.hint,
    tell(i) {
      const { time, averaged, deviation, differences } = points[i]!;
      return fillText(averaged === 1 ? words.allanReading : words.allanPoint, {
        time: duration(time),
        count: whole(averaged),
        deviation: milli(deviation),
        differences: whole(differences),
      });
    },
    mark: (i) => readRing(ring, i === null ? undefined : places[i]),
  });
}

/** 1, 2 and 5 times powers of ten between two values. */
function decades(low: number, high: number): number[] {
  const values: number[] = [];
  for (let power = Math.floor(Math.log10(low)); power <= Math.ceil(Math.log10(high)); power++) {
    for (const step of [1, 2, 5]) values.push(step * 10 ** power);
  }
  return values;
}

const tick = (value: number): string => fixed(value, Math.max(0, -Math.floor(Math.log10(value) + 1e-9)));

/** Ticks at every averaging time, with as many texts as stand clear of each other. */
function timeTicks(points: readonly AllanPoint[], places: readonly { readonly x: number }[], width: number): Child[] {
  let free = -Infinity;
  return points.map(({ time }, i): Child => {
    const at = Math.round(places[i]!.x) + 0.5;
    const text = duration(time);
    const half = 3.4 * text.length;
    const fits = at - half > free && at + half <= width;
    if (fits) free = at + half + 8;
    return [
      svg("path", { d: `M${at} ${BOTTOM}v5` }),
      fits ? svg("text", { x: at, y: BOTTOM + 18, "text-anchor": "middle" }, text) : null,
    ];
  });
}
