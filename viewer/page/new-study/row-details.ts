import { words } from "../later-words.ts";
import { fillText } from "../../present/fill.ts";
import { unitOfFigure } from "../../present/field-units.ts";
import { withUnit } from "../../present/numbers.ts";
import { fieldName } from "../field-name.ts";
import { html, type Child } from "../draw/node.ts";
import type { TableHost } from "./table-host.ts";
import { attachedFiles, attachedTo } from "./attached-files.ts";
import { choice, labelled, numberInput, textArea, textInput } from "./controls.ts";
import type { Field } from "./fields.ts";
import { howOf, type How } from "./hows.ts";
import { mixtureFields } from "./mixture-fields.ts";
import { resolvedPart } from "./relative.ts";
import { furtherFields, type Row } from "./row.ts";

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

export interface RowActions {
  readonly move: ((by: -1 | 1) => void) | null;
  readonly insert: (() => void) | null;
  readonly remove: (() => void) | null;
  /** Takes a change that these details show, and draws them anew. */
  readonly redrawn: (row: Row) => void;
}

/** The row that opens below: fields without a column, the source in full, the evidence, and what can be done with the row. */
export function rowDetails(
  row: Row,
  line: number,
  host: TableHost,
  change: (row: Row) => void,
  actions: RowActions,
): HTMLElement {
  let now = row;
  const place = `inputs.${row.key}`;
  const set = (name: string, text: string): void => {
    now = { ...now, fields: { ...now.fields, [name]: text } };
    change(now);
  };
  const how = howOf(row.how);
  const further = how === undefined ? [] : furtherFields(how, host.kinds());
  const fieldOf = (field: Field): HTMLElement =>
    field.name === "components"
      ? mixtureFields(now.fields["components"] ?? "", place, host, (text) => set("components", text))
      : labelled(
          {
            place: `${place}.${field.name}`,
            label: capital(fieldName(field.name)),
            name: `${fieldName(field.name)}${fillText(words.studyTable.ofRow, { n: String(line) })}`,
            unit: unitText(unitOfFigure(field.unit, row.unit)),
            help: field.help,
          },
          control(field, now.fields[field.name] ?? "", (text) => set(field.name, text)),
          host.spots,
        );
  const button = (label: string, act: (() => void) | null): Child =>
    act === null ? null : html("button", { type: "button", class: "quiet small", onclick: act }, label);
  return html(
    "div",
    { class: "row-details", role: "group", "aria-label": fillText(words.studyTable.moreOf, { n: String(line) }) },
    html(
      "div",
      { class: "fields" },
      listsOf(now, host).map((cell) => inFull(now, line, cell, (text) => set(cell.field, text))),
      further.map(fieldOf),
      inFull(now, line, SOURCE, (text) => set("source", text)),
    ),
    partOf(row, how),
    attachedFiles(row, line, () => now, actions.redrawn),
    evidenceOf(row),
    html(
      "p",
      { class: "buttons" },
      button(words.studyTable.up, actions.move === null ? null : () => actions.move!(-1)),
      button(words.studyTable.down, actions.move === null ? null : () => actions.move!(1)),
      button(words.studyTable.insert, actions.insert),
      button(words.studyTable.removeRow, actions.remove),
    ),
  );
}

const unitText = (unit: string): string => (unit === "1" ? "" : unit);

/** A cell of the table that shows the beginning of its text alone. */
interface LongCell {
  readonly column: string;
  readonly field: string;
  readonly label: string;
  readonly help: string;
}

const SOURCE: LongCell = {
  column: "source",
  field: "source",
  label: words.studyTable.sourceInFull,
  help: words.studyTable.sourceHelp,
};

/** The cells of a row that take a list. */
const listsOf = ({ how }: Row, host: TableHost): LongCell[] => {
  const known = howOf(how);
  const lists = host
    .kinds()
    .find(({ name }) => name === known?.kind)
    ?.fields.filter(({ shape }) => shape === "numbers");
  return (["first", "second"] as const).flatMap((column): LongCell[] => {
    const cell = known?.[column];
    return cell === undefined || lists?.every(({ name }) => name !== cell.field) !== false
      ? []
      : [
          {
            column,
            field: cell.field,
            label: fillText(words.studyTable.inFull, { what: capital(cell.words) }),
            help: words.studyTable.listHelp,
          },
        ];
  });
};

/** A text in full that a cell of the table shows the beginning of; both have the same text. */
function inFull(
  row: Row,
  line: number,
  { column, field, label, help }: LongCell,
  change: (text: string) => void,
): HTMLElement {
  const id = `full-${column}-${row.key}`;
  const area = textArea(row.fields[field] ?? "", 2, (text) => {
    change(text);
    const cell = document.getElementById(`cell-${row.key}-${column}`) as HTMLInputElement | null;
    if (cell !== null) cell.value = text;
  });
  area.id = id;
  return html(
    "p",
    { class: "field wide" },
    html(
      "label",
      { for: id },
      label,
      html("span", { class: "unseen" }, fillText(words.studyTable.ofRow, { n: String(line) })),
    ),
    area,
    html("span", { class: "note" }, help),
  );
}

function control(
  field: Field,
  text: string,
  change: (text: string) => void,
): HTMLInputElement | HTMLSelectElement | HTMLTextAreaElement {
  if (field.name === "evaluation")
    return choice(
      text as "" | "A" | "B",
      [
        ["", words.studyTable.types.none],
        ["A", words.studyTable.types.A],
        ["B", words.studyTable.types.B],
      ],
      change,
    );
  return field.shape === "numbers" || field.shape === "json"
    ? textArea(text, 2, change)
    : field.shape === "number"
      ? numberInput(text, change)
      : textInput(text, change);
}

/** What a percentage of the estimate comes to. */
function partOf({ fields, unit }: Row, how: How | undefined): Child {
  const field = how?.first?.field ?? "";
  const value = resolvedPart(field, fields);
  return value === null
    ? null
    : html(
        "p",
        { class: "note part-of-estimate" },
        fillText(words.studyTable.partIs, {
          part: fields[field]!.trim(),
          value: withUnit(String(value).replace("-", "−"), unit.trim() || "1"),
        }),
      );
}

/** The raw data that the figures of a row were evaluated from, which the study carries along. */
function evidenceOf(row: Row): Child {
  if (attachedTo(row) !== null) return null;
  const { rest } = row;
  const evidence = rest["evidence"] as
    | { readonly method?: unknown; readonly files?: readonly { readonly name?: unknown }[] }
    | undefined;
  if (evidence === undefined) return null;
  const files = (evidence.files ?? []).map(({ name }) => String(name));
  return html(
    "p",
    { class: "note" },
    fillText(words.studyTable.evidence, {
      from: files.length === 0 ? words.studyTable.rawData : files.join(", "),
      method: String(evidence.method ?? ""),
    }),
  );
}
