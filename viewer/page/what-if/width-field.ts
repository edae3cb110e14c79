import type { RunRecord } from "../../../engine/index.ts";
import { fillText } from "../../present/fill.ts";
import { messages } from "../language.ts";
import { plain } from "../../present/numbers.ts";
import { symbolText } from "../../present/symbol.ts";
import { html } from "../draw/node.ts";
import { widthText } from "./change-words.ts";
import { readWidth, widthFigure, type ReadWidth } from "./figure.ts";
import type { InputChange } from "./study-change.ts";

const words = messages.whatIfPanel;

/** Pause in typing after which a width is taken, in milliseconds: half a figure is another figure. */
const PAUSE = 400;

/** A field for the width of an input, with what it makes of the stated figure beside it. */
export interface WidthField {
  readonly element: HTMLElement;
  set(change: InputChange): void;
}

/** @param choose takes a width as a factor of the stated one */
export function widthField(record: RunRecord, name: string, choose: (width: number) => void): WidthField {
  const { symbol, unit } = record.inputs[name]!;
  const id = `try-width-${name}`;
  const said = html("span", { class: "note", id: `${id}-said`, role: "status" });
  let now: InputChange = { kind: "stated", width: 1 };
  let timer: ReturnType<typeof setTimeout> | undefined;

  const say = (): void => {
    const figure = widthFigure(record, name, now.kind);
    const stated = widthText(figure.value, unit);
    input.removeAttribute("aria-invalid");
    said.textContent =
      now.width === 0
        ? words.exact
        : fillText(now.width === 1 ? words.figureStated : words.figureNow, {
            figure: words[figure.name],
            stated,
            now: widthText(figure.value * now.width, unit),
          });
  };
  const take = (): void => {
    clearTimeout(timer);
    const read = readWidth(input.value, record, name, now.kind);
    if ("wrong" in read) refuse(read);
    else if (read.width === now.width) say();
    else choose(read.width);
  };
  const refuse = (read: Extract<ReadWidth, { readonly wrong: string }>): void => {
    input.setAttribute("aria-invalid", "true");
    said.textContent = wrongWords(input.value, read);
  };
  const input = html("input", {
    type: "text",
    id,
    class: "figure",
    autocomplete: "off",
    spellcheck: "false",
    placeholder: words.widthAsStated,
    "aria-label": fillText(words.widthOf, { x: symbolText(symbol) }),
    "aria-describedby": `${id}-said`,
    oninput: () => {
      clearTimeout(timer);
      timer = setTimeout(take, PAUSE);
    },
    onchange: take,
  });

  return {
    element: html("span", { class: "try-width" }, input, said),
    set(to) {
      const other = to.width !== now.width;
      now = to;
      const read = readWidth(input.value, record, name, to.kind);
      // What was typed stays as it was typed, a mistake too, until the width comes from elsewhere.
      if (other && !("width" in read && Math.abs(read.width - to.width) <= 1e-9 * to.width))
        input.value = to.width === 1 ? "" : to.width === 0 ? "0" : `× ${plain(Number(to.width.toPrecision(6)))}`;
      else if ("wrong" in read) {
        refuse(read);
        return;
      }
      say();
    },
  };
}

function wrongWords(value: string, { wrong, units }: Extract<ReadWidth, { readonly wrong: string }>): string {
  switch (wrong) {
    case "no single width":
      return words.noSingleWidth;
    case "too wide":
      return fillText(words.tooWide, { value });
    case "unit":
      return fillText(words.widthUnit, { value, units: units.join(", ") });
    case "nothing read":
      return fillText(words.widthWrong, { value });
  }
}
