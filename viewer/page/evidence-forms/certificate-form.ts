import type { EvaluatedEvidence, EvidenceUse } from "../../api/evidence-evaluation.ts";
import { fillText } from "../../present/fill.ts";
import { html, type Child } from "../draw/node.ts";
import type { Place } from "../evidence/complaints.ts";
import { field, input, select } from "../evidence/field.ts";
import { createEvidenceForm, type EvidenceView, type FormContext, type FormParts } from "../evidence/frame.ts";
import { figure } from "../evidence/text.ts";
import { speech } from "../language.ts";
import { words } from "../later-words.ts";
import { inWords } from "../survey-setup/problem-places.ts";
import {
  certificateDocument,
  certificateFrom,
  emptyCertificate,
  HEAD,
  historyRow,
  type CertificateDraft,
} from "./certificate-draft.ts";
import { fieldsOf, fileField, openInto, panel, unitField } from "./fields.ts";
import { createGrid } from "./grid.ts";
import { createIntoStudy, type StudyDoor } from "./into-study.ts";
import { filledRows } from "./readings-draft.ts";
import { createResult } from "./result.ts";
import { rememberedUnit } from "./units.ts";

/** A reference's certificate: its points, their uncertainty, its earlier calibrations, and where it is used. */
export const certificateView = (door: StudyDoor): EvidenceView =>
  createEvidenceForm<CertificateDraft>({
    kind: "certificate",
    heading: words.forms.certificate.heading,
    title: words.frame.evidence.certificate,
    evaluate: words.forms.kept,
    empty: () => emptyCertificate(rememberedUnit()),
    draftOf: (document) => certificateFrom(document, rememberedUnit()),
    documentOf: certificateDocument,
    placeOf,
    inWords,
    missing,
    address: (id) => ({ kind: "evidence-form", form: "certificate", id }),
    versionAddress: () => null,
    parts: (context) => parts(context, door),
  });

/** Columns of the points by their fields in the description. */
const POINT: Readonly<Record<string, string>> = {
  temperature: "temperature",
  correction: "correction",
  standardUncertainty: "uncertainty",
  expandedUncertainty: "uncertainty",
  coverageFactor: "factor",
  coverageProbability: "factor",
  effectiveDegreesOfFreedom: "freedom",
};

function placeOf(place: string, draft: CertificateDraft): Place | null {
  const { certificate, rowPlace } = words.forms;
  const [first, second, third, fourth, fifth] = place.replace(/^.*\.json, /, "").split(".");
  const known = HEAD.find((name) => name === first);
  if (known !== undefined) return { id: `setup-${known}`, name: certificate.head[known] };
  switch (first) {
    case "intervalMonths":
      return { id: "setup-intervalMonths", name: certificate.interval };
    case "points": {
      const row = filledRows(draft.points)[Number(second)] ?? 0;
      const column = POINT[third ?? ""] ?? "uncertainty";
      const own = (draft.points[row]?.[column] ?? "").trim() !== "";
      if (column === "factor" && !own)
        return { id: "setup-factor", name: draft.statedAs === "p" ? certificate.p : certificate.k };
      return {
        id: `setup-points-${row}-${column}`,
        name: fillText(rowPlace, { row: String(row + 1), column: certificate.points }),
      };
    }
    case "history": {
      const row = historyRow(draft, Number(second), Number(fourth ?? 0));
      const column = third === "points" ? (fifth ?? "temperature") : (third ?? "calibrated");
      return {
        id: `setup-earlier-${row}-${column}`,
        name: fillText(rowPlace, { row: String(row + 1), column: certificate.history }),
      };
    }
    case "temperature":
      return { id: "setup-at", name: certificate.at };
    case "on":
    case "date":
      return { id: "setup-on", name: certificate.on };
    default:
      return null;
  }
}

function missing(draft: CertificateDraft): Place[] {
  const { certificate } = words.forms;
  const filled = (typed: string | undefined): boolean => (typed ?? "").trim() !== "";
  const rows = filledRows(draft.points);
  const whole = rows.filter((i) => filled(draft.points[i]!["temperature"]) && filled(draft.points[i]!["uncertainty"]));
  const wanted: [boolean, string, string][] = [
    [filled(draft.thermometer), "setup-thermometer", certificate.head.thermometer],
    [filled(draft.calibrated), "setup-calibrated", certificate.head.calibrated],
    [
      draft.statedAs === "u" || filled(draft.factor) || rows.every((i) => filled(draft.points[i]!["factor"])),
      "setup-factor",
      draft.statedAs === "p" ? certificate.p : certificate.k,
    ],
    [whole.length > 0, "setup-points-0-temperature", certificate.missing],
  ];
  return wanted.filter(([there]) => !there).map(([, id, name]) => ({ id, name }));
}

function parts(context: FormContext<CertificateDraft>, door: StudyDoor): FormParts {
  const { draft, changed } = context;
  const { forms } = words;
  const { certificate } = forms;
  const own = fieldsOf(context);
  const head = html("div", { class: "fields" });
  const stated = html("div", { class: "fields" });
  const used = html("div", { class: "fields" });
  const where = { at: "", on: "", drift: "" };
  const inUnit = (label: string): string => fillText(label, { unit: draft().unit });

  const use = (): EvidenceUse => {
    const temperature = figure(where.at);
    return {
      // What is no number goes as it was typed: the server names its field.
      ...(temperature === undefined ? {} : { temperature: temperature as number }),
      ...(where.on.trim() === "" ? {} : { on: where.on.trim() }),
      ...(where.drift === "" ? {} : { drift: where.drift as "bounds" | "rate" }),
    };
  };
  const points = createGrid(
    "setup-points",
    certificate.points,
    () => {
      const { statedAs, sign } = draft();
      return {
        columns: [
          { name: "temperature", head: certificate.temperature },
          { name: "correction", head: inUnit(sign === 1 ? certificate.correction : certificate.error) },
          { name: "uncertainty", head: inUnit(statedAs === "u" ? certificate.u : certificate.U) },
          ...(statedAs === "u"
            ? []
            : [{ name: "factor", head: statedAs === "k" ? certificate.ownK : certificate.ownP }]),
          { name: "freedom", head: certificate.freedom },
        ],
        rows: draft().points,
      };
    },
    changed,
  );
  const earlier = createGrid(
    "setup-earlier",
    certificate.history,
    () => ({
      columns: [
        { name: "calibrated", head: certificate.calibrated, wide: true },
        { name: "certificate", head: certificate.number, wide: true },
        { name: "temperature", head: certificate.temperature },
        { name: "correction", head: inUnit(draft().sign === 1 ? certificate.correction : certificate.error) },
      ],
      rows: draft().history,
    }),
    changed,
  );
  const result = createResult("certificate", context, use, shown, () => into.draw());
  const into = createIntoStudy(context, door, result.evaluated, use, () => {
    // The temperature of the study's bath, unless another was typed.
    const temperature = into.temperature();
    if (where.at.trim() !== "" || temperature === null) return;
    where.at = String(temperature);
    drawUse();
    result.soon();
  });

  const useField = (name: keyof typeof where, label: string, help = ""): HTMLElement =>
    field(
      `setup-${name}`,
      label,
      input(
        where[name],
        (value) => {
          where[name] = value;
          result.soon();
        },
        name === "at" ? { class: "figure", inputmode: "decimal" } : {},
      ),
      help,
    );
  function drawUse(): void {
    used.replaceChildren(
      useField("at", certificate.at),
      useField("on", certificate.on, certificate.onHelp),
      field(
        "setup-drift",
        certificate.drift,
        select(
          where.drift,
          [
            ["", certificate.bounds],
            ["rate", certificate.rate],
          ],
          (value) => {
            where.drift = value;
            result.soon();
          },
        ),
        "",
        true,
      ),
    );
  }

  return {
    head,
    sections: [
      panel("stated", certificate.stated, stated),
      panel("points-panel", certificate.points, points.element),
      panel(
        "earlier-panel",
        certificate.history,
        html("p", { class: "note" }, certificate.historyHelp),
        earlier.element,
      ),
      panel("use", certificate.use, used),
    ],
    below: [result.element, into.element],
    draw: () => {
      head.replaceChildren(
        ...HEAD.map((name) =>
          own.text(
            name,
            certificate.head[name],
            name === "calibrated" || name === "due" ? certificate.day : "",
            name === "calibrated" || name === "due" ? "date" : "wide",
          ),
        ),
        own.text("intervalMonths", certificate.interval),
        fileField("certificate", context, ".json,.xml", forms.openCertificateHelp),
      );
      stated.replaceChildren(
        unitField(context, (document, unit) => ({
          ...certificateFrom(document, unit, draft().sign),
          statedAs: draft().statedAs,
        })),
        field(
          "setup-sign",
          certificate.sign,
          select(
            String(draft().sign),
            [
              ["1", certificate.corrections],
              ["-1", certificate.errors],
            ],
            (value) => {
              draft().sign = value === "1" ? 1 : -1;
              changed();
              context.redraw();
            },
          ),
          "",
          true,
        ),
        own.choice("statedAs", certificate.uncertainty, [
          ["k", certificate.asK],
          ["p", certificate.asP],
          ["u", certificate.asU],
        ]),
        ...(draft().statedAs === "u"
          ? []
          : [own.text("factor", draft().statedAs === "k" ? certificate.k : certificate.p)]),
      );
      points.draw();
      earlier.draw();
      drawUse();
      into.draw();
    },
    opened: result.soon,
    saved: () => document.getElementById("setup-result-title")?.focus(),
    changed: result.soon,
    take: async ([file]) => {
      if (file !== undefined) await openInto("certificate", context, file);
    },
  };
}

function shown({ certificate: found }: EvaluatedEvidence): Child[] {
  const { certificate } = words.forms;
  if (found == null) return [html("p", { class: "note", id: "setup-no-use" }, certificate.missingUse)];
  const { numbers } = speech;
  const mK = (kelvin: number): string => `${numbers.fixed(1000 * kelvin, 2)}\u00a0mK`;
  return [
    html(
      "p",
      { id: "setup-value" },
      fillText(certificate.value, {
        temperature: numbers.plain(found.value.temperature),
        correction: mK(found.value.correction),
        u: mK(found.value.standardUncertainty),
      }),
    ),
    found.validity.warning === null
      ? null
      : html("p", { class: "caution", id: "setup-overdue" }, `${found.validity.warning}.`),
  ];
}
