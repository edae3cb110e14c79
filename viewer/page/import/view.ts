import type { TableReading } from "../../api/budget-tables.ts";
import type { Actions } from "../actions/index.ts";
import { html, redraw } from "../draw/node.ts";
import { saveFile } from "../draw/save.ts";
import { problemList } from "../trouble.ts";
import { complaintsPart } from "./complaints.ts";
import { preview } from "./preview.ts";
import { questionsPart } from "./questions.ts";
import { createSession, type Session } from "./session.ts";
import { describingPart, tablePart } from "./settings.ts";
import { sheetTable } from "./sheet-table.ts";
import { sourcePart } from "./source.ts";

/** A budget table on its way to a study: what it is, what it leaves open, and what comes of it, before anything is run. */
export function createImport(actions: Actions): { readonly show: (file: File | null) => HTMLElement } {
  const status = html("p", { class: "import-status", id: "import-status", role: "status" });
  const open = html("div", {});
  const describing = html("div", { class: "import-describing" });
  const rest = html("div", {});
  const finish = html("div", { class: "finish" });
  let drawn: Session | null = null;
  let asked: File | null = null;
  let resumed = false;

  const draw = (session: Session): void => {
    const had = element.contains(document.activeElement) ? document.activeElement : null;
    redraw(element, () => {
      status.textContent = statusOf(session);
      element.setAttribute("aria-busy", String(session.busy));
      if (
        drawn?.reading !== session.reading ||
        drawn.refused !== session.refused ||
        drawn.keptAs !== session.keptAs ||
        drawn.recalled !== session.recalled ||
        drawn.file !== session.file
      )
        drawReading(session);
      finish.replaceChildren(...finishParts(session));
    });
    drawn = session;
    // An answered question is gone, and the focus goes on to what is next.
    if (had !== null && !had.isConnected) nextStop(element)?.focus();
  };

  const drawReading = (session: Session): void => {
    const { reading, refused } = session;
    open.replaceChildren(
      ...(refused === null ? [] : [refusedPart(session)]),
      ...(session.keptAs === null ? [] : [keptPart(session)]),
      ...(reading === null || refused !== null
        ? []
        : [...questionsPart(reading.questions, imports), ...complaintsPart(reading, imports)]),
    );
    // Fields that are typed into stay while the table is read anew; another file begins anew.
    if (reading === null) describing.replaceChildren();
    else if (drawn?.file !== session.file || describing.childElementCount === 0)
      describing.replaceChildren(describingPart(session, imports));
    rest.replaceChildren(
      ...(reading === null
        ? []
        : [
            ...preview(reading, imports),
            html(
              "section",
              { class: "panel", "aria-labelledby": "import-table-title" },
              html("h2", { id: "import-table-title" }, `How “${reading.file.name}” is read`),
              tablePart(reading, imports),
              sheetTable(reading, imports),
            ),
          ]),
    );
  };

  const refusedPart = ({ refused, file }: Session): HTMLElement =>
    html(
      "section",
      { class: "trouble", "aria-labelledby": "import-refused" },
      html(
        "h2",
        { id: "import-refused" },
        `“${file?.name ?? ""}” cannot be read ${Object.keys(drawn?.stated ?? {}).length === 0 ? "as it is" : "that way"}`,
      ),
      html("p", {}, refused!.message),
      problemList(refused!.problems),
    );

  const keptPart = ({ recalled }: Session): HTMLElement =>
    html(
      "p",
      { class: "note import-kept", id: "import-kept" },
      recalled === null
        ? "What you stated is remembered for the next table with the same headings. "
        : `Read as “${recalled.file}” was on ${recalled.day}, since its headings are the same. `,
      html(
        "button",
        { type: "button", class: "small quiet", id: "import-forget", onclick: imports.forgetKept },
        "Forget it",
      ),
    );

  const finishParts = ({ reading, busy, canUndo, canRedo }: Session): HTMLElement[] => {
    if (reading === null) return [];
    const { study } = reading;
    const ready = study !== null && !busy;
    const name = `${reading.file.name.replace(/\.[^.]+$/, "")}.json`;
    return [
      html(
        "p",
        { class: "buttons" },
        html(
          "button",
          {
            type: "button",
            class: "main",
            id: "import-run",
            disabled: !ready,
            "aria-describedby": "import-status",
            onclick: () => withStudy((whole) => void actions.runStudy(whole)),
          },
          "Run this study",
        ),
        html(
          "button",
          {
            type: "button",
            id: "import-edit",
            disabled: !ready,
            onclick: () => withStudy((whole) => actions.write(whole)),
          },
          "Edit in the form",
        ),
        html(
          "button",
          {
            type: "button",
            class: "quiet",
            id: "import-save",
            disabled: !ready,
            onclick: () =>
              withStudy((whole) => saveFile(name, `${JSON.stringify(whole, null, 2)}\n`, "application/json")),
          },
          "Save as a file",
        ),
        html(
          "button",
          { type: "button", class: "quiet", id: "import-undo", disabled: !canUndo, onclick: imports.undo },
          "Undo",
        ),
        html(
          "button",
          { type: "button", class: "quiet", id: "import-redo", disabled: !canRedo, onclick: imports.redo },
          "Redo",
        ),
      ),
    ];
  };

  const withStudy = (take: (study: NonNullable<TableReading["study"]>) => void): void =>
    void imports.study().then((study) => study !== null && take(study));

  const imports = createSession(draw);
  const element = html(
    "div",
    { class: "import new-study" },
    html(
      "header",
      { class: "sheet-head" },
      html("p", { class: "kind" }, "Import"),
      html("h1", { id: "sheet-title", tabindex: -1 }, "Import a budget table"),
      html(
        "p",
        { class: "notes" },
        "A budget that you keep as a table becomes a study. Nothing runs before you have seen how it was read, and what the table leaves open is asked.",
      ),
    ),
    sourcePart(
      (file) => void imports.open(file),
      (files) => void actions.open(files),
    ),
    status,
    open,
    describing,
    rest,
    finish,
  );
  return {
    show: (file) => {
      if (file !== null && file !== asked) {
        asked = file;
        void imports.open(file);
      } else if (!resumed && asked === null) void imports.resume();
      resumed = true;
      return element;
    },
  };
}

function statusOf({ file, reading, refused, busy }: Session): string {
  if (file === null) return "";
  if (reading === null) return busy ? `Reading “${file.name}”…` : "";
  if (refused !== null) return "The last change could not be read; undo it or state something else.";
  const { questions, complaints, terms } = reading;
  if (questions.length + complaints.length === 0)
    return terms.length === 0 ? "No input is understood yet." : "Nothing is left open: the study can be run.";
  const parts = [
    ...(questions.length === 0
      ? []
      : [`${questions.length} ${questions.length === 1 ? "question" : "questions"} to answer`]),
    ...(complaints.length === 0 ? [] : [`${complaints.length} ${complaints.length === 1 ? "cell" : "cells"} to mend`]),
  ];
  return `${parts.join(" and ")} before the study can be run.`;
}

/** The next thing to answer or mend, or else the button that runs the study. */
const nextStop = (element: HTMLElement): HTMLElement | null =>
  element.querySelector<HTMLElement>(".import-answers button, .import-complaints input, .import-complaints button") ??
  element.querySelector<HTMLElement>("#import-run:not([disabled])") ??
  element.querySelector<HTMLElement>("#sheet-title");
