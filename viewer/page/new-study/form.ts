import type { Actions } from "../actions/index.ts";
import { checkStudy, listModels, readSchema, RequestError } from "../api.ts";
import { html, type Child } from "../draw/node.ts";
import { saveFile } from "../draw/save.ts";
import { createChecker } from "./checker.ts";
import { choice, labelled, textArea, textInput, type Spots } from "./controls.ts";
import { BLANK, documentOf, type Draft, type StudyDocument } from "./draft.ts";
import { kindsOf } from "./fields.ts";
import { draftPutAside, forgetPutAside, keepDraft } from "./keeping.ts";
import { createModelPart, type Catalogue } from "./model-part.ts";
import { createProblemReport } from "./problem-report.ts";
import { settingsFields } from "./settings-fields.ts";

/** A study written in a form that is made from the model's own declaration, checked by the server as one types. */
export function createForm(actions: Actions): { readonly show: (start: Draft, busy: boolean) => HTMLElement } {
  const element = html("div", { class: "new-study" });
  const spots: Spots = new Map();
  let started: Draft | null = null;
  let draft: Draft = BLANK;
  let catalogue: Catalogue = { models: [], kinds: [] };
  let kept = true;

  /** Takes a change: the browser keeps it, and the server checks it. */
  const take = (next: Draft): void => {
    draft = next;
    kept = keepDraft(draft);
    checker.soon();
  };
  const change = (part: Partial<Draft>): void => take({ ...draft, ...part });

  const study = (): StudyDocument => documentOf(draft, model.names(), catalogue.kinds);
  const report = createProblemReport(spots, () => kept);
  const checker = createChecker(study, checkStudy, report.show);
  const model = createModelPart(
    spots,
    () => catalogue,
    () => draft,
    take,
    () => void checker.now(),
  );

  const run = html(
    "button",
    {
      type: "button",
      class: "main",
      id: "run-draft",
      "aria-keyshortcuts": "Control+Enter",
      onclick: () => void attempt(),
    },
    "Run this study",
  );
  const attempt = async (): Promise<void> => {
    const { problems } = await checker.now();
    if (problems === null) report.element.scrollIntoView({ block: "center" });
    else if (problems.length === 0) await actions.runStudy(study());
    else report.showAll();
  };

  const build = (): void => {
    spots.clear();
    report.clear();
    const before = draftPutAside();
    element.replaceChildren(
      html(
        "header",
        { class: "sheet-head" },
        html("p", { class: "kind" }, "Study being written"),
        html("h1", { id: "sheet-title", tabindex: -1 }, "A new study"),
      ),
      ...(before === null ? [] : [putAside(before)]),
      panel("What is measured", headFields(), model.about, model.parameters),
      panel("What is known of the input quantities", model.inputs),
      panel("Which of them depend on one another", model.dependence),
      panel("How it is propagated", settingsFields(draft, spots, change), untouchedParts(Object.keys(draft.rest))),
      html(
        "section",
        { class: "panel finish", "aria-label": "Run or save" },
        report.element,
        html("p", { class: "buttons" }, run, saving(), blank()),
      ),
    );
    model.open();
  };

  const headFields = (): HTMLElement =>
    html(
      "div",
      { class: "fields" },
      labelled(
        {
          place: "title",
          label: "Title",
          name: "title",
          help: "What was measured, for the head of the sheet",
          wide: true,
        },
        textInput(draft.title, (title) => change({ title })),
        spots,
      ),
      labelled(
        { place: "laboratory", label: "Laboratory", name: "laboratory" },
        textInput(draft.laboratory, (laboratory) => change({ laboratory })),
        spots,
      ),
      labelled(
        { place: "model", label: "Model", name: "model" },
        choice(
          draft.model,
          [["", "choose…"], ...catalogue.models.map(({ id, title }) => [id, title] as const)],
          (id) => {
            change({ model: id });
            model.choose();
          },
        ),
        spots,
      ),
      labelled(
        {
          place: "notes",
          label: "Notes",
          name: "notes",
          help: "Anything a reader of the sheet should know",
          wide: true,
        },
        textArea(draft.notes, 2, (notes) => change({ notes })),
        spots,
      ),
    );

  const saving = (): HTMLElement =>
    html(
      "button",
      {
        type: "button",
        class: "quiet",
        id: "save-draft",
        onclick: () => saveFile("study.json", `${JSON.stringify(study(), null, 2)}\n`, "application/json"),
      },
      "Save as a file",
    );
  const blank = (): HTMLElement =>
    html(
      "button",
      { type: "button", class: "quiet", id: "blank", onclick: () => actions.write(BLANK) },
      "Clear the form",
    );
  const putAside = (before: Draft): HTMLElement =>
    html(
      "p",
      { class: "put-aside buttons" },
      html(
        "span",
        {},
        "The study written before, ",
        html("em", {}, before.title === "" ? "without a title" : before.title),
        ", was put aside.",
      ),
      html(
        "button",
        { type: "button", class: "quiet", id: "bring-back", onclick: () => actions.write(before) },
        "Bring it back",
      ),
      html("button", { type: "button", class: "quiet", id: "forget", onclick: forget }, "Forget it"),
    );
  const forget = (): void => {
    forgetPutAside();
    element.querySelector(".put-aside")?.remove();
    document.getElementById("sheet-title")?.focus();
  };

  element.addEventListener("focusout", ({ target }) => {
    const { place } = (target as HTMLElement).dataset;
    if (place !== undefined) report.touch(place);
  });
  element.addEventListener("keydown", (event) => {
    if (event.key === "Enter" && (event.ctrlKey || event.metaKey)) void attempt();
  });

  /** Asks for the models and the fields of a statement, once. */
  const begin = async (): Promise<void> => {
    element.replaceChildren(title(), html("p", { class: "note" }, "Reading the list of models…"));
    try {
      const [models, schema] = await Promise.all([listModels(), readSchema()]);
      catalogue = { models, kinds: kindsOf(schema) };
      build();
    } catch (error) {
      if (!(error instanceof RequestError)) throw error;
      element.replaceChildren(
        title(),
        html("p", {}, `The form cannot be made: ${error.fault.message}`),
        html(
          "p",
          { class: "buttons" },
          html("button", { type: "button", class: "quiet", id: "try-again", onclick: () => void begin() }, "Try again"),
        ),
      );
    }
  };

  return {
    show: (start, busy) => {
      if (start !== started) {
        started = start;
        draft = start;
        if (catalogue.models.length === 0) void begin();
        else build();
      }
      run.disabled = busy;
      return element;
    },
  };
}

const title = (): HTMLElement => html("h1", { id: "sheet-title", tabindex: -1 }, "A new study");

const panel = (heading: string, ...children: readonly Child[]): HTMLElement =>
  html("section", { class: "panel" }, html("h2", {}, heading), ...children);

/** Names what the study states and the form has no field for. */
const untouchedParts = (names: readonly string[]): HTMLElement | null =>
  names.length === 0
    ? null
    : html(
        "p",
        { class: "note" },
        "This form has no fields for these parts of the study, and leaves them as they are: ",
        html("code", {}, names.join(", ")),
        ".",
      );
