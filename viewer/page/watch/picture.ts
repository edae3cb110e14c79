import type { WatchState } from "../../api/watched-logs.ts";
import { fillText } from "../../present/fill.ts";
import { beginning } from "../survey/figures.ts";
import { axisBelow, axisLeft, roomForTicks, scaleOver } from "../draw/axis.ts";
import { svg } from "../draw/node.ts";
import { messages } from "../language.ts";
import { words } from "../later-words.ts";

const LANE = 130;
const HEAD = 8;
const FOOT = 40;

/** Each thermometer up to now, with the window that is judged shaded and the band of the criterion about it. */
export function watchPicture({ outlines, thermometers, window }: WatchState, width: number): SVGSVGElement {
  const start = Math.min(...outlines.map(({ times }) => times[0]!));
  const end = Math.max(...outlines.map(({ times }) => times.at(-1)!), start + 60);
  const unit = end - start > 4 * 3600 ? 3600 : 60;
  const ys = outlines.map(({ lowest, highest }, i) => {
    const [low, high] = [Math.min(...lowest), Math.max(...highest)];
    const room = Math.max(1e-4, 0.1 * (high - low));
    return scaleOver([low - room, high + room], [HEAD + LANE * (i + 1) - 12, HEAD + LANE * i + 20]);
  });
  const left = Math.max(...ys.map((y) => roomForTicks(y, 3)));
  const right = width - 10;
  const x = scaleOver([0, (end - start) / unit], [left, right]);
  const at = (seconds: number): number => Math.min(right, Math.max(left, x((seconds - start) / unit)));
  const bottom = HEAD + LANE * outlines.length;
  const names = outlines.map(({ thermometer }) => thermometer).join(", ");
  return svg(
    "svg",
    {
      class: "setup-log watch-picture",
      width,
      height: bottom + FOOT,
      viewBox: `0 0 ${width} ${bottom + FOOT}`,
      role: "img",
      "aria-label": fillText(words.watch.picture, { names }),
    },
    outlines.map(({ thermometer, times, lowest, highest }, i) => {
      const state = thermometers.find((one) => one.thermometer === thermometer)?.state;
      const top = HEAD + LANE * i;
      return [
        state === undefined
          ? null
          : svg("rect", {
              class: "watch-window",
              x: at(state.to - window),
              y: top + 16,
              width: Math.max(1, at(state.to) - at(state.to - window)),
              height: LANE - 28,
            }),
        svg("text", { class: "axis-title", x: 0, y: top + 10 }, `${thermometer} / °C`),
        axisLeft(ys[i]!, left, right, 3),
        svg("path", {
          class: "log-line",
          d: times
            .map(
              (time, k) =>
                `${k === 0 ? "M" : "L"}${at(time).toFixed(1)} ${ys[i]!(lowest[k]!).toFixed(1)}V${ys[i]!(highest[k]!).toFixed(1)}`,
            )
            .join(""),
        }),
      ];
    }),
    axisBelow(x, bottom + 4, width),
    svg(
      "text",
      { class: "axis-title", x: (left + right) / 2, y: bottom + FOOT - 2, "text-anchor": "middle" },
      fillText(unit === 3600 ? messages.surveyPanels.hours : messages.surveyPanels.minutes, {
        since: beginning(start),
      }),
    ),
  );
}
