import { words } from "../later-words.ts";
import { fillText } from "../../present/fill.ts";
import type { EquationAnswer, FunctionList } from "../../api/equations.ts";
import { checkEquation, listEquationFunctions, RequestError } from "../api.ts";
import { mathematicsNode } from "../draw/mathematics.ts";
import { append, html } from "../draw/node.ts";
import { saveFile } from "../draw/save.ts";
import { mathematics } from "../../present/mathematics.ts";
import { own } from "../../present/own.ts";
import { functionList } from "./function-list.ts";
import { createNameList } from "./name-list.ts";
import { namesIn, type OfferedName } from "./names.ts";
import { markedText, problemItems } from "./problems.ts";

export type ReadEquation = NonNullable<EquationAnswer["read"]>;

/** What a form states about the quantities of its equation, by the names that the study uses. */
export type StatedQuantities = Readonly<
  Record<
    string,
    {
      readonly symbol?: string;
      readonly meaning?: string;
      readonly unit?: string;
      readonly difference?: boolean;
    }
  >
>;

export interface EquationFieldOptions {
  readonly id: string;
  readonly text: string;
  /** Quantities as they are stated at the time of asking. */
  readonly quantities: () => StatedQuantities;
  /** Title of the study, for the saved model. */
  readonly title: () => string;
  /** The text was changed. */
  readonly change: (text: string) => void;
  /** The text was checked: what was read, or `null` while something is wrong. */
  readonly checked: (read: ReadEquation | null) => void;
}

export interface EquationField {
  readonly element: HTMLElement;
  readonly control: HTMLTextAreaElement;
  /** Checks again: the quantities were changed, or the field is shown. */
  readonly check: () => Promise<void>;
}

/** Pause in typing after which the text is checked, in milliseconds. */
const PAUSE = 250;

/**
 * A field for an equation in plain algebra: checked as one types, with a mark under what is wrong, names offered, and the
 * equation set as mathematics below.
 */
export function createEquationField(options: EquationFieldOptions): EquationField {
  const { id } = options;
  const marks = html("div", { class: "equation-marks", "aria-hidden": "true" });
  const control = html("textarea", {
    id,
    spellcheck: "false",
    autocomplete: "off",
    autocapitalize: "off",
    "aria-describedby": `${id}-help ${id}-problems`,
  });
  const problems = html("ul", { class: "equation-problems", id: `${id}-problems`, "aria-live": "polite" });
  const shown = html("div", { class: "equation-read" });
  let functions: FunctionList = [];
  let answer: EquationAnswer | null = null;
  let timer: ReturnType<typeof setTimeout> | undefined;
  let asked = 0;
  control.value = options.text;

  const offered = (): readonly OfferedName[] => [
    ...Object.entries(options.quantities()).map(([name, { symbol, meaning }]) => ({
      text: symbol ?? name,
      meaning: meaning ?? "",
    })),
    // Quantities that no table states yet.
    ...namesIn(control.value)
      .filter((name) => !Object.values(options.quantities()).some(({ symbol }) => symbol === name))
      .map((name) => ({ text: name, meaning: "" })),
    ...functions.map(({ name, meaning }) => ({ text: `${name}(`, meaning })),
  ];

  /** As if typed, so that the browser can take it back. */
  const insert = (text: string, from: number): void => {
    control.setSelectionRange(from, control.selectionEnd);
    if (!document.execCommand("insertText", false, text)) {
      control.setRangeText(text, from, control.selectionEnd, "end");
      changed();
    }
  };
  const names = createNameList(control, offered, ({ text }, word) => insert(text, control.selectionEnd - word.length));

  const draw = (): void => {
    const wrong = answer?.problems ?? [];
    marks.replaceChildren();
    append(marks, markedText(control.value, wrong));
    if (wrong.length === 0) control.removeAttribute("aria-invalid");
    else control.setAttribute("aria-invalid", "true");
    problems.replaceChildren(
      ...problemItems(control.value, wrong, `${id}-to`, ({ place }) => {
        control.focus();
        control.setSelectionRange(place.from, place.to);
      }),
    );
    shown.replaceChildren(...(answer?.read == null ? [] : readPart(answer.read, id)));
  };

  const check = async (): Promise<void> => {
    clearTimeout(timer);
    const mine = ++asked;
    const text = control.value;
    try {
      const found = await checkEquation({ equation: text, quantities: options.quantities(), title: options.title() });
      if (mine !== asked) return;
      answer = found;
      draw();
      options.checked(found.read);
    } catch (error) {
      if (!(error instanceof RequestError)) throw error;
      if (mine !== asked) return;
      answer = null;
      draw();
      problems.replaceChildren(html("li", {}, fillText(words.equation.notChecked, { why: error.fault.message })));
      options.checked(null);
    }
  };

  const changed = (): void => {
    // Marks of the text before would stand under other characters.
    marks.replaceChildren(`${control.value}\n`);
    options.change(control.value);
    clearTimeout(timer);
    timer = setTimeout(() => void check(), PAUSE);
    names.offer();
  };
  control.addEventListener("input", changed);
  control.addEventListener("keydown", (event) => {
    if (names.key(event)) event.preventDefault();
  });
  control.addEventListener("blur", names.close);
  control.addEventListener("click", names.close);

  const list = html("div", {});
  void listEquationFunctions().then(
    (found) => {
      functions = found;
      list.replaceChildren(functionList(found, `${id}-functions`));
    },
    (error: unknown) => {
      if (!(error instanceof RequestError)) throw error;
      list.replaceChildren(
        html("p", { class: "note" }, fillText(words.equation.noFunctions, { why: error.fault.message })),
      );
    },
  );
  draw();
  return {
    control,
    check,
    element: html(
      "div",
      { class: "equation-field" },
      html("label", { for: id }, words.equation.equation),
      html("div", { class: "equation-input" }, marks, control),
      names.element,
      problems,
      html(
        "p",
        { class: "note", id: `${id}-help` },
        words.equation.algebra,
        html("code", {}, "e = t(R_X, R_0) − t_S"),
        words.equation.algebraRest,
      ),
      shown,
      list,
    ),
  };
}

/** What was read: the mathematics, how far the units were checked, and the file. */
const readPart = (read: ReadEquation, id: string): readonly HTMLElement[] => [
  mathematicsNode(
    mathematics(read.equations, (name) => own(read.symbols, name) ?? name, read.texts),
    `${id}-mathematics`,
  ),
  html("p", { class: "note", id: `${id}-units` }, unitWords(read)),
  html(
    "p",
    { class: "buttons" },
    html(
      "button",
      {
        type: "button",
        class: "quiet",
        id: `${id}-typescript`,
        onclick: () => saveFile(read.typescript.file, read.typescript.text, "text/x-typescript"),
      },
      words.equation.save,
    ),
    html("span", { class: "note" }, words.equation.saveNote),
  ),
];

function unitWords({ inputs, measurands, withoutUnit }: ReadEquation): string {
  const all = Object.keys(inputs).length + Object.keys(measurands).length;
  if (withoutUnit.length === 0) return words.equation.unitsFit;
  if (withoutUnit.length === all) return words.equation.unitsUnchecked;
  return fillText(words.equation.unitsPartly, { names: withoutUnit.join(", ") });
}
