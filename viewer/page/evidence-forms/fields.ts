import { html } from "../draw/node.ts";
import { field, input, select } from "../evidence/field.ts";
import type { FormContext } from "../evidence/frame.ts";
import { fillText } from "../../present/fill.ts";
import { openEvidenceFile } from "../api.ts";
import { words } from "../later-words.ts";
import type { EvidenceKind } from "../../api/evidence.ts";
import { rememberUnit, type SmallUnit } from "./units.ts";

/** Fields that write what is typed into the draft, one after the other. */
export function fieldsOf<Draft extends object>(context: FormContext<Draft>) {
  type Text = Extract<{ [K in keyof Draft]: Draft[K] extends string ? K : never }[keyof Draft], string>;
  const set = (name: Text, value: string): void => {
    (context.draft() as Record<string, unknown>)[name] = value;
    context.changed();
  };
  const valueOf = (name: Text): string => String(context.draft()[name]);
  return {
    /** A field of text under its label. */
    text: (name: Text, label: string, help = "", kind: "wide" | "figure" | "date" = "figure"): HTMLElement =>
      field(
        `setup-${name}`,
        label,
        input(
          valueOf(name),
          (value) => set(name, value),
          kind === "wide" ? {} : kind === "date" ? { size: "12" } : { class: "figure", inputmode: "decimal" },
        ),
        help,
        kind === "wide",
      ),
    /** A choice; the form is drawn anew with it. */
    choice: (name: Text, label: string, options: readonly (readonly [string, string])[], help = ""): HTMLElement =>
      field(
        `setup-${name}`,
        label,
        select(valueOf(name), options, (value) => {
          set(name, value);
          context.redraw();
        }),
        help,
        true,
      ),
  };
}

/** The unit of small differences: what was typed keeps its meaning, written in the other unit. */
export const unitField = <Draft extends { unit: SmallUnit }>(
  context: FormContext<Draft>,
  from: (document: Readonly<Record<string, unknown>>, unit: SmallUnit) => Draft,
): HTMLElement =>
  field(
    "setup-unit",
    words.forms.unit,
    select(
      context.draft().unit,
      [
        ["mK", "mK"],
        ["K", "K (°C)"],
      ],
      (value) => {
        const unit = value as SmallUnit;
        rememberUnit(unit);
        Object.assign(context.draft(), from(context.document(), unit));
        context.changed();
        context.redraw();
      },
    ),
  );

/** A field that takes a file as the form or the command line writes it. */
export function fileField<Draft>(
  kind: EvidenceKind,
  context: FormContext<Draft>,
  accept: string,
  help: string,
): HTMLElement {
  const chosen = html("input", {
    type: "file",
    accept,
    onchange: () => {
      const [file] = chosen.files ?? [];
      if (file === undefined) return;
      void openInto(kind, context, file).then(() => (chosen.value = ""));
    },
  });
  return field("setup-open", words.forms.openFile, chosen, help, true);
}

/** Takes a description into the form, if it is of the form's kind. */
export async function openInto<Draft>(kind: EvidenceKind, context: FormContext<Draft>, file: File): Promise<void> {
  try {
    const opened = await openEvidenceFile(file);
    if (opened.kind === kind) return context.replace(opened.document);
    context.complain([], fillText(words.forms.otherKind, { name: file.name }));
  } catch (error) {
    context.refused(error);
  }
}

/** A panel of a form. */
export const panel = (id: string, title: string, ...content: readonly (HTMLElement | null)[]): HTMLElement =>
  html(
    "section",
    { class: "panel", id: `setup-${id}`, "aria-labelledby": `setup-${id}-title` },
    html("h2", { id: `setup-${id}-title`, tabindex: -1 }, title),
    ...content,
  );
