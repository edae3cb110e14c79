import type { Actions } from "../actions/index.ts";
import { describeModel, listModels, RequestError } from "../api.ts";
import { declaredUnits } from "../declared-units.ts";
import { html, type Child } from "../draw/node.ts";
import { saveButton } from "../draw/save.ts";
import { equationNode } from "../draw/symbol.ts";
import { wideTable } from "../draw/table.ts";
import { typedEquation } from "../equation/typed-equation.ts";
import { titleLanguage } from "../draw/from-english.ts";
import { speech } from "../language.ts";
import { words as pageWords } from "../later-words.ts";
import { lacking } from "../permission.ts";
import type { ChosenStudy } from "../shown.ts";
import { fillText } from "../../present/fill.ts";
import { symbolsOf } from "../../present/equation.ts";
import type { UnitsOf } from "../../present/statement.ts";
import type { Table } from "../../present/tables/table.ts";
import { askedFacts } from "./facts.ts";
import { objectOr, textOr, type Fields } from "./read.ts";
import { correlationTable, inputTable, measurandTable, sweepTable, toleranceTable, type Known } from "./stated.ts";

const words = pageWords.studyView;

/** A study before it is run: all that it states and asks for, and the button that runs it. */
export function createStudyView(actions: Actions): {
  readonly show: (study: ChosenStudy, busy: boolean) => HTMLElement;
} {
  const element = html("div", { class: "study-view" });
  const run = html("button", {
    type: "button",
    class: "main",
    id: "run",
    "data-needs": "run",
    "aria-keyshortcuts": "Control+Enter",
    onclick: () => void actions.runChosen(),
  });
  let shown: ChosenStudy | null = null;
  let runnable = true;
  let starting = false;
  const drawRun = (): void => {
    run.disabled = starting || !runnable;
    run.textContent = starting ? words.starting : pageWords.study.run;
  };

  const open = async (study: ChosenStudy): Promise<void> => {
    const { document } = study;
    const trouble = html("div", {});
    const body = html("div", {});
    element.replaceChildren(...headOf(study, run, actions), trouble, body);
    const draw = (known: Known, title: string | null): void => body.replaceChildren(...bodyOf(document, known, title));
    draw({ model: null, unitsOf: () => ({}) }, null);
    const found = await learn(document);
    // Another study may have been opened meanwhile.
    if (shown !== study) return;
    runnable = found.runnable;
    drawRun();
    trouble.replaceChildren(...(found.trouble === null ? [] : [troubleBox(found.trouble)]));
    draw(found.known, found.title === null ? null : speech.translate(found.title));
  };

  return {
    show(study, busy) {
      starting = busy;
      if (study !== shown) {
        shown = study;
        runnable = true;
        void open(study);
      }
      drawRun();
      return element;
    },
  };
}

/** Why a study cannot be run as it is, and what can be done. */
interface Trouble {
  readonly title: string;
  readonly lines: readonly string[];
}

interface Learned {
  readonly known: Known;
  /** Title of the model. */
  readonly title: string | null;
  readonly runnable: boolean;
  readonly trouble: Trouble | null;
}

/** Asks the server what the study's model takes and gives, and which units its figures have. */
async function learn(document: Fields): Promise<Learned> {
  const id = textOr(document["model"], "");
  const units = await declaredUnits().catch((error: unknown) => {
    if (error instanceof RequestError) return null;
    throw error;
  });
  const unitsOf: UnitsOf = ({ distribution }) => units?.get(String(distribution)) ?? {};
  const without = (trouble: Trouble, runnable: boolean): Learned => ({
    known: { model: null, unitsOf },
    title: null,
    runnable,
    trouble,
  });
  if (id === "") return without({ title: words.unknownTitle, lines: [words.noModel] }, false);
  if (/\.(ts|mts|js|mjs)$/.test(id))
    return without({ title: words.unknownTitle, lines: [fillText(words.ownModel, { model: id })] }, false);
  try {
    const [model, models] = await Promise.all([describeModel(id, objectOr(document["parameters"])), listModels()]);
    const title = models.find((one) => one.id === id)?.title ?? null;
    return { known: { model, unitsOf }, title, runnable: true, trouble: null };
  } catch (error) {
    if (!(error instanceof RequestError)) throw error;
    const { code, message, problems } = error.fault;
    if (code === "no-such-model")
      return without({ title: words.unknownTitle, lines: [fillText(words.unknownModel, { model: id })] }, false);
    // What the server says of a study that is wrong it says again, with its places, when the study is run.
    return error.status === 0
      ? without({ title: fillText(words.notAsked, { message }), lines: [] }, true)
      : without(
          {
            title: words.unusable,
            lines: problems.length === 0 ? [message] : problems.map(({ place, accepted }) => `${place}: ${accepted}`),
          },
          true,
        );
  }
}

const troubleBox = ({ title, lines }: Trouble): HTMLElement =>
  html(
    "div",
    { class: "trouble small", id: "study-trouble", role: "alert" },
    html("h2", {}, title),
    lines.map((line) => html("p", {}, line)),
  );

function headOf({ id, document, file }: ChosenStudy, run: HTMLElement, actions: Actions): HTMLElement[] {
  const notes = textOr(document.notes, "");
  const laboratory = textOr(document.laboratory, "");
  return [
    html(
      "header",
      { class: "sheet-head" },
      html("p", { class: "kind" }, file === null ? words.notRun : fillText(words.fromFile, { file })),
      html("h1", { id: "sheet-title", tabindex: -1, lang: titleLanguage(id) }, textOr(document.title, words.untitled)),
      laboratory === "" ? null : html("p", { class: "laboratory", lang: titleLanguage(id) }, laboratory),
      notes === "" ? null : html("p", { class: "notes", lang: titleLanguage(id) }, notes),
    ),
    html(
      "p",
      { class: "buttons" },
      run,
      html(
        "span",
        { class: "note shortcut", "data-needs": "run" },
        words.orPress,
        html("kbd", {}, "Ctrl"),
        " ",
        html("kbd", {}, "Enter"),
      ),
      html(
        "button",
        { type: "button", class: "quiet", id: "write-from", onclick: () => actions.write(document) },
        words.edit,
      ),
      saveButton("save-chosen", pageWords.study.save, "study.json", document),
    ),
    lacking("run"),
  ];
}

function bodyOf(document: Fields, known: Known, title: string | null): HTMLElement[] {
  const { model } = known;
  const table = (found: Table | null, id: string): HTMLElement | null => (found === null ? null : wideTable(found, id));
  const rows = inputTable(document, known);
  return [
    ...(model === null
      ? []
      : [
          section(
            words.measured,
            model.equation === null
              ? null
              : typedEquation(
                  model.id,
                  { title: textOr(document["title"], ""), parameters: objectOr(document["parameters"]) },
                  equationNode(model.equation, symbolsOf(model)),
                ),
            table(measurandTable(model), "study-measurands"),
          ),
        ]),
    section(words.asked, askedFacts(document, title), table(toleranceTable(document, known), "study-tolerances")),
    section(
      words.inputs,
      rows.rows.length === 0 ? html("p", {}, words.noInputs) : table(rows, "study-inputs"),
      table(correlationTable(document, known), "study-correlations"),
      table(sweepTable(document, known), "study-sweep"),
    ),
  ];
}

const section = (title: string, ...children: readonly Child[]): HTMLElement =>
  html("section", { class: "panel" }, html("h2", {}, title), ...children);
