import type { FactorRecord, IndexRecord } from "../../../engine/index.ts";
import { html, type Child, type Markup } from "../markup.ts";
import type { Numbers } from "../../present/numbers.ts";
import { axisBelow, picture, px, scaleOver, WIDE } from "./axis.ts";

const LABELS = 150;
const ROW = 30;
const TOP = 8;

/** Linear share, first-order and total index of each factor on one line of its own. */
export function indicesPicture(
  name: string,
  factors: readonly { readonly label: Child; readonly factor: FactorRecord }[],
  axisTitle: Child,
  numbers: Numbers,
): Markup {
  const values = factors.flatMap(({ factor: { linearShare, firstOrder, total } }) => [
    linearShare,
    ...(firstOrder?.interval ?? []),
    ...(total?.interval ?? []),
  ]);
  const x = scaleOver([Math.min(0, ...values), Math.max(1, ...values)], [LABELS, WIDE - 12]);
  const base = TOP + ROW * factors.length + 2;
  const bar = (index: IndexRecord | null, y: number, mark: (at: number) => Markup): Child =>
    index === null
      ? null
      : html`<path
            class="trials-line"
            d="M${px(x(index.interval[0]))} ${y}H${px(x(index.interval[1]))}"
          />${mark(x(index.value))}`;
  return picture(
    WIDE,
    base + 38,
    name,
    html`${factors.map(({ label, factor }, i) => {
      const y = TOP + ROW * i + ROW / 2;
      const share = x(factor.linearShare);
      return html`<path class="grid-line" d="M${LABELS} ${y}H${WIDE - 12}" /><text
          x="${LABELS - 10}"
          y="${y + 4}"
          text-anchor="end"
          >${label}</text
        >
        <path
          class="hollow"
          d="M${px(share)} ${y - 5}l5 5l-5 5l-5 -5z"
        />${bar(factor.firstOrder, y - 7, (at) => html`<circle class="mark" cx="${px(at)}" cy="${y - 7}" r="3.4" />`)}${bar(factor.total, y + 7, (at) => html`<rect class="mark" x="${px(at - 3.2)}" y="${y + 3.8}" width="6.4" height="6.4" />`)}`;
    })}${axisBelow(x, base, numbers, axisTitle)}`,
  );
}
