import type { Problem, Quantity } from "../../../engine/index.ts";
import type { Actions } from "../actions.ts";
import {
  checkStudy,
  describeModel,
  listModels,
  readSchema,
  RequestError,
  type ModelDescription,
  type ModelSummary,
} from "../api.ts";
import { html, type Child } from "../draw/node.ts";
import { saveFile } from "../draw/save.ts";
import { equationNode } from "../draw/symbol.ts";
import { problemList } from "../trouble.ts";
import { choice, labelled, textArea, textInput, type Spot, type Spots } from "./controls.ts";
import { correlationFields } from "./correlation-fields.ts";
import { BLANK, documentOf, inputsAsked, type Draft, type StudyDocument } from "./draft.ts";
import { kindsOf, type Kind } from "./fields.ts";
import { inputFields } from "./input-fields.ts";
import { draftPutAside, forgetPutAside, keepDraft } from "./keeping.ts";
import { byPlace, problemWords } from "./places.ts";
import { settingsFields } from "./settings-fields.ts";

/** Pause in typing after which the server is asked what is wrong, in milliseconds. */
const PAUSE = 300;
/** Problems listed by name beneath the form. */
const LISTED = 6;

const UNTITLED: Problem = { place: "title", value: "nothing", accepted: "what was measured, in a few words" };

/** A study written in a form that is made from the model's own declaration, checked by the server as one types. */
export function createForm(actions: Actions): { readonly show: (start: Draft, busy: boolean) => HTMLElement } {
  const element = html("div", { class: "new-study" });
  let started: Draft | null = null;
  let draft: Draft = BLANK;
  let models: readonly ModelSummary[] = [];
  let kinds: readonly Kind[] = [];
  let model: ModelDescription | null = null;
  let problems: readonly Problem[] = [];
  /** Places the reader has been at, whose problems are told at once; all of them once a run was asked for. */
  let touched = new Set<string>();
  let attempted = false;
  let kept = true;
  let timer: ReturnType<typeof setTimeout> | undefined;
  /** Counts the questions to the server: an answer to an older one comes too late. */
  let asked = 0;

  const spots: Spots = new Map();
  const aboutModel = html("div", { class: "about-model" });
  const known = html("div", {});
  const dependence = html("div", {});
  const left = html("div", { class: "left-to-do", id: "left-to-do" });
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

  const inputs = (): Readonly<Record<string, Quantity>> => (model === null ? {} : inputsAsked(model, draft));
  const study = (): StudyDocument => documentOf(draft, Object.keys(inputs()), kinds);

  /** Takes a change: it is kept in the browser and checked by the server. */
  const change = (part: Partial<Draft>): void => {
    draft = { ...draft, ...part };
    kept = keepDraft(draft);
    clearTimeout(timer);
    timer = setTimeout(() => void check(), PAUSE);
  };

  const check = async (): Promise<void> => {
    clearTimeout(timer);
    const mine = (asked += 1);
    try {
      // A study without a title is refused before anything else is looked at.
      const { title, ...rest } = study();
      const { problems: found } = await checkStudy({ ...rest, title: title === "" ? "untitled" : title });
      if (mine !== asked) return;
      problems = title === "" ? [UNTITLED, ...found] : found;
    } catch (error) {
      if (mine !== asked) return;
      if (!(error instanceof RequestError)) throw error;
      left.replaceChildren(html("p", { class: "cut" }, `The study cannot be checked. ${error.fault.message}`));
      return;
    }
    tellProblems();
  };

  const tellProblems = (): void => {
    const found = byPlace(problems, new Set(spots.keys()));
    for (const spot of new Set(spots.values())) {
      spot.message.textContent = "";
      spot.control.removeAttribute("aria-invalid");
    }
    for (const [place, here] of found) {
      const spot = spots.get(place);
      if (
        spot === undefined ||
        !(attempted || touched.has(place) || [...touched].some((one) => place.startsWith(`${one}.`)))
      )
        continue;
      spot.message.textContent = here.map((problem) => problemWords(problem, place)).join("; ");
      spot.control.setAttribute("aria-invalid", "true");
    }
    left.replaceChildren(...leftToDo(found));
  };

  const leftToDo = (found: ReadonlyMap<string, readonly Problem[]>): Child[] & HTMLElement[] => {
    const keeping = html(
      "p",
      { class: "note" },
      kept
        ? "What you write is kept in this browser until you begin another."
        : "This browser keeps nothing: save the study as a file before you leave the page.",
    );
    if (problems.length === 0) return [html("p", { id: "ready" }, html("strong", {}, "Ready to run.")), keeping];
    const named = [...found].flatMap(([place]) => spots.get(place) ?? []);
    const elsewhere = found.get("") ?? [];
    return [
      html(
        "p",
        {},
        html(
          "strong",
          {},
          `${problems.length} ${problems.length === 1 ? "thing is" : "things are"} still to be stated or mended`,
        ),
        named.length > 0 ? ": " : ".",
        listOf(named),
      ),
      ...(elsewhere.length > 0 ? [problemList(elsewhere)] : []),
      keeping,
    ];
  };

  const listOf = (named: readonly Spot[]): Child => [
    named
      .slice(0, LISTED)
      .map((spot, i): Child => [
        i === 0 ? "" : ", ",
        html(
          "button",
          { type: "button", class: "inline", id: `to-${spot.place.replaceAll(".", "-")}`, onclick: () => goTo(spot) },
          spot.name,
        ),
      ]),
    named.length > LISTED ? ` and ${named.length - LISTED} more.` : named.length > 0 ? "." : null,
  ];

  const goTo = ({ place, control }: Spot): void => {
    touched.add(place);
    tellProblems();
    control.focus();
    control.scrollIntoView({ block: "center" });
  };

  const attempt = async (): Promise<void> => {
    attempted = true;
    await check();
    if (problems.length === 0) {
      await actions.runStudy(study());
      return;
    }
    const [first] = byPlace(problems, new Set(spots.keys())).keys();
    const spot = spots.get(first ?? "");
    if (spot !== undefined) goTo(spot);
    else left.scrollIntoView({ block: "center" });
  };

  /** Asks what the model wants, given its parameters, and draws a row for each input. */
  const describe = async (): Promise<void> => {
    const summary = models.find(({ id }) => id === draft.model);
    if (summary === undefined) {
      model = null;
      drawInputs("Choose a model: the form then asks for each of its input quantities.");
      return;
    }
    const { parameters = {} } = documentOf(draft, [], kinds) as { parameters?: Readonly<Record<string, unknown>> };
    try {
      const described = await describeModel(draft.model, summary.family ? parameters : {});
      if (draft.model !== summary.id) return;
      model = described;
      drawInputs("");
    } catch (error) {
      if (!(error instanceof RequestError)) throw error;
      model = null;
      drawInputs("The input quantities follow once the parameters above can be used.");
    }
    void check();
  };

  const drawInputs = (note: string): void => {
    for (const place of spots.keys()) if (place.startsWith("inputs.")) spots.delete(place);
    const all = Object.entries(inputs());
    known.replaceChildren(
      ...(note === "" ? [] : [html("p", { class: "note", id: "no-inputs" }, note)]),
      ...all.map(([name, quantity]) =>
        inputFields(name, quantity, draft.inputs[name], kinds, spots, (stated) =>
          change({ inputs: { ...draft.inputs, [name]: stated } }),
        ),
      ),
    );
    dependence.replaceChildren(
      ...(all.length < 2
        ? [html("p", { class: "note" }, "Two input quantities are needed first.")]
        : [
            correlationFields(
              all.map(([name, { meaning }]) => [name, meaning]),
              draft.correlations,
              spots,
              (correlations) => change({ correlations }),
            ),
          ]),
    );
    const symbols = new Set([
      ...all.map(([, { symbol }]) => symbol),
      ...Object.values(model?.measurands ?? {}).map(({ symbol }) => symbol),
    ]);
    const summary = models.find(({ id }) => id === draft.model);
    aboutModel.replaceChildren(
      ...(model?.equation == null ? [] : [html("p", {}, equationNode(model.equation, symbols))]),
      ...(summary?.source == null ? [] : [html("p", { class: "note" }, `Source of the model: ${summary.source}`)]),
      ...(model === null || model.cautions.length === 0
        ? []
        : [
            html(
              "ul",
              { class: "sentences cautions" },
              model.cautions.map((text) => html("li", {}, text)),
            ),
          ]),
    );
  };

  const parameters = html("div", { class: "fields" });
  const drawParameters = (): void => {
    for (const place of spots.keys()) if (place.startsWith("parameters.")) spots.delete(place);
    const summary = models.find(({ id }) => id === draft.model);
    parameters.replaceChildren(
      ...Object.entries(summary?.parameters ?? {}).map(([name, help]) =>
        labelled(
          {
            place: `parameters.${name}`,
            label: html("code", {}, name),
            name: `parameter ${name}`,
            help: `${help}. Written as JSON`,
            wide: true,
          },
          textArea(draft.parameters[name] ?? "", 2, (text) => {
            change({ parameters: { ...draft.parameters, [name]: text } });
            clearTimeout(describing);
            describing = setTimeout(() => void describe(), PAUSE);
          }),
          spots,
        ),
      ),
    );
  };
  let describing: ReturnType<typeof setTimeout> | undefined;

  const build = (): void => {
    spots.clear();
    touched = new Set();
    attempted = false;
    const before = draftPutAside();
    const chooseModel = choice(
      draft.model,
      [["", "choose…"], ...models.map(({ id, title }) => [id, title] as const)],
      (id) => {
        change({ model: id });
        drawParameters();
        void describe();
      },
    );
    const rest = Object.keys(draft.rest);
    element.replaceChildren(
      html(
        "header",
        { class: "sheet-head" },
        html("p", { class: "kind" }, "Study being written"),
        html("h1", { id: "sheet-title", tabindex: -1 }, "A new study"),
      ),
      ...(before === null ? [] : [putAside(before)]),
      panel(
        "What is measured",
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
          labelled({ place: "model", label: "Model", name: "model" }, chooseModel, spots),
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
        ),
        aboutModel,
        parameters,
      ),
      panel("What is known of the input quantities", known),
      panel("Which of them depend on one another", dependence),
      panel(
        "How it is propagated",
        settingsFields(draft, spots, change),
        rest.length === 0
          ? null
          : html(
              "p",
              { class: "note" },
              "This form has no fields for these parts of the study, and leaves them as they are: ",
              html("code", {}, rest.join(", ")),
              ".",
            ),
      ),
      html(
        "section",
        { class: "panel finish", "aria-label": "Run or save" },
        left,
        html("p", { class: "buttons" }, run, saving(), blank()),
      ),
    );
    drawParameters();
    drawInputs("Reading what the model asks for…");
    void describe();
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
    if (place === undefined) return;
    touched.add(place);
    tellProblems();
  });
  element.addEventListener("keydown", (event) => {
    if (event.key === "Enter" && (event.ctrlKey || event.metaKey)) void attempt();
  });

  /** The models and the fields of a statement, asked for once. */
  const begin = async (): Promise<void> => {
    element.replaceChildren(
      html("h1", { id: "sheet-title", tabindex: -1 }, "A new study"),
      html("p", { class: "note" }, "Reading the list of models…"),
    );
    try {
      if (models.length === 0) {
        const [list, schema] = await Promise.all([listModels(), readSchema()]);
        models = list;
        kinds = kindsOf(schema);
      }
      build();
    } catch (error) {
      if (!(error instanceof RequestError)) throw error;
      element.replaceChildren(
        html("h1", { id: "sheet-title", tabindex: -1 }, "A new study"),
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
        if (models.length === 0) void begin();
        else build();
      }
      run.disabled = busy;
      return element;
    },
  };
}

const panel = (title: string, ...children: readonly Child[]): HTMLElement =>
  html("section", { class: "panel" }, html("h2", {}, title), ...children);
