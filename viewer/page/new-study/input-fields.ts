import type { Quantity } from "../../../engine/index.ts";
import { html } from "../draw/node.ts";
import { symbolNode } from "../draw/symbol.ts";
import { unitOfFigure } from "../../present/field-units.ts";
import { words } from "../../present/field-words.ts";
import { symbolText } from "../../present/symbol.ts";
import { choice, idOf, labelled, numberInput, textArea, textInput, type Spots } from "./controls.ts";
import type { InputDraft } from "./draft.ts";
import { isShown, type Field, type Kind } from "./fields.ts";

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** How kinds are called in the list; others by their own names. */
const KINDS: ReadonlyMap<string, string> = new Map([
  ["t", "t (Student)"],
  ["readings", "readings: the indications themselves"],
  ["constant", "constant: taken as exact"],
  ["log-normal", "log-normal"],
]);
const kindWords = (name: string): string => KINDS.get(name) ?? name.replaceAll("-", " ");

/**
 * What is known of one input: its kind of distribution, the fields of that kind and the source.
 *
 * @param change told of every change, with the whole of what is then stated
 */
export function inputFields(
  name: string,
  quantity: Quantity,
  before: InputDraft | undefined,
  kinds: readonly Kind[],
  spots: Spots,
  change: (draft: InputDraft) => void,
): HTMLElement {
  let draft: InputDraft = before ?? { distribution: "", fields: {} };
  const place = `inputs.${name}`;
  const set = (field: string, text: string): void => {
    draft = { ...draft, fields: { ...draft.fields, [field]: text } };
    change(draft);
  };
  const fields = html("span", { class: "own-fields" });
  const kept = html("p", { class: "note" });
  const drawFields = (): void => {
    for (const key of spots.keys())
      if (key.startsWith(`${place}.`) && key !== `${place}.distribution` && key !== `${place}.source`)
        spots.delete(key);
    const kind = kinds.find((one) => one.name === draft.distribution);
    const carried = (kind?.fields ?? [])
      .filter((field) => !isShown(field) && (draft.fields[field.name] ?? "") !== "")
      .map((field) => words(field.name));
    kept.textContent = carried.length === 0 ? "" : `Kept as it is, without a field here: ${carried.join(", ")}.`;
    fields.replaceChildren(
      ...(kind?.fields ?? [])
        .filter(isShown)
        .map((field) =>
          fieldOf(place, quantity, field, draft.fields[field.name] ?? "", spots, (text) => set(field.name, text)),
        ),
    );
  };
  const options: (readonly [string, string])[] = [
    ["", "choose…"],
    ...kinds.map((kind) => [kind.name, kindWords(kind.name)] as const),
  ];
  const select = choice(draft.distribution, options, (distribution) => {
    draft = { ...draft, distribution };
    drawFields();
    change(draft);
  });
  const message = html("p", { class: "field-problem", id: `${idOf(place)}-problem` });
  spots.set(place, { place, name: quantity.meaning, control: select, message });
  const row = html(
    "fieldset",
    { class: "input-row", "aria-describedby": message.id },
    html(
      "legend",
      {},
      symbolNode(quantity.symbol),
      " ",
      html("span", {}, quantity.meaning === quantity.symbol ? "" : quantity.meaning),
      html("span", { class: "note" }, quantity.unit === "1" ? "dimension one" : `in ${quantity.unit}`),
    ),
    html(
      "span",
      { class: "fields" },
      labelled(
        {
          place: `${place}.distribution`,
          label: "Distribution",
          name: `distribution of ${symbolText(quantity.symbol)}`,
        },
        select,
        spots,
      ),
      fields,
      labelled(
        {
          place: `${place}.source`,
          label: "Source",
          name: `source of ${symbolText(quantity.symbol)}`,
          help: "Where the figures come from",
          wide: true,
        },
        textInput(draft.fields["source"] ?? "", (text) => set("source", text)),
        spots,
      ),
    ),
    kept,
    message,
  );
  drawFields();
  return row;
}

function fieldOf(
  place: string,
  quantity: Quantity,
  field: Field,
  text: string,
  spots: Spots,
  change: (text: string) => void,
): HTMLElement {
  const unit = unitOfFigure(field.unit, quantity.unit);
  const label = capital(words(field.name));
  const long = field.shape === "numbers" || field.shape === "json";
  const control = long
    ? textArea(text, 2, change)
    : field.shape === "number"
      ? numberInput(text, change)
      : textInput(text, change);
  const how =
    field.shape === "numbers" ? "; with spaces between them" : field.shape === "json" ? "; written as JSON" : "";
  const help = field.help.toLowerCase() === words(field.name) ? "" : field.help;
  return labelled(
    {
      place: `${place}.${field.name}`,
      label,
      name: `${words(field.name)} of ${symbolText(quantity.symbol)}`,
      unit: unit === "1" ? "" : unit,
      help: `${help}${how}`,
      wide: long,
    },
    control,
    spots,
  );
}
