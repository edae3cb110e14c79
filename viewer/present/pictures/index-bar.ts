import type { IndexRecord, SensitivityRecord } from "../../../engine/index.ts";
import { scaleOver, type Scale } from "./axis.ts";
import { circle, path, px, type Scene } from "./scene.ts";

const WIDTH = 150;
const HEIGHT = 22;

/** One scale for all indices of a measurand: 0 to 1, and what strays outside by its error or by correlation. */
export function indexScale({ factors }: SensitivityRecord): Scale {
  const all = factors.flatMap(({ linearShare, firstOrder, total }) => [
    linearShare,
    ...[firstOrder, total].flatMap((index) => (index === null ? [] : index.interval)),
  ]);
  return scaleOver([Math.min(0, ...all), Math.max(1, ...all)], [6, WIDTH - 6]);
}

/** A sensitivity index as a bar between strokes at 0 and 1, its interval, and the linear share as a hollow circle. */
export function indexScene(
  name: string,
  { value, interval: [low, high] }: IndexRecord,
  linear: number,
  x: Scale,
): Scene {
  return {
    class: "index",
    width: WIDTH,
    height: HEIGHT,
    name,
    marks: [
      path("ground", `M${px(x(0))} 0.5V${HEIGHT}M${px(x(1))} 0.5V${HEIGHT}`),
      path("trials-area", `M${px(x(0))} 7H${px(x(value))}V17H${px(x(0))}Z`),
      path("whisker", `M${px(x(low))} 12H${px(x(high))}M${px(x(low))} 8v8M${px(x(high))} 8v8`),
      circle("linear-line", x(linear), 12, 3.5),
    ],
  };
}
