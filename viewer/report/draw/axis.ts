import { scaleLinear, type ScaleLinear } from "d3";
import { html, type Child, type Markup } from "../markup.ts";
import { decimalsFor, type Numbers } from "../../present/numbers.ts";

export type Scale = ScaleLinear<number, number>;

export const scaleOver = (domain: readonly [number, number], range: readonly [number, number]): Scale =>
  scaleLinear(domain, range);

/** A coordinate to a tenth of a pixel. */
export const px = (value: number): string => String(Math.round(value * 10) / 10);

/** Ticks with their texts, all to the places that their step needs. */
export function ticksOf(
  scale: Scale,
  count: number,
  numbers: Numbers,
): { readonly value: number; readonly text: string }[] {
  const values = scale.ticks(count);
  const step = values.length > 1 ? values[1]! - values[0]! : 0;
  const decimals =
    step === 0
      ? 2
      : Math.max(
          0,
          decimalsFor(step, 1),
          decimalsFor(step, 2) - (Number((step * Number(`1e${decimalsFor(step, 1)}`)).toFixed(6)) % 1 === 0 ? 1 : 0),
        );
  return values.map((value) => ({ value, text: numbers.fixed(value, decimals) }));
}

/** The same for a horizontal axis: no more of them than stand beside one another. */
function ticksThatFit(scale: Scale, count: number, numbers: Numbers): ReturnType<typeof ticksOf> {
  const [from, to] = scale.range() as [number, number];
  for (let wished = count; wished > 2; wished--) {
    const ticks = ticksOf(scale, wished, numbers);
    const longest = Math.max(0, ...ticks.map(({ text }) => text.length));
    const apart = ticks.length < 2 ? to - from : scale(ticks[1]!.value) - scale(ticks[0]!.value);
    if (apart > LETTER * (longest + 1)) return ticks;
  }
  return ticksOf(scale, 2, numbers);
}

/** Width of a figure in a picture's text. */
const LETTER = 5.8;

/** A horizontal axis at height `y`, its title below. */
export function axisBelow(scale: Scale, y: number, numbers: Numbers, title: Child, count = 6): Markup {
  const [from, to] = scale.range() as [number, number];
  return html`<g class="axis"
    ><path d="M${px(from)} ${px(y)}H${px(to)}" />${ticksThatFit(scale, count, numbers).map(
      ({ value, text }) =>
        html`<path d="M${px(scale(value))} ${px(y)}v4" /><text
            x="${px(scale(value))}"
            y="${px(y + 15)}"
            text-anchor="middle"
            >${text}</text
          >`,
    )}<text class="axis-title" x="${px((from + to) / 2)}" y="${px(y + 31)}" text-anchor="middle">${title}</text></g
  >`;
}

/** A vertical axis at `x` with fine lines to `right`. */
export function axisLeft(scale: Scale, x: number, right: number, numbers: Numbers, count = 4): Markup {
  return html`<g class="axis"
    >${ticksOf(scale, count, numbers).map(
      ({ value, text }) =>
        html`<path class="grid" d="M${px(x)} ${px(scale(value))}H${px(right)}" /><text
            x="${px(x - 5)}"
            y="${px(scale(value) + 3.5)}"
            text-anchor="end"
            >${text}</text
          >`,
    )}</g
  >`;
}

/** A picture with a name for those who do not see it. */
export const picture = (width: number, height: number, name: string, content: Child, className = ""): Markup =>
  html`<svg
    class="${className}"
    viewBox="0 0 ${width} ${height}"
    width="${width}"
    height="${height}"
    role="img"
    aria-label="${name}"
  >
    ${content}
  </svg>`;

/** Width of a picture that runs over the whole measure. */
export const WIDE = 660;

/** Width of one of two pictures side by side. */
export const HALF = 322;

/** Hatching for what lies within the numerical tolerance; an id of its own for each picture. */
export const hatching = (id: string): Markup =>
  html`<defs
    ><pattern id="${id}" width="5" height="5" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"
      ><path d="M0 0V5" class="hatch" /></pattern
  ></defs>`;
