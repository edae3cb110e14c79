import { axisBelow, axisLeft, roomForTicks, scaleOver, type Scale } from "../draw/axis.ts";
import { svg, type Child } from "../draw/node.ts";
import { fillText } from "../../present/fill.ts";
import { messages } from "../language.ts";
import { withUnit } from "../../present/numbers.ts";
import { fixed } from "../numbers.ts";
import type { EvaluatedSurvey, Outline } from "../../api/surveys.ts";
import { beginning, milli, moment } from "./figures.ts";
import { pointReader } from "./point-reader.ts";

const words = messages.surveyPanels;

const HEAD = 18;
const PLOT = 120;
const STRIP = 20;
const LANE = HEAD + PLOT + STRIP + 14;
const FOOT = 44;
const TICKS = 4;
/** Moments a reader goes through. */
const MOMENTS = 120;
/** About the width of a letter of the labels. */
const LETTER = 6.2;

/**
 * The log of every thermometer over one time axis, with where it stood, and the worst window of stability as a hatched
 * box from its lowest to its highest reading.
 */
export function logPicture(survey: EvaluatedSurvey, width: number): HTMLElement {
  const { outlines, stay, stability, steps } = survey.evaluation;
  const { worst } = stability;
  const start = Math.min(...outlines.map(({ times }) => times[0]!));
  const end = Math.max(...outlines.map(({ times }) => times.at(-1)!));
  const long = end - start > 4 * 3600;
  const unit = long ? 3600 : 60;
  const lanes = outlines.map((outline) => ({ outline, range: settledRange(outline, survey) }));
  const span = 1.12 * Math.max(...lanes.map(({ range: [low, high] }) => high - low), 1e-4);
  const ys = lanes.map(({ range: [low, high] }, i) => {
    const middle = (low + high) / 2;
    const top = LANE * i + HEAD;
    return scaleOver([middle - span / 2, middle + span / 2], [top + PLOT, top]).clamp(true);
  });
  const left = Math.max(...ys.map((y) => roomForTicks(y, TICKS)));
  const x = scaleOver([0, (end - start) / unit], [left, width - 10]);
  const at = (seconds: number): number => x((seconds - start) / unit);
  const right = width - 10;
  const height = LANE * lanes.length + FOOT - 8;
  const cursor = svg("path", { class: "cursor" });
  const positions = positionsOf(survey);
  const picture = svg(
    "svg",
    {
      class: "survey-log",
      width,
      height,
      viewBox: `0 0 ${width} ${height}`,
      role: "img",
      "aria-label": fillText(words.logName, {
        thermometers: outlines.map(({ thermometer }) => thermometer).join(messages.and),
        thermometer: stay.thermometer,
        from: moment(worst.from),
        to: moment(worst.to),
        halfRange: milli(worst.halfRange),
      }),
    },
    lanes.map(({ outline }, i): Child => {
      const y = ys[i]!;
      const bottom = LANE * i + HEAD + PLOT;
      return [
        svg("text", { class: "axis-title", x: 0, y: bottom - PLOT - 6 }, `${outline.thermometer} / °C`),
        axisLeft(y, left, right, TICKS),
        outline.thermometer === stay.thermometer ? windowBox(survey, at, y) : null,
        svg("path", { class: "log-line", d: logPath(outline, at, y) }),
        outline.thermometer === stay.thermometer ? windowLabel(survey, at, y, left, right) : null,
        steps.map(({ step, from, to, at: standing }) =>
          standing[outline.thermometer] === undefined
            ? null
            : positionStrip(standing[outline.thermometer]!, step, at(from), at(to), bottom + 5),
        ),
      ];
    }),
    cursor,
    axisBelow(x, LANE * lanes.length - 8, width),
    svg(
      "text",
      { class: "axis-title", x: (left + right) / 2, y: height - 4, "text-anchor": "middle" },
      fillText(long ? words.hours : words.minutes, { since: beginning(start) }),
    ),
  );
  const times = Array.from({ length: MOMENTS }, (_, i) => start + ((i + 0.5) * (end - start)) / MOMENTS);
  return pointReader({
    id: "log",
    picture,
    width,
    height,
    points: times.map((time) => ({ x: at(time), y: height / 2 })),
    label: words.readLogs,
    hint: messages.reading.hint,
    tell(i) {
      const time = times[i]!;
      const readings = outlines.map(
        (outline) =>
          `${outline.thermometer} ${readingAt(outline, time, (end - start) / MOMENTS)}${positions(outline.thermometer, time)}`,
      );
      const inside = time >= worst.from && time <= worst.to ? words.inWorst : "";
      return `${moment(time)}: ${readings.join("; ")}${inside}`;
    },
    mark(i) {
      if (i === null) cursor.removeAttribute("d");
      else cursor.setAttribute("d", `M${at(times[i]!).toFixed(1)} ${HEAD}V${LANE * lanes.length - 8}`);
    },
  });
}

/** Lowest and highest reading in the settled parts of the steps: what happens while a thermometer is moved is cut off. */
function settledRange(
  { thermometer, times, lowest, highest }: Outline,
  { evaluation: { steps } }: EvaluatedSurvey,
): readonly [number, number] {
  let low = Infinity;
  let high = -Infinity;
  times.forEach((time, i) => {
    if (!steps.some(({ from, to, at }) => at[thermometer] !== undefined && time >= from && time <= to)) return;
    low = Math.min(low, lowest[i]!);
    high = Math.max(high, highest[i]!);
  });
  return low <= high ? [low, high] : [Math.min(...lowest), Math.max(...highest)];
}

/** One line through the lowest and highest reading of each time, broken where the log is silent. */
function logPath({ times, lowest, highest }: Outline, at: (seconds: number) => number, y: Scale): string {
  const silence = 2.5 * ((times.at(-1)! - times[0]!) / Math.max(1, times.length - 1));
  return times
    .map((time, i) => {
      const here = at(time).toFixed(1);
      const begin = i === 0 || time - times[i - 1]! > silence ? "M" : "L";
      return `${begin}${here} ${y(lowest[i]!).toFixed(1)}V${y(highest[i]!).toFixed(1)}`;
    })
    .join("");
}

function windowBox(
  { worst: [low, high], evaluation: { stability } }: EvaluatedSurvey,
  at: (seconds: number) => number,
  y: Scale,
): SVGElement {
  const { from, to } = stability.worst;
  return svg("rect", {
    class: "tolerance",
    x: at(from),
    y: y(high),
    width: at(to) - at(from),
    height: y(low) - y(high),
  });
}

/** The half-range as a measure from the middle of the box to its edge; its figure above the log, clear of its line. */
function windowLabel(
  { worst: [low, high], evaluation: { stability } }: EvaluatedSurvey,
  at: (seconds: number) => number,
  y: Scale,
  left: number,
  right: number,
): SVGElement {
  const { from, to, halfRange } = stability.worst;
  const text = fillText(words.worstWindow, { halfRange: milli(halfRange) });
  const middle = (y(low) + y(high)) / 2;
  const beside = at(to) + 8 <= right ? at(to) + 8 : at(from) - 8;
  const room = (LETTER * text.length) / 2;
  const centre = Math.min(right - room, Math.max(left + 60 + room, (at(from) + at(to)) / 2));
  const top = y.range()[1]!;
  return svg(
    "g",
    {},
    svg("path", { class: "limit", d: `M${at(from)} ${middle}H${at(to)}` }),
    svg("path", {
      class: "distance",
      d: `M${beside} ${middle}V${y(high)}M${beside - 4} ${middle}h8M${beside - 4} ${y(high)}h8`,
    }),
    svg("text", { class: "strong", x: centre, y: top - 6, "text-anchor": "middle" }, text),
  );
}

/** Where the thermometer stood; the number of the step where the word has no room. */
function positionStrip(position: string, step: number, from: number, to: number, top: number): SVGElement {
  const number = String(step + 1);
  const text = [position, number].find((one) => LETTER * one.length <= to - from);
  return svg(
    "g",
    { class: "position" },
    svg("rect", { x: from, y: top, width: Math.max(1, to - from), height: STRIP - 6 }, svg("title", {}, position)),
    text === undefined ? null : svg("text", { x: (from + to) / 2, y: top + 11, "text-anchor": "middle" }, text),
  );
}

const positionsOf =
  ({ evaluation: { steps } }: EvaluatedSurvey) =>
  (thermometer: string, time: number): string => {
    const position = steps.find(({ from, to }) => time >= from && time <= to)?.at[thermometer];
    return position === undefined ? words.moving : fillText(words.standingAt, { position });
  };

/** Lowest to highest reading about a moment. */
function readingAt({ times, lowest, highest }: Outline, time: number, width: number): string {
  const near = times.flatMap((candidate, i) => (Math.abs(candidate - time) <= width / 2 ? [i] : []));
  if (near.length === 0) return words.noReading;
  const [low, high] = [Math.min(...near.map((i) => lowest[i]!)), Math.max(...near.map((i) => highest[i]!))];
  return low === high
    ? withUnit(fixed(low, 4), "°C")
    : fillText(messages.distributions.range, { low: fixed(low, 4), high: withUnit(fixed(high, 4), "°C") });
}
