import { binReader } from "./bin-reader.ts";
import { html } from "./node.ts";

/** A picture that is read step by step. */
export interface ReadPicture {
  /** Names it on the page, if another picture is read too: "bin" by default. */
  readonly id?: string;
  readonly picture: SVGSVGElement;
  readonly width: number;
  readonly height: number;
  /** The part of the picture that is read: left, right, top and bottom in its own units. */
  readonly part: readonly [left: number, right: number, top: number, bottom: number];
  readonly steps: number;
  readonly label: string;
  readonly hint: string;
  tell(step: number): string;
  /** Marks a step in the picture, or takes the mark away. */
  mark(step: number | null): void;
}

/** The picture with a line of words above it that states what the pointer or the arrow keys are at; `owner` remembers the step. */
export function readingLayer(owner: HTMLElement, read: ReadPicture): HTMLElement {
  const [left, right, top, bottom] = read.part;
  const readout = html("p", { class: "readout", id: `${read.id ?? "bin"}-readout` }, read.hint);
  const choose = (step: number | null): void => {
    if (step === null) {
      delete owner.dataset.bin;
      readout.textContent = read.hint;
    } else {
      owner.dataset.bin = String(step);
      readout.textContent = read.tell(step);
    }
    read.mark(step);
  };
  const chosen = owner.dataset.bin === undefined ? null : Number(owner.dataset.bin);
  const layer = binReader({
    id: read.id ?? "bin",
    bins: read.steps,
    chosen,
    label: read.label,
    span: [(100 * left) / read.width, (100 * (right - left)) / read.width],
    tell: (step) => read.tell(step),
    choose,
  });
  layer.style.top = `${(100 * top) / read.height}%`;
  layer.style.height = `${(100 * (bottom - top)) / read.height}%`;
  if (chosen !== null && chosen < read.steps) choose(chosen);
  return html("div", { class: "figure" }, readout, html("div", { class: "picture" }, read.picture, layer));
}
