import type { LogSeries } from "../../api/evidence.ts";
import { fillText } from "../../present/fill.ts";
import { messages } from "../language.ts";
import { words } from "../later-words.ts";
import { beginning } from "../survey/figures.ts";
import { axisBelow, axisLeft, roomForTicks, scaleOver } from "../draw/axis.ts";
import { svg } from "../draw/node.ts";
import { secondsOf, typedMoment, type SetUp } from "./draft.ts";

const LANE = 130;
const HEAD = 20;
const FOOT = 40;

/**
 * The log with the steps over it: each a shaded stretch with its number, whose ends are dragged. The table beside it says
 * and takes the same.
 *
 * @param moved told while an end is dragged: which step, which end, and where to as it would be typed
 */
export function logDrawing(
  draft: SetUp,
  series: LogSeries,
  width: number,
  moved: (step: number, end: "from" | "to", typed: string, done: boolean) => void,
): SVGSVGElement {
  const { outlines } = series;
  const start = Math.min(...outlines.map(({ times }) => times[0]!));
  const end = Math.max(...outlines.map(({ times }) => times.at(-1)!));
  const unit = end - start > 4 * 3600 ? 3600 : 60;
  const height = HEAD + LANE * outlines.length + FOOT;
  const ys = outlines.map(({ lowest, highest }, i) => {
    const low = quantile(lowest, 0.02);
    const high = quantile(highest, 0.98);
    const room = Math.max(1e-4, 0.15 * (high - low));
    return scaleOver([low - room, high + room], [HEAD + LANE * (i + 1) - 12, HEAD + LANE * i + 14]).clamp(true);
  });
  const left = Math.max(...ys.map((y) => roomForTicks(y, 3)));
  const right = width - 10;
  const x = scaleOver([0, (end - start) / unit], [left, right]);
  const at = (seconds: number): number => Math.min(right, Math.max(left, x((seconds - start) / unit)));
  const bottom = HEAD + LANE * outlines.length;
  const picture: SVGSVGElement = svg(
    "svg",
    {
      class: "setup-log",
      width,
      height,
      viewBox: `0 0 ${width} ${height}`,
      role: "img",
      "aria-label": fillText(words.surveySetup.drawing, {
        logs: outlines.map(({ thermometer }) => thermometer).join(messages.and),
        n: String(draft.steps.length),
      }),
    },
    draft.steps.map((step, k) => {
      const [from, to] = [secondsOf(step.from), secondsOf(step.to)];
      if (from === null || to === null || !(to > from)) return null;
      const number = svg(
        "text",
        { class: "strong", x: (at(from) + at(to)) / 2, y: HEAD - 6, "text-anchor": "middle" },
        String(k + 1),
      );
      return svg(
        "g",
        { class: "setup-step" },
        svg("rect", { x: at(from), y: HEAD, width: Math.max(1, at(to) - at(from)), height: bottom - HEAD }),
        number,
      );
    }),
    outlines.map((outline, i) => [
      svg("text", { class: "axis-title", x: 0, y: HEAD + LANE * i + 10 }, `${outline.thermometer} / °C`),
      axisLeft(ys[i]!, left, right, 3),
      svg("path", {
        class: "log-line",
        d: outline.times
          .map(
            (time, k) =>
              `${k === 0 ? "M" : "L"}${at(time).toFixed(1)} ${ys[i]!(outline.lowest[k]!).toFixed(1)}V${ys[i]!(outline.highest[k]!).toFixed(1)}`,
          )
          .join(""),
      }),
    ]),
    draft.steps.flatMap((step, k) =>
      (["from", "to"] as const).map((which) => {
        const seconds = secondsOf(step[which]);
        if (seconds === null) return null;
        const handle: SVGElement = svg("path", {
          class: "step-end",
          d: `M${at(seconds)} ${HEAD}V${bottom}`,
          onpointerdown: (event: PointerEvent) => {
            event.preventDefault();
            handle.setPointerCapture(event.pointerId);
            const typed = (move: PointerEvent): string => {
              const box = picture.getBoundingClientRect();
              const place = ((move.clientX - box.left) * width) / box.width;
              return typedMoment(Math.round(start + unit * x.invert(Math.min(right, Math.max(left, place)))));
            };
            const follow = (move: PointerEvent): void => {
              const text = typed(move);
              handle.setAttribute("d", `M${at(secondsOf(text) ?? seconds)} ${HEAD}V${bottom}`);
              moved(k, which, text, false);
            };
            const leave = (up: PointerEvent): void => {
              handle.removeEventListener("pointermove", follow as EventListener);
              moved(k, which, typed(up), true);
            };
            handle.addEventListener("pointermove", follow as EventListener);
            handle.addEventListener("pointerup", leave as EventListener, { once: true });
          },
        });
        return handle;
      }),
    ),
    axisBelow(x, bottom + 4, width),
    svg(
      "text",
      { class: "axis-title", x: (left + right) / 2, y: height - 2, "text-anchor": "middle" },
      fillText(unit === 3600 ? messages.surveyPanels.hours : messages.surveyPanels.minutes, {
        since: beginning(start),
      }),
    ),
  );
  return picture;
}

/** What lies below a part of the values: a probe drawn out for a moment must not flatten the rest. */
function quantile(values: readonly number[], part: number): number {
  const sorted = values.toSorted((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(part * sorted.length))]!;
}
