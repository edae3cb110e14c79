import type { PairRecord } from "../../../engine/index.ts";
import { html, type Child, type Markup } from "../markup.ts";
import type { Numbers } from "../../present/numbers.ts";
import { axisBelow, axisLeft, picture, px, scaleOver } from "./axis.ts";

const WIDTH = 322;
const HEIGHT = 300;
const LEFT = 62;
const BASE = HEIGHT - 42;

/** The budget's part of the picture: estimates and covariance of the two, and the factor of their ellipse. */
export interface PairEllipse {
  readonly estimates: readonly [number, number];
  readonly covariance: readonly [readonly [number, number], readonly [number, number]];
  readonly factor: number;
}

/** Two measurands: some trials, the smallest region that holds a share p, and the budget's ellipse. */
export function pairPicture(
  { grid, scatter }: PairRecord,
  ellipse: PairEllipse,
  texts: { readonly name: string; readonly axisTitle: Child; readonly sideTitle: Child },
  numbers: Numbers,
): Markup {
  const { low, width, cells, counts, least } = grid;
  const high = [low[0] + cells * width[0], low[1] + cells * width[1]] as const;
  const x = scaleOver([low[0], high[0]], [LEFT, WIDTH - 6]);
  const y = scaleOver([low[1], high[1]], [BASE, 22]);
  const region: string[] = [];
  for (let row = 0; row < cells; row++) {
    for (let from = 0; from < cells; from++) {
      if (counts[row * cells + from]! < least || least <= 0) continue;
      let to = from;
      while (to < cells && counts[row * cells + to]! >= least) to += 1;
      const [x0, x1] = [x(low[0] + from * width[0]), x(low[0] + to * width[0])];
      const [y0, y1] = [y(low[1] + (row + 1) * width[1]), y(low[1] + row * width[1])];
      region.push(`M${px(x0)} ${px(y0)}H${px(x1)}V${px(y1)}H${px(x0)}Z`);
      from = to;
    }
  }
  const inside = (value: number, at: 0 | 1): boolean => value >= low[at] && value <= high[at];
  const dots = scatter.filter(([a, b]) => inside(a, 0) && inside(b, 1)).map(([a, b]) => `M${px(x(a))} ${px(y(b))}h0`);
  return picture(
    WIDTH,
    HEIGHT,
    texts.name,
    html`<text x="${LEFT}" y="12">${texts.sideTitle}</text>${axisLeft(y, LEFT, WIDTH - 6, numbers, 5)}<path
        class="band"
        d="${region.join("")}"
      /><path class="dots" d="${dots.join("")}" /><path
        class="linear-line"
        d="${outline(ellipse, x, y)}"
      />${axisBelow(x, BASE, numbers, texts.axisTitle, 4)}`,
    "half",
  );
}

/** The ellipse as a closed line: estimates + factor·L·(cos, sin), with L the Cholesky factor of the covariance. */
function outline(
  { estimates, covariance: [[a, b], [, d]], factor }: PairEllipse,
  x: (value: number) => number,
  y: (value: number) => number,
): string {
  if (!(a > 0)) return "";
  const l11 = Math.sqrt(a);
  const l21 = b / l11;
  const l22 = Math.sqrt(Math.max(0, d - l21 * l21));
  const points = Array.from({ length: 73 }, (_, i) => {
    const [c, s] = [Math.cos((i * Math.PI) / 36), Math.sin((i * Math.PI) / 36)];
    return `${px(x(estimates[0] + factor * l11 * c))} ${px(y(estimates[1] + factor * (l21 * c + l22 * s)))}`;
  });
  return `M${points.join("L")}Z`;
}
