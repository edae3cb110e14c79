import type { EvaluatedEvidence, EvidenceUse } from "../../api/evidence-evaluation.ts";
import { fillText } from "../../present/fill.ts";
import type { Table } from "../../present/tables/table.ts";
import { html, type Child } from "../draw/node.ts";
import { wideTable } from "../draw/table.ts";
import type { Place } from "../evidence/complaints.ts";
import { field, input, select } from "../evidence/field.ts";
import { createEvidenceForm, type EvidenceView, type FormContext, type FormParts } from "../evidence/frame.ts";
import { speech } from "../language.ts";
import { words } from "../later-words.ts";
import { inWords } from "../survey-setup/problem-places.ts";
import { fieldsOf, fileField, openInto, panel, unitField } from "./fields.ts";
import { createGrid } from "./grid.ts";
import {
  emptyImmersion,
  immersionDocument,
  immersionFrom,
  WITHDRAWAL,
  type ImmersionDraft,
  type WithdrawalField,
} from "./immersion-draft.ts";
import { createIntoStudy, type StudyDoor } from "./into-study.ts";
import { filledRows } from "./readings-draft.ts";
import { createResult } from "./result.ts";
import { rememberedUnit } from "./units.ts";

/** An immersion check: readings at several depths, a withdrawal, or both. */
export const immersionView = (door: StudyDoor): EvidenceView =>
  createEvidenceForm<ImmersionDraft>({
    kind: "immersion",
    heading: words.forms.immersion.heading,
    title: words.frame.evidence.immersion,
    evaluate: words.forms.kept,
    empty: () => emptyImmersion(rememberedUnit()),
    draftOf: (document) => immersionFrom(document, rememberedUnit()),
    documentOf: immersionDocument,
    placeOf,
    inWords,
    missing,
    address: (id) => ({ kind: "evidence-form", form: "immersion", id }),
    versionAddress: () => null,
    parts: (context) => parts(context, door),
  });

const withoutUnit = (label: string): string => label.replace(/ \/ [^/]*$/, "");

function placeOf(place: string, draft: ImmersionDraft): Place | null {
  const { immersion, name, rowPlace } = words.forms;
  const [first, second, third] = place
    .replace(/^.*\.json, /, "")
    .replace(/^immersion\./, "")
    .split(".");
  switch (first) {
    case "title":
      return { id: "setup-title", name };
    case "planned":
    case "limit":
      return { id: `setup-${first}`, name: withoutUnit(immersion[first]) };
    case "withdrawal": {
      const known = WITHDRAWAL.find(([one]) => one === second)?.[0] ?? "depth";
      return { id: `setup-withdrawal-${known}`, name: withoutUnit(immersion.fields[known]) };
    }
    case "depths": {
      const row = filledRows(draft.depths)[Number(second)] ?? 0;
      const column = third === "depth" || third === undefined ? "depth" : third;
      const heads = { depth: immersion.depth, reading: immersion.reading, reference: immersion.stays };
      return {
        id: `setup-depths-${row}-${column}`,
        name:
          second === undefined
            ? immersion.depths
            : fillText(rowPlace, { row: String(row + 1), column: withoutUnit(heads[column as keyof typeof heads]) }),
      };
    }
    default:
      return null;
  }
}

function missing(draft: ImmersionDraft): Place[] {
  const { immersion, name } = words.forms;
  const filled = (typed: string | undefined): boolean => (typed ?? "").trim() !== "";
  const withdrawn = WITHDRAWAL.some(([one]) => filled(draft.withdrawal[one]));
  const rows = filledRows(draft.depths).length;
  const wanted: [boolean, string, string][] = [
    [filled(draft.title), "setup-title", name],
    [filled(draft.planned), "setup-planned", withoutUnit(immersion.planned)],
    [filled(draft.limit), "setup-limit", withoutUnit(immersion.limit)],
    [rows >= 3 || (rows === 0 && withdrawn), `setup-depths-${rows}-depth`, immersion.missing],
    ...(withdrawn
      ? (["depth", "before", "after"] as const).map((one): [boolean, string, string] => [
          filled(draft.withdrawal[one]),
          `setup-withdrawal-${one}`,
          withoutUnit(immersion.fields[one]),
        ])
      : []),
  ];
  return wanted.filter(([there]) => !there).map(([, id, missed]) => ({ id, name: missed }));
}

function parts(context: FormContext<ImmersionDraft>, door: StudyDoor): FormParts {
  const { draft, changed } = context;
  const { forms } = words;
  const { immersion } = forms;
  const own = fieldsOf(context);
  const head = html("div", { class: "fields" });
  const asked = html("div", { class: "fields" });
  const readAs = html("div", { class: "fields" });
  const withdrawal = html("div", { class: "fields" });
  let distribution: NonNullable<EvidenceUse["distribution"]> = "rectangular";
  const use = (): EvidenceUse => ({ distribution });
  const inUnit = (label: string): string => fillText(label, { unit: draft().unit });

  const grid = createGrid(
    "setup-depths",
    immersion.depths,
    () => ({
      columns:
        draft().readAs === "indications"
          ? [
              { name: "depth", head: immersion.depth },
              { name: "reading", head: immersion.reading },
              { name: "reference", head: immersion.stays },
            ]
          : [
              { name: "depth", head: immersion.depth },
              { name: "reading", head: inUnit(immersion.difference) },
            ],
      rows: draft().depths,
    }),
    changed,
  );
  const result = createResult(
    "immersion",
    context,
    use,
    (found) => shown(found, draft()),
    () => into.draw(),
  );
  const into = createIntoStudy(context, door, result.evaluated, use);
  const distributionField = field(
    "setup-distribution",
    immersion.distribution,
    select(
      distribution,
      [
        ["rectangular", immersion.rectangular],
        ["triangular", immersion.triangular],
        ["arcsine", immersion.arcsine],
      ],
      (value) => {
        distribution = value as typeof distribution;
        result.soon();
      },
    ),
  );

  const withdrawalField = (name: WithdrawalField): HTMLElement =>
    field(
      `setup-withdrawal-${name}`,
      inUnit(immersion.fields[name]),
      input(
        draft().withdrawal[name] ?? "",
        (value) => {
          draft().withdrawal[name] = value;
          changed();
        },
        { class: "figure", inputmode: "decimal" },
      ),
    );

  return {
    head,
    sections: [
      panel("asked", immersion.asked, html("p", { class: "caution" }, forms.safety), asked),
      panel("depths", immersion.depths, html("p", { class: "note" }, immersion.depthsHelp), readAs, grid.element),
      panel("withdrawal", immersion.withdrawal, html("p", { class: "note" }, immersion.withdrawalHelp), withdrawal),
    ],
    below: [result.element, html("div", { class: "fields" }, distributionField), into.element],
    draw: () => {
      head.replaceChildren(
        own.text("title", forms.name, "", "wide"),
        own.text("notes", forms.notes, "", "wide"),
        unitField(context, (document, unit) => ({ ...immersionFrom(document, unit), readAs: draft().readAs })),
        fileField("immersion", context, ".json", forms.openFileHelp),
      );
      asked.replaceChildren(own.text("planned", immersion.planned), own.text("limit", inUnit(immersion.limit)));
      readAs.replaceChildren(
        own.choice("readAs", immersion.readAs, [
          ["indications", immersion.indications],
          ["differences", immersion.differences],
        ]),
      );
      withdrawal.replaceChildren(...WITHDRAWAL.map(([name]) => withdrawalField(name)));
      grid.draw();
      into.draw();
    },
    opened: result.soon,
    saved: () => document.getElementById("setup-result-title")?.focus(),
    changed: result.soon,
    take: async ([file]) => {
      if (file !== undefined) await openInto("immersion", context, file);
    },
  };
}

/** What came out, in sentences and a table. */
function shown({ immersion: found }: EvaluatedEvidence, { depths }: ImmersionDraft): Child[] {
  const { numbers } = speech;
  const { immersion } = words.forms;
  const mK = (kelvin: number): string => `${numbers.fixed(1000 * kelvin, 2)}\u00a0mK`;
  const mm = (length: number): string => numbers.plain(Number(length.toPrecision(3)));
  if (found === undefined) return [];
  const { withdrawal, fit } = found;
  const passed = [fit?.enough, withdrawal?.passed].every((one) => one !== false);
  const rows = filledRows(depths).map((i) => depths[i]!);
  const table: Table | null =
    fit === null
      ? null
      : {
          caption: immersion.tableOf,
          columns: [
            { head: immersion.depth, kind: "head" },
            { head: immersion.fittedError, kind: "number" },
          ],
          rows: rows.map(({ depth = "" }, i) => ({ head: depth, cells: [numbers.fixed(1000 * fit.errors[i]!, 2)] })),
        };
  return [
    html("p", { id: "setup-enough" }, html("strong", {}, passed ? immersion.enough : immersion.notEnough)),
    fit === null
      ? null
      : html(
          "p",
          { id: "setup-fit" },
          `${fillText(immersion.length, { length: mm(fit.conductionLength), depth: mm(Math.max(0, fit.sufficientDepth)) })} ` +
            fillText(immersion.atPlanned, {
              depth: mm(fit.plannedDepth),
              error: mK(fit.plannedError),
              u:
                fit.plannedStandardUncertainty === null
                  ? ""
                  : fillText(immersion.withU, { u: mK(fit.plannedStandardUncertainty) }),
            }),
        ),
    withdrawal === null
      ? null
      : html(
          "p",
          { id: "setup-withdrawn" },
          fillText(immersion.byWithdrawal, {
            change: mK(withdrawal.change),
            error: mK(withdrawal.error),
            length: mm(withdrawal.conductionLength),
          }),
        ),
    table === null ? null : wideTable(table, "setup-depths-fitted"),
  ];
}
