import type { RunRecord } from "../../../engine/index.ts";
import { html } from "../draw/node.ts";
import { symbolNode } from "../draw/symbol.ts";
import { fillText } from "../../present/fill.ts";
import { messages } from "../language.ts";
import { symbolText } from "../../present/symbol.ts";
import { kindWords } from "../what-if/change-words.ts";
import { hasWidth, isAsStated, isKind, KINDS, type InputChange, type StudyChange } from "../what-if/study-change.ts";
import { coefficientField, type CoefficientField } from "../what-if/coefficient-field.ts";
import { estimateField, freedomField, UNCHANGED, widthField } from "../what-if/input-fields.ts";

const words = messages.whatIfPanel;

export interface WhatIfControls {
  readonly element: HTMLElement;
  /** Shows a change that came from elsewhere: the address, "take all back". */
  set(change: StudyChange): void;
}

/** What a field changes; `undefined` takes a figure back to the stated one. */
interface Part extends Partial<Pick<InputChange, "kind" | "width">> {
  readonly estimate?: number | undefined;
  readonly freedom?: number | undefined;
}

/** A row of controls for every input that varies, one for every constant, and the correlations. They outlive the redraws of the results. */
export function whatIfControls(record: RunRecord, choose: (change: StudyChange) => void): WhatIfControls {
  let now: StudyChange = { inputs: {}, correlations: {} };
  const names = Object.keys(record.inputs).filter((name) => record.inputs[name]!.standardUncertainty > 0);
  const change = (name: string, part: Part): void => {
    const { [name]: before = UNCHANGED, ...others } = now.inputs;
    const { estimate, freedom, ...next } = { ...before, ...part };
    const made: InputChange = {
      ...next,
      ...(estimate === undefined ? {} : { estimate }),
      ...(freedom === undefined ? {} : { freedom }),
    };
    now = { ...now, inputs: isAsStated(made) ? others : { ...others, [name]: made } };
    choose(now);
  };
  const constants = Object.keys(record.inputs).filter((name) => record.inputs[name]!.distribution === "constant");
  const varying = names.map((name) => inputRow(record, name, change));
  const fixed = constants.map((name) => constantRow(record, name, change));
  const rows = [...varying, ...fixed];
  const fold = html(
    "details",
    { class: "fold" },
    html("summary", {}, fillText(words.constants, { count: String(fixed.length) })),
    html(
      "div",
      { class: "try-rows" },
      fixed.map(({ element }) => element),
    ),
  );
  const pairs = html("div", { class: "pair-rows" });
  const fields = new Map<string, CoefficientField>();
  const setPair = (pair: string, r: number): void => {
    now = { ...now, correlations: { ...now.correlations, [pair]: r } };
    choose(now);
  };
  const symbol = (name: string): string => symbolText(record.inputs[name]!.symbol);
  const pairRow = (pair: string): CoefficientField => {
    const [a, b] = pair.split(":") as [string, string];
    const field = coefficientField(`pair-${a}-${b}`, fillText(words.pair, { a: symbol(a), b: symbol(b) }), (r) =>
      setPair(pair, r),
    );
    fields.set(pair, field);
    pairs.append(field.element);
    return field;
  };
  const stated = record.study.correlations.flatMap(({ between, coefficient }) =>
    typeof coefficient === "number" ? [[between.join(":"), coefficient] as const] : [],
  );
  for (const [pair] of stated) pairRow(pair);

  const chooser = (id: string, label: string, chosen: string): HTMLSelectElement =>
    html(
      "select",
      { id, "aria-label": label },
      names.map((name) => html("option", { value: name, selected: name === chosen }, symbol(name))),
    );
  const first = chooser("pair-first", words.first, names[0] ?? "");
  const second = chooser("pair-second", words.second, names[1] ?? "");
  const add = html(
    "button",
    {
      type: "button",
      class: "quiet small",
      id: "pair-add",
      onclick: () => {
        const [a, b] = [first.value, second.value];
        if (a === b || fields.has(`${a}:${b}`) || fields.has(`${b}:${a}`)) return;
        pairRow(`${a}:${b}`);
        setPair(`${a}:${b}`, 0.5);
      },
    },
    words.correlate,
  );
  const set = (to: StudyChange): void => {
    now = to;
    for (const row of rows) row.set(to.inputs[row.name] ?? UNCHANGED);
    if (constants.some((name) => to.inputs[name] !== undefined)) fold.open = true;
    for (const pair of Object.keys(to.correlations)) if (!fields.has(pair)) pairRow(pair);
    for (const [pair, field] of fields)
      field.set(to.correlations[pair] ?? stated.find(([key]) => key === pair)?.[1] ?? 0);
  };
  set(now);
  return {
    element: html(
      "div",
      { class: "tries" },
      html("p", { class: "note" }, words.widthHelp),
      html(
        "div",
        { class: "try-rows" },
        varying.map(({ element }) => element),
      ),
      fixed.length === 0 ? null : fold,
      names.length < 2
        ? null
        : html(
            "fieldset",
            { class: "correlating" },
            html("legend", {}, words.correlations),
            pairs,
            html("p", { class: "buttons" }, first, html("span", {}, words.with), second, add),
          ),
    ),
    set,
  };
}

interface InputRow {
  readonly name: string;
  readonly element: HTMLElement;
  set(change: InputChange): void;
}

function inputRow(record: RunRecord, name: string, change: (name: string, part: Part) => void): InputRow {
  const { symbol, distribution } = record.inputs[name]!;
  const fixedKind = !hasWidth(record.study.inputs[name]!);
  let width = 1;
  const select = html(
    "select",
    {
      id: `try-kind-${name}`,
      "aria-label": fillText(words.distributionOf, { x: symbolText(symbol) }),
      onchange: () => {
        if (!isKind(select.value)) return;
        change(name, {
          kind: select.value,
          ...(select.value === "stated" && fixedKind && width !== 0 ? { width: 1 } : {}),
          // Degrees of freedom are those of a kind; an estimate is the quantity's.
          freedom: undefined,
        });
      },
    },
    KINDS.map((kind) =>
      html(
        "option",
        { value: kind },
        kind === "stated" ? fillText(words.asStated, { distribution }) : kindWords(kind, messages),
      ),
    ),
  );
  const fields = [
    estimateField(record, name, (estimate) => change(name, { estimate })),
    widthField(record, name, (factor) => change(name, { width: factor })),
    freedomField(record, name, (freedom) => change(name, { freedom })),
  ];
  return {
    name,
    element: html(
      "div",
      { class: "try-row", "data-input": name },
      quantityCell(record, name),
      select,
      fields.map(({ element }) => element),
    ),
    set(to) {
      width = to.width;
      select.value = to.kind;
      for (const field of fields) field.set(to);
    },
  };
}

/** A constant has a value and nothing else to change. */
function constantRow(record: RunRecord, name: string, change: (name: string, part: Part) => void): InputRow {
  const field = estimateField(record, name, (estimate) => change(name, { estimate }));
  return {
    name,
    element: html(
      "div",
      { class: "try-row of-constant", "data-input": name },
      quantityCell(record, name),
      field.element,
    ),
    set: field.set,
  };
}

const quantityCell = ({ inputs }: RunRecord, name: string): HTMLElement => {
  const { symbol, meaning } = inputs[name]!;
  return html("p", { class: "quantity-cell" }, symbolNode(symbol), html("span", {}, meaning === symbol ? "" : meaning));
};
