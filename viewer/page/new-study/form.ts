import { speech } from "../language.ts";
import { words as pageWords } from "../later-words.ts";
import { fillText } from "../../present/fill.ts";
import { lacking } from "../permission.ts";
import type { Actions } from "../actions/index.ts";
import { checkStudy, listModels, readSchema, RequestError } from "../api.ts";
import { keepDraft } from "../drafts/kept.ts";
import { draftTitle } from "../drafts/title.ts";
import { createDraftLine } from "../drafts/line.ts";
import { html, redraw, type Child } from "../draw/node.ts";
import { saveFile } from "../draw/save.ts";
import type { State } from "../state.ts";
import { createBudgetTable } from "./budget-table.ts";
import { createChecker, type Checked } from "./checker.ts";
import { choice, labelled, textInput, type Spots } from "./controls.ts";
import { BLANK, type Draft, type StudyDocument } from "./draft.ts";
import { kindsOf } from "./fields.ts";
import { findingsOf } from "./findings.ts";
import { createHistory, type History } from "./history.ts";
import { createModelPart, withModel, type Catalogue } from "./model-part.ts";
import { createProblemReport } from "./problem-report.ts";
import { createQuickLook } from "./quick-look.ts";
import { createRequestParts } from "./request-parts.ts";
import { KEYS } from "./table-keys.ts";
import { documentOf } from "./to-study.ts";

/** A study written as a table of its inputs and a few questions, checked by the server as one types. */
export function createForm(actions: Actions): {
  readonly show: (start: Draft, state: Pick<State, "busy" | "own">) => HTMLElement;
} {
  const element = html("div", { class: "new-study" });
  const spots: Spots = new Map();
  let started: Draft | null = null;
  let history: History<Draft> = createHistory(BLANK);
  let catalogue: Catalogue = { models: [], kinds: [] };
  let kept = true;
  const line = createDraftLine();
  /** What the server says of the draft as it is; `null` while it has not answered. */
  let answer: Checked | null = null;
  const draft = (): Draft => history.now();
  const said = html("p", { class: "entry-said", role: "status" });
  const tell = (words: string): void => void (said.textContent = words);

  const find = (): void => report.show(findingsOf(draft(), model.shape(), catalogue.kinds, answer));
  /** Takes a change: it is kept as a draft, and the server checks it. */
  const took = (): void => {
    kept = keepDraft(draft());
    answer = null;
    look.forget();
    find();
    drawSteps();
    parts.say();
    checker.soon();
  };
  const take = (next: Draft, where: string): void => {
    const before = draft();
    history.push(next, where);
    took();
    if (next.rows !== before.rows || next.results !== before.results) model.tableChanged();
  };
  const change = (part: Partial<Draft>, where: string): void => take({ ...draft(), ...part }, where);

  const study = (): StudyDocument => documentOf(draft(), model.names(), catalogue.kinds);
  const report = createProblemReport(spots, () => kept);
  /** Which draft was asked about last: an answer about an older one says nothing of this. */
  let asked: Draft | null = null;
  const checker = createChecker(
    study,
    (written) => {
      asked = draft();
      return checkStudy(written);
    },
    (found) => {
      answer = asked === draft() ? found : null;
      find();
    },
  );
  const model = createModelPart(
    spots,
    () => catalogue,
    draft,
    take,
    () => {
      redraw(table.element, table.draw);
      parts.draw();
      find();
      void checker.now();
    },
    () => table.draw(),
  );
  const host = {
    spots,
    draft,
    shape: model.shape,
    kinds: () => catalogue.kinds,
    change: take,
    tell,
    drawn: () => report.redraw(),
  };
  const table = createBudgetTable(host);
  const parts = createRequestParts({ ...host, change: take });

  const undo = html(
    "button",
    {
      type: "button",
      class: "quiet small",
      id: "undo",
      title: pageWords.studyForm.undoKeys,
      onclick: () => step(history.undo),
    },
    pageWords.library.undo,
  );
  const redo = html(
    "button",
    {
      type: "button",
      class: "quiet small",
      id: "redo",
      title: pageWords.studyForm.redoKeys,
      onclick: () => step(history.redo),
    },
    pageWords.studyForm.redo,
  );
  const drawSteps = (): void => {
    undo.disabled = !history.canUndo();
    redo.disabled = !history.canRedo();
  };
  const step = (go: () => Draft | null): void => {
    const before = draft();
    if (go() === null) return;
    tell(go === history.undo ? pageWords.studyForm.undone : pageWords.studyForm.doneAgain);
    redraw(element, () => build(before.model !== draft().model));
    took();
  };

  const run = html(
    "button",
    {
      type: "button",
      class: "main",
      id: "run-draft",
      "data-needs": "run",
      "aria-keyshortcuts": "Control+Enter",
      onclick: () => void attempt(),
    },
    pageWords.study.run,
  );
  /** Whether something is still wrong; it is then shown. */
  const isWanting = async (): Promise<boolean> => {
    await checker.now();
    const { lacks, checked } = findingsOf(draft(), model.shape(), catalogue.kinds, answer);
    if (typeof checked === "object") report.element.scrollIntoView({ block: "center" });
    else if (lacks.length === 0 && checked === "yes") return false;
    else report.showAll();
    return true;
  };
  const attempt = async (): Promise<void> => {
    if (!(await isWanting())) await actions.runDraft(study());
  };
  const look = createQuickLook(study, isWanting);

  /** @param asksModel whether the server is asked about the model once more */
  const build = (asksModel: boolean): void => {
    spots.clear();
    element.replaceChildren(
      html("header", { class: "sheet-head" }, title(started?.title)),
      line.element,
      html(
        "section",
        { class: "panel head-part", "aria-label": pageWords.studyForm.what },
        headFields(),
        model.about,
        model.parameters,
      ),
      html(
        "section",
        { class: "panel table-part", "aria-labelledby": "table-title" },
        html(
          "div",
          { class: "table-head" },
          html("h2", { id: "table-title" }, pageWords.studyForm.budget),
          html("p", { class: "buttons" }, undo, redo),
          keyHelp(),
        ),
        model.note,
        table.element,
        said,
      ),
      html(
        "section",
        { class: "panel request-part", "aria-label": pageWords.studyForm.else },
        parts.element,
        look.element,
      ),
      html(
        "section",
        { class: "panel finish", "aria-label": pageWords.studyForm.runOrSave },
        report.element,
        html("p", { class: "buttons" }, run, saving(), blank()),
        lacking("run"),
      ),
    );
    drawSteps();
    if (asksModel) model.open();
    else model.redraw();
    table.draw();
    parts.draw();
    report.redraw();
  };

  const headFields = (): HTMLElement =>
    html(
      "div",
      { class: "fields head-fields" },
      labelled(
        { place: "title", label: pageWords.studyForm.title, name: pageWords.studyForm.said.title },
        textInput(draft().title, (text) => change({ title: text }, "title"), {
          placeholder: pageWords.studyForm.titleHelp,
        }),
        spots,
      ),
      labelled(
        { place: "model", label: pageWords.studyForm.model, name: pageWords.studyForm.said.model },
        chooseModel(),
        spots,
      ),
      labelled(
        { place: "laboratory", label: pageWords.studyForm.laboratory, name: pageWords.studyForm.said.laboratory },
        textInput(draft().laboratory, (laboratory) => change({ laboratory }, "laboratory")),
        spots,
      ),
    );

  const chooseModel = (): HTMLSelectElement => {
    const listed = catalogue.models.map(({ id, title: words }) => [id, speech.translate(words)] as const);
    const id = draft().model;
    const known = id === "" || listed.some(([one]) => one === id);
    return choice(
      id,
      [
        ["", pageWords.studyTable.choose],
        ...(known ? [] : [[id, pageWords.studyForm.unknownModel] as const]),
        ...listed,
      ],
      (chosen) => {
        take(withModel(draft(), model.shape(), chosen), "");
        model.open();
        table.draw();
      },
    );
  };

  const saving = (): HTMLElement =>
    html(
      "button",
      {
        type: "button",
        class: "quiet",
        id: "save-draft",
        onclick: () => saveFile("study.json", `${JSON.stringify(study(), null, 2)}\n`, "application/json"),
      },
      pageWords.study.save,
    );
  const blank = (): HTMLElement =>
    html(
      "button",
      { type: "button", class: "quiet", id: "blank", onclick: () => actions.write(BLANK) },
      pageWords.studyForm.clear,
    );
  element.addEventListener("focusout", ({ target }) => {
    const { place } = (target as HTMLElement).dataset;
    history.settle();
    if (place !== undefined) report.touch(place);
  });
  element.addEventListener("keydown", (event) => {
    if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
    const key = event.key.toLowerCase();
    if (key === "enter") void attempt();
    // A text of several lines is taken back by the browser, which knows its words.
    else if (event.target instanceof HTMLTextAreaElement) return;
    else if (key === "z" || key === "y") {
      event.preventDefault();
      step(key === "y" || event.shiftKey ? history.redo : history.undo);
    }
  });

  /** Asks for the models and the fields of a statement, once. */
  const begin = async (): Promise<void> => {
    element.replaceChildren(title(started?.title), html("p", { class: "note" }, pageWords.studyForm.readingModels));
    try {
      const [models, schema] = await Promise.all([listModels(), readSchema()]);
      catalogue = { models, kinds: kindsOf(schema) };
      build(true);
    } catch (error) {
      if (!(error instanceof RequestError)) throw error;
      element.replaceChildren(
        title(started?.title),
        html("p", {}, fillText(pageWords.studyForm.notMade, { why: error.fault.message })),
        html(
          "p",
          { class: "buttons" },
          html(
            "button",
            { type: "button", class: "quiet", id: "try-again", onclick: () => void begin() },
            pageWords.studyForm.tryAgain,
          ),
        ),
      );
    }
  };

  return {
    show: (start, { busy, own }) => {
      line.show(own);
      if (start !== started) {
        started = start;
        history = createHistory(start);
        answer = null;
        report.clear();
        tell("");
        if (catalogue.models.length === 0) void begin();
        else build(true);
      }
      run.disabled = busy;
      return element;
    },
  };
}

/** What is being written: a new study, or which one. */
const title = (called?: string): HTMLElement => html("h1", { id: "sheet-title", tabindex: -1 }, draftTitle(called));

const keyHelp = (): HTMLElement =>
  html(
    "details",
    { class: "keys" },
    html("summary", { id: "keys" }, pageWords.studyForm.keys),
    html(
      "dl",
      {},
      KEYS.map(([keys, does]): Child => html("div", {}, html("dt", {}, html("kbd", {}, keys)), html("dd", {}, does))),
    ),
  );
