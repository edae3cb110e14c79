import { html } from "../draw/node.ts";

/** A picture whose marks are read one by one. */
export interface ReadPoints {
  /** Names the parts of this picture on the page. */
  readonly id: string;
  readonly picture: SVGSVGElement;
  readonly width: number;
  readonly height: number;
  /** Where the marks are, in the picture's own units, in the order the arrow keys go through them. */
  readonly points: readonly { readonly x: number; readonly y: number }[];
  readonly label: string;
  readonly hint: string;
  tell(point: number): string;
  /** Marks a point in the picture, or takes the mark away. */
  mark(point: number | null): void;
}

const FAR = 10;

/**
 * The picture with a line of words above it that states what the pointer is next to, or what the arrow keys are at. To
 * assistive technology it is a slider whose value is the mark in words.
 */
export function pointReader({ id, picture, width, height, points, label, hint, tell, mark }: ReadPoints): HTMLElement {
  const last = points.length - 1;
  let chosen: number | null = null;
  const readout = html("p", { class: "readout", id: `${id}-readout` }, hint);
  const layer = html("div", {
    class: "bin-reader whole",
    id: `${id}-reader`,
    role: "slider",
    tabindex: 0,
    "aria-label": label,
    "aria-valuemin": 1,
    "aria-valuemax": last + 1,
    "aria-valuenow": 1,
    "aria-valuetext": tell(0),
    onpointermove: (event: PointerEvent) => choose(nearest(event)),
    onpointerdown: (event: PointerEvent) => choose(nearest(event)),
    onpointerleave: () => {
      if (document.activeElement !== layer) choose(null);
    },
    onfocus: () => choose(chosen ?? 0),
    onblur: () => choose(null),
    onkeydown: (event: KeyboardEvent) => {
      const moved = move(event.key);
      if (moved === undefined) return;
      event.preventDefault();
      choose(Math.min(last, Math.max(0, moved)));
    },
  });

  function nearest({ clientX, clientY }: PointerEvent): number {
    const { left, top, width: seen } = layer.getBoundingClientRect();
    const scale = width / seen;
    const [x, y] = [(clientX - left) * scale, (clientY - top) * scale];
    const away = points.map((point) => (point.x - x) ** 2 + (point.y - y) ** 2);
    return away.indexOf(Math.min(...away));
  }

  function move(key: string): number | undefined {
    const from = chosen ?? 0;
    const to: Readonly<Record<string, number>> = {
      ArrowLeft: from - 1,
      ArrowUp: from - 1,
      ArrowRight: from + 1,
      ArrowDown: from + 1,
      PageUp: from - FAR,
      PageDown: from + FAR,
      Home: 0,
      End: last,
    };
    return to[key];
  }

  function choose(point: number | null): void {
    chosen = point;
    readout.textContent = point === null ? hint : tell(point);
    layer.setAttribute("aria-valuenow", String((point ?? 0) + 1));
    layer.setAttribute("aria-valuetext", tell(point ?? 0));
    mark(point);
  }

  return html(
    "div",
    { class: "figure" },
    readout,
    html(
      "div",
      { class: "picture", style: `max-width: ${width}px; aspect-ratio: ${width} / ${height}` },
      picture,
      layer,
    ),
  );
}

/** A ring that goes to the mark being read. */
export const readRing = (ring: SVGCircleElement, at: { readonly x: number; readonly y: number } | undefined): void => {
  if (at === undefined) ring.removeAttribute("r");
  else
    for (const [name, value] of Object.entries({ cx: at.x, cy: at.y, r: 11 })) ring.setAttribute(name, String(value));
};
