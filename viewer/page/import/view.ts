import { messages } from "../language.ts";
import { words } from "../later-words.ts";
import { fillText } from "../../present/fill.ts";
import { counted } from "../counted.ts";
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
              html("h2", { id: "import-table-title" }, fillText(words.import.howRead, { file: reading.file.name })),
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
        fillText(Object.keys(drawn?.stated ?? {}).length === 0 ? words.import.notAsIs : words.import.notThatWay, {
          file: file?.name ?? "",
        }),
      ),
      html("p", {}, refused!.message),
      problemList(refused!.problems),
    );

  const keptPart = ({ recalled }: Session): HTMLElement =>
    html(
      "p",
      { class: "note import-kept", id: "import-kept" },
      recalled === null
        ? words.import.remembered
        : fillText(words.import.recalled, { file: recalled.file, day: recalled.day }),
      html(
        "button",
        { type: "button", class: "small quiet", id: "import-forget", onclick: imports.forgetKept },
        words.import.forget,
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
          words.study.run,
        ),
        html(
          "button",
          {
            type: "button",
            id: "import-edit",
            disabled: !ready,
            onclick: () => withStudy((whole) => actions.write(whole)),
          },
          words.import.edit,
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
          words.study.save,
        ),
        html(
          "button",
          { type: "button", class: "quiet", id: "import-undo", disabled: !canUndo, onclick: imports.undo },
          words.library.undo,
        ),
        html(
          "button",
          { type: "button", class: "quiet", id: "import-redo", disabled: !canRedo, onclick: imports.redo },
          words.studyForm.redo,
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
      html("p", { class: "kind" }, words.import.kind),
      html("h1", { id: "sheet-title", tabindex: -1 }, words.frame.import),
      html("p", { class: "notes" }, words.import.about),
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
  if (reading === null) return busy ? fillText(words.import.reading, { file: file.name }) : "";
  if (refused !== null) return words.import.lastChange;
  const { questions, complaints, terms } = reading;
  if (questions.length + complaints.length === 0)
    return terms.length === 0 ? words.import.noInput : words.import.nothingOpen;
  const parts = [
    ...(questions.length === 0 ? [] : [counted(words.import.toAnswer, questions.length)]),
    ...(complaints.length === 0 ? [] : [counted(words.import.toMend, complaints.length)]),
  ];
  return fillText(words.import.before, { what: parts.join(messages.and) });
}

/** The next thing to answer or mend, or else the button that runs the study. */
const nextStop = (element: HTMLElement): HTMLElement | null =>
  element.querySelector<HTMLElement>(".import-answers button, .import-complaints input, .import-complaints button") ??
  element.querySelector<HTMLElement>("#import-run:not([disabled])") ??
  element.querySelector<HTMLElement>("#sheet-title");
