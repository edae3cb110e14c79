import { html } from "./node.ts";

/** What the reader needs to find and tell a bin: a step along the picture. */
export interface BinReader {
  /** Names it on the page: "bin" by default. */
  readonly id?: string;
  /** Number of equal steps. */
  readonly bins: number;
  /** Bin chosen before, or `null`. */
  readonly chosen: number | null;
  readonly label: string;
  /** Left edge and width of the bins within the picture, in percent of its width. */
  readonly span: readonly [number, number];
  /** A bin in words. */
  tell(bin: number): string;
  /** Called when another bin is chosen, or none. */
  choose(bin: number | null): void;
}

/**
 * A layer over a picture: the pointer or the arrow keys choose a bin. To assistive technology it is a slider whose
 * value is the bin in words.
 */
export function binReader(reader: BinReader): HTMLElement {
  const last = reader.bins - 1;
  let chosen = reader.chosen !== null && reader.chosen <= last ? reader.chosen : null;
  const start = (): number => Math.floor(last / 2);
  const layer = html("div", {
    class: "bin-reader",
    id: `${reader.id ?? "bin"}-reader`,
    role: "slider",
    tabindex: 0,
    "aria-label": reader.label,
    "aria-valuemin": 1,
    "aria-valuemax": last + 1,
    style: `left: ${reader.span[0]}%; width: ${reader.span[1]}%`,
    onpointermove: (event: PointerEvent) => choose(binUnder(event)),
    onpointerdown: (event: PointerEvent) => choose(binUnder(event)),
    onpointerleave: () => {
      if (document.activeElement !== layer) choose(null);
    },
    onfocus: () => choose(chosen ?? start()),
    onblur: () => choose(null),
    onkeydown: (event: KeyboardEvent) => {
      const moved = move(event.key);
      if (moved === null) return;
      event.preventDefault();
      choose(moved);
    },
  });

  function binUnder({ clientX }: PointerEvent): number {
    const { left, width } = layer.getBoundingClientRect();
    return Math.min(last, Math.max(0, Math.floor(((clientX - left) / width) * (last + 1))));
  }

  function move(key: string): number | null {
    const from = chosen ?? start();
    const to: Readonly<Record<string, number>> = {
      ArrowLeft: from - 1,
      ArrowDown: from - 1,
      ArrowRight: from + 1,
      ArrowUp: from + 1,
      PageDown: from - 10,
      PageUp: from + 10,
      Home: 0,
      End: last,
    };
    const target = to[key];
    return target === undefined ? null : Math.min(last, Math.max(0, target));
  }

  function choose(bin: number | null): void {
    chosen = bin;
    voice();
    reader.choose(bin);
  }

  function voice(): void {
    const bin = chosen ?? start();
    layer.setAttribute("aria-valuenow", String(bin + 1));
    layer.setAttribute("aria-valuetext", reader.tell(bin));
  }

  voice();
  return layer;
}
