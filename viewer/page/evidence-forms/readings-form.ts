import type { EvidenceUse } from "../../api/evidence-evaluation.ts";
import { fillText } from "../../present/fill.ts";
import { cyclesTable, meanTable } from "../../present/tables/readings.ts";
import { html } from "../draw/node.ts";
import { wideTable } from "../draw/table.ts";
import type { Place } from "../evidence/complaints.ts";
import { button, field, select } from "../evidence/field.ts";
import { createEvidenceForm, type EvidenceView, type FormContext, type FormParts } from "../evidence/frame.ts";
import { speech } from "../language.ts";
import { words } from "../later-words.ts";
import { createLogged } from "../survey-setup/logged.ts";
import { createLogPart } from "../survey-setup/log-part.ts";
import { inWords, logPlace, missingOf, thermometerPlace } from "../survey-setup/problem-places.ts";
import { newOne } from "../survey-setup/thermometer-document.ts";
import { createThermometerPart } from "../survey-setup/thermometer-part.ts";
import { fieldsOf, fileField, openInto, panel, unitField } from "./fields.ts";
import { createGrid } from "./grid.ts";
import { createIntoStudy, type StudyDoor } from "./into-study.ts";
import {
  cellOf,
  emptyReadings,
  filledRows,
  readingsDocument,
  readingsFrom,
  type ReadingsDraft,
} from "./readings-draft.ts";
import { createResult } from "./result.ts";
import { rememberedUnit } from "./units.ts";

/** Readings of a comparison: typed, pasted or in a log. */
export const readingsView = (door: StudyDoor): EvidenceView =>
  createEvidenceForm<ReadingsDraft>({
    kind: "readings",
    heading: words.forms.readings.heading,
    title: words.frame.evidence.readings,
    evaluate: words.forms.kept,
    empty: () => emptyReadings(rememberedUnit()),
    draftOf: (document) => readingsFrom(document, rememberedUnit()),
    documentOf: readingsDocument,
    placeOf,
    inWords,
    missing,
    address: (id) => ({ kind: "evidence-form", form: "readings", id }),
    versionAddress: () => null,
    parts: (context) => parts(context, door),
  });

function placeOf(place: string, draft: ReadingsDraft): Place | null {
  const names = place.replace(/^.*\.json, /, "").split(".");
  const { readings, rowPlace, name } = words.forms;
  switch (names[0]) {
    case "title":
      return { id: "setup-title", name };
    case "reference":
      return { id: "setup-thermometers", name: readings.reference };
    case "rows": {
      const row = filledRows(draft.rows)[Number(names[1])] ?? 0;
      const k = draft.thermometers.findIndex((one) => one.name === names.slice(3).join("."));
      const column = k < 0 ? readings.time : draft.thermometers[k]!.name;
      return names.length === 1
        ? { id: "setup-rows", name: readings.table }
        : {
            id: `setup-rows-${row}-${k < 0 ? (names[2] === "time" ? "time" : cellOf(0)) : cellOf(k)}`,
            name: fillText(rowPlace, { row: String(row + 1), column }),
          };
    }
    case "history": {
      const probe = names.slice(1, -2).join(".");
      const rows = filledRows(draft.history).filter((i) => (draft.history[i]!["probe"] ?? "").trim() === probe);
      const row = rows[Number(names.at(-2))] ?? 0;
      const column = names.at(-1) === "degreesOfFreedom" ? "freedom" : "deviation";
      return {
        id: `setup-history-${row}-${column}`,
        name: fillText(rowPlace, { row: String(row + 1), column: readings.history }),
      };
    }
    case "indications":
    case "values":
      return { id: draft.source === "typed" ? `setup-rows-0-${cellOf(0)}` : "setup-files", name: readings.table };
    default:
      return thermometerPlace(place.replace(/^.*\.json, /, ""), draft) ?? logPlace(place, draft);
  }
}

function missing(draft: ReadingsDraft): Place[] {
  const { readings, name } = words.forms;
  const filled = filledRows(draft.rows).filter((i) =>
    draft.thermometers.some((_, k) => (draft.rows[i]![cellOf(k)] ?? "").trim() !== ""),
  );
  const wanted: [boolean, string, string][] = [
    [draft.title.trim() !== "", "setup-title", name],
    [
      draft.thermometers.some((one) => one.name === draft.reference),
      "setup-thermometer-0-reference",
      readings.missingReference,
    ],
    draft.source === "typed"
      ? [filled.length >= 2, `setup-rows-${filled.length}-${cellOf(0)}`, readings.missingRows]
      : [draft.logs.length > 0, "setup-files", readings.missingLog],
  ];
  return [
    ...wanted.filter(([there]) => !there).map(([, id, missed]) => ({ id, name: missed })),
    ...missingOf(draft.thermometers),
  ];
}

function parts(context: FormContext<ReadingsDraft>, door: StudyDoor): FormParts {
  const { draft, changed } = context;
  const { forms } = words;
  const own = fieldsOf(context);
  const head = html("div", { class: "fields" });
  const source = html("div", { class: "fields" });
  const more = html("div", { class: "fields" });
  let probe = "";

  const use = (): EvidenceUse => (probe === "" ? {} : { probe });
  const logged = createLogged(context, drawLog);
  const logPart = createLogPart({
    add: take,
    removeFile: logged.remove,
    changed: () => {
      changed();
      context.redraw();
      void logged.read();
    },
  });
  const thermometerPart = createThermometerPart(
    (redrawn) => {
      changed();
      if (redrawn) thermometerPart.draw(draft());
      grid.draw();
      if (draft().source === "log") void logged.read();
    },
    {
      title: forms.readings.thermometers,
      logged: () => draft().source === "log",
      renamed: (before, name) => {
        if (draft().reference === before) draft().reference = name;
        for (const row of draft().history) if (row["probe"] === before) row["probe"] = name;
        thermometerPart.draw(draft());
      },
      role: {
        head: forms.readings.reference,
        cell: (one, k) =>
          html(
            "td",
            {},
            html("input", {
              type: "radio",
              name: "setup-reference",
              id: `setup-thermometer-${k}-reference`,
              checked: one.name === draft().reference,
              "aria-label": fillText(forms.readings.isReference, { name: one.name }),
              onchange: () => {
                draft().reference = one.name;
                changed();
              },
            }),
          ),
      },
      below: () => (draft().source === "typed" ? thermometerButtons() : null),
    },
  );
  const grid = createGrid(
    "setup-rows",
    forms.readings.table,
    () => ({
      columns: [
        { name: "time", head: forms.readings.time, wide: true },
        ...draft().thermometers.map(({ name, unit }, k) => ({ name: cellOf(k), head: `${name} / ${unit || "°C"}` })),
      ],
      rows: draft().rows,
    }),
    changed,
    takeHeadings,
  );
  const history = createGrid(
    "setup-history",
    forms.readings.history,
    () => ({
      columns: [
        { name: "probe", head: forms.readings.probe, wide: true },
        { name: "deviation", head: fillText(forms.readings.deviation, { unit: draft().unit }) },
        { name: "freedom", head: forms.readings.freedom },
      ],
      rows: draft().history,
    }),
    changed,
  );
  const typedPanel = panel(
    "rows",
    forms.readings.table,
    html("p", { class: "note" }, forms.readings.tableHelp),
    grid.element,
  );
  const historyFold = html(
    "details",
    { class: "panel take-away", id: "setup-history-fold" },
    html("summary", { id: "setup-history-summary" }, forms.readings.history),
    html("p", { class: "note" }, forms.readings.historyHelp),
    history.element,
  );
  const result = createResult(
    "readings",
    context,
    use,
    ({ probes = [] }) =>
      probes.flatMap((one, k) => [
        wideTable(meanTable(one, speech), `setup-mean-${k}`),
        wideTable(cyclesTable(one, speech), `setup-cycles-${k}`),
      ]),
    () => {
      drawMore();
      into.draw();
    },
  );
  const into = createIntoStudy(context, door, result.evaluated, use);

  /** Names and units over pasted columns are those of the thermometers. */
  function takeHeadings(headings: readonly string[], column: number): void {
    headings.forEach((heading, j) => {
      const one = draft().thermometers[column + j - 1];
      const [, name = "", unit = ""] = /^(.*?)\s*(?:[/[(]\s*([^\])]*)[\])]?)?$/.exec(heading) ?? [];
      if (one === undefined || name.trim() === "") return;
      if (draft().thermometers.every((other) => other === one || other.name !== name.trim())) {
        if (draft().reference === one.name) draft().reference = name.trim();
        one.name = name.trim();
      }
      if (["°C", "K", "mK", "°F", "Ω"].includes(unit.trim())) one.unit = unit.trim();
    });
    thermometerPart.draw(draft());
  }

  function thermometerButtons(): HTMLElement {
    const { thermometers, rows } = draft();
    const takeOut = (k: number): void => {
      const [gone] = thermometers.splice(k, 1);
      if (draft().reference === gone!.name) draft().reference = "";
      // The cells behind it move up by one.
      for (const row of rows) {
        for (let i = k; i < thermometers.length; i += 1) row[cellOf(i)] = row[cellOf(i + 1)] ?? "";
        delete row[cellOf(thermometers.length)];
      }
      changed();
      context.redraw();
    };
    return html(
      "p",
      { class: "buttons" },
      button("setup-thermometer-add", forms.readings.add, () => {
        const taken = new Set(thermometers.map(({ name }) => name));
        let k = thermometers.length;
        const named = (): string => `${forms.readings.aProbe} ${k}`;
        while (taken.has(named())) k += 1;
        thermometers.push(newOne(named(), "", "", "°C"));
        changed();
        context.redraw();
        document.getElementById(`setup-thermometer-${thermometers.length - 1}-name`)?.focus();
      }),
      thermometers.length <= 2
        ? null
        : thermometers.map(({ name }, k) =>
            button(`setup-thermometer-${k}-remove`, fillText(forms.readings.remove, { name }), () => takeOut(k)),
          ),
    );
  }

  /** Several probes: one of them goes into a study. */
  function drawMore(): void {
    const probes = (result.evaluated()?.probes ?? []).map((one) => one.probe);
    if (probes.length < 2) return void more.replaceChildren();
    more.replaceChildren(
      field(
        "setup-probe",
        forms.readings.several,
        select(probe, [["", "–"], ...probes.map((name) => [name, name] as const)], (name) => {
          probe = name;
          result.soon();
        }),
        "",
        true,
      ),
    );
  }

  function drawLog(): void {
    logPart.draw(draft(), context.files(), logged.looks, logged.series()?.notes ?? []);
    result.soon();
  }

  async function take(files: readonly File[]): Promise<void> {
    const [only] = files;
    if (files.length === 1 && /\.json$/i.test(only!.name)) return openInto("readings", context, only!);
    if (draft().source === "typed") {
      draft().source = "log";
      draft().thermometers = [];
      draft().reference = "";
    }
    await logged.take(files);
  }

  return {
    head,
    sections: [
      panel("source", forms.readings.source, source),
      logPart.element,
      thermometerPart.element,
      typedPanel,
      historyFold,
    ],
    below: [result.element, more, into.element],
    draw: () => {
      head.replaceChildren(
        own.text("title", forms.name, "", "wide"),
        own.text("notes", forms.notes, "", "wide"),
        unitField(context, (document, unit) => ({ ...readingsFrom(document, unit), source: draft().source })),
        fileField("readings", context, ".json", forms.openFileHelp),
      );
      source.replaceChildren(
        own.choice("source", forms.readings.source, [
          ["typed", forms.readings.typed],
          ["log", forms.readings.log],
        ]),
      );
      const typed = draft().source === "typed";
      logPart.element.hidden = typed;
      typedPanel.hidden = !typed;
      thermometerPart.draw(draft());
      grid.draw();
      history.draw();
      drawLog();
      drawMore();
      into.draw();
    },
    opened: () => {
      probe = "";
      logged.opened();
      result.soon();
    },
    saved: () => document.getElementById("setup-result-title")?.focus(),
    changed: result.soon,
    take,
  };
}
