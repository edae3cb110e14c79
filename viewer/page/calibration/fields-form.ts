import { html, type Child } from "../draw/node.ts";
import { words as pageWords } from "../later-words.ts";
import { ITEM_FIELDS, SHARED_FIELDS, textOf, withText, type CertificateField, type FieldKind } from "./fields-draft.ts";
import type { TypedFields } from "./typed-fields.ts";

type Json = Readonly<Record<string, unknown>>;
type Control = HTMLInputElement | HTMLTextAreaElement | HTMLSelectElement;

const words = pageWords.calibrationRoom;

/** Attributes of the inputs that are one line. */
const INPUTS: Readonly<Partial<Record<FieldKind, Readonly<Record<string, string>>>>> = {
  line: { type: "text", maxlength: "200" },
  day: { type: "date" },
  email: { type: "email" },
  number: { type: "number", step: "any" },
  country: { type: "text", pattern: "[A-Z]{2}", maxlength: "2" },
};

/** What becomes of the form. */
interface Told {
  /** What stands in its fields, by their ids, whenever something was typed. */
  readonly typed: (values: TypedFields) => void;
  /** The calibration with what was typed. */
  readonly taken: (next: Json) => void;
}

/**
 * The fields of the certificates as a form: what the document states, to be filled in or changed.
 *
 * @param calibration the calibration as it stands now
 * @param before what was typed earlier and not taken
 */
export function certificateFieldsForm(calibration: Json, before: TypedFields | null, told: Told): HTMLElement {
  const instruments = (calibration["instruments"] ?? []) as readonly Json[];
  const typed: { readonly field: CertificateField; readonly of: number | null; readonly control: Control }[] = [];
  const row = (field: CertificateField, of: number | null): Child => {
    const id = `certificate-${of === null ? "" : `${of + 1}-`}${field.name}`;
    const stated = textOf(of === null ? calibration["certificate"] : instruments[of], field);
    // Without a name of its own, a certificate has that of the calibration.
    const otherwise = field.name === "laboratoryName" ? String(calibration["laboratory"] ?? "") : "";
    const control = controlOf(field, stated === "" ? otherwise : stated);
    control.id = id;
    if (before?.[id] !== undefined) control.value = before[id];
    const label = words.fields[field.name as keyof typeof words.fields];
    const note = field.kind === "country" ? words.countryNote : field.kind === "lines" ? words.linesNote : null;
    if (note !== null) control.setAttribute("aria-describedby", `${id}-note`);
    typed.push({ field, of, control });
    return html(
      "p",
      { class: "certificate-field" },
      html("label", { for: id }, label),
      control,
      note === null ? null : html("span", { class: "note", id: `${id}-note` }, note),
    );
  };
  const group = (legend: string, fields: readonly CertificateField[], of: number | null): Child =>
    html(
      "fieldset",
      {},
      html("legend", {}, legend),
      fields.map((field) => row(field, of)),
    );
  return html(
    "details",
    { class: "certificate-fields", id: "certificate-fields", open: before !== null },
    html("summary", {}, words.fieldsTitle),
    html(
      "form",
      {
        oninput: () => told.typed(Object.fromEntries(typed.map(({ control }) => [control.id, control.value]))),
        onsubmit: (event: Event) => {
          event.preventDefault();
          told.taken(
            typed.reduce<Json>((all, { field, of, control }) => withField(all, field, of, control.value), calibration),
          );
        },
      },
      group(words.fieldsOfAll, SHARED_FIELDS, null),
      instruments.map((instrument, i) => group(String(instrument["id"]), ITEM_FIELDS, i)),
      html("p", {}, html("button", { type: "submit", class: "primary", id: "take-fields" }, words.takeFields)),
    ),
  );
}

function withField(calibration: Json, field: CertificateField, of: number | null, text: string): Json {
  if (of !== null) {
    const instruments = calibration["instruments"] as readonly Json[];
    return {
      ...calibration,
      instruments: instruments.map((each, i) => (i === of ? withText(each, field, text) : each)),
    };
  }
  return { ...calibration, certificate: withText(calibration["certificate"], field, text) };
}

function controlOf({ kind }: CertificateField, text: string): Control {
  if (kind === "at")
    return html(
      "select",
      {},
      (["", "laboratory", "customer", "other"] as const).map((value) =>
        html("option", { value, selected: value === text }, value === "" ? words.notStated : words.places[value]),
      ),
    );
  if (kind === "lines" || kind === "text") {
    const area = html("textarea", { rows: 2 });
    area.value = text;
    return area;
  }
  const input = html("input", INPUTS[kind] ?? {});
  input.value = text;
  return input;
}
