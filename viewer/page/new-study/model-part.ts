import { fromEnglish } from "../draw/from-english.ts";
import { speech } from "../language.ts";
import { words } from "../later-words.ts";
import { fillText } from "../../present/fill.ts";
import { labelOf } from "../../present/pictures/label.ts";
import { withUnit } from "../../present/numbers.ts";
import { plain } from "../numbers.ts";
import { counted } from "../counted.ts";
import type { ListedModel, ModelDescription } from "../../api/models.ts";
import { describeModel, RequestError } from "../api.ts";
import { html } from "../draw/node.ts";
import { equationNode, labelNodes } from "../draw/symbol.ts";
import { PAUSE } from "./checker.ts";
import type { Spots } from "./controls.ts";
import type { EquationField } from "../equation/field.ts";
import { BLANK, declaredBy, withParameter, type Draft } from "./draft.ts";
import { equationPart } from "./equation-part.ts";
import type { Kind } from "./fields.ts";
import { parameterFields } from "./parameter-fields.ts";
import { NO_SHAPE, shownRows, type TableShape } from "./table-shape.ts";
import { parametersOf } from "./to-study.ts";

/** What the server offers to write a study with. */
export interface Catalogue {
  readonly models: readonly ListedModel[];
  readonly kinds: readonly Kind[];
}

/** The parts of the form that the chosen model decides, and the shape of the table. */
export interface ModelPart {
  /** Equation, source and cautions, folded. */
  readonly about: HTMLElement;
  /** Parameters, or the equation to type. */
  readonly parameters: HTMLElement;
  /** Why the table has no rows; empty if it has. */
  readonly note: HTMLElement;
  readonly shape: () => TableShape;
  /** Names of the model's inputs in its order; none before the server has described it. */
  readonly names: () => readonly string[];
  /** Draws the parts anew for the draft's model, and asks the server about it. */
  readonly open: () => void;
  /** Quantities of the table were changed, which an equation is checked against. */
  readonly tableChanged: () => void;
  /** Draws the parts anew from the draft; its model is the same. */
  readonly redraw: () => void;
}

/**
 * @param draft as it is at the time of asking
 * @param change takes the draft with a change made in these parts
 * @param described the inputs of the model are known, or known to be unknown
 * @param rowsChanged the table has other rows now
 */
export function createModelPart(
  spots: Spots,
  catalogue: () => Catalogue,
  draft: () => Draft,
  change: (draft: Draft, where: string) => void,
  described: () => void,
  rowsChanged: () => void,
): ModelPart {
  const about = html("div", { class: "about-model" });
  const parameters = html("div", { class: "fields" });
  const note = html("p", { class: "note", id: "no-inputs" });
  let model: ModelDescription | null = null;
  let equation: EquationField | null = null;
  let timer: ReturnType<typeof setTimeout> | undefined;
  const summaryOf = (id: string): ListedModel | undefined => catalogue().models.find((one) => one.id === id);

  const shape = (): TableShape => {
    const declared = declaredBy(draft());
    if (declared !== null) return { ...NO_SHAPE, declared };
    return model === null
      ? NO_SHAPE
      : {
          declared: null,
          inputs: { ...model.inputs, ...model.optionalInputs },
          optional: new Set(Object.keys(model.optionalInputs)),
          measurands: model.measurands,
        };
  };

  /** Asks which inputs the model has, given its parameters. */
  const describe = async (): Promise<void> => {
    const id = draft().model;
    const summary = summaryOf(id);
    model = null;
    note.textContent = "";
    if (id === "") note.textContent = words.studyForm.chooseModel;
    else if (declaredBy(draft()) === null && summary === undefined) note.textContent = words.studyForm.noSuchModel;
    else if (declaredBy(draft()) === null && summary !== undefined) {
      try {
        const answer = await describeModel(summary.id, summary.family ? parametersOf(draft()) : {});
        if (draft().model !== id) return;
        model = answer;
      } catch (error) {
        if (!(error instanceof RequestError)) throw error;
        note.textContent = words.studyForm.rowsFollow;
      }
    }
    drawAbout();
    described();
  };

  const drawAbout = (): void => {
    const summary = summaryOf(draft().model);
    const cautions = model?.cautions ?? summary?.cautions ?? [];
    const stated = model?.equation ?? null;
    const source = summary?.source ?? null;
    const symbols = new Set([
      ...shownRows(draft(), shape()).map(({ symbol }) => symbol),
      ...Object.values(model?.measurands ?? {}).map(({ symbol }) => symbol),
    ]);
    const curve = model?.calibrationCurve ?? null;
    about.replaceChildren(
      ...(curve === null
        ? []
        : [
            html(
              "p",
              { class: "note", id: "model-curve" },
              labelNodes(
                labelOf(words.studyForm.curve, {
                  y: { symbol: curve.value.symbol },
                  x: { symbol: curve.argument.symbol },
                  from: withUnit(plain(curve.argument.from), curve.argument.unit),
                  to: withUnit(plain(curve.argument.to), curve.argument.unit),
                }),
              ),
            ),
          ]),
      ...(cautions.length === 0
        ? []
        : [
            html(
              "details",
              { class: "fold cautions-fold", id: "cautions" },
              html(
                "summary",
                { id: "cautions-summary" },
                html("strong", {}, words.studyForm.workSafely),
                counted(words.studyForm.cautions, cautions.length),
              ),
              html(
                "ul",
                { class: "sentences cautions" },
                cautions.map((text) => html("li", {}, fromEnglish(text))),
              ),
            ),
          ]),
      ...(stated === null && (source === null || declaredBy(draft()) !== null)
        ? []
        : [
            html(
              "details",
              { class: "fold", id: "about-model" },
              html("summary", { id: "about-model-summary" }, words.studyForm.equationAndSource),
              html("p", {}, fromEnglish(summary?.title ?? "")),
              stated === null ? null : html("p", {}, equationNode(stated, symbols)),
              source === null
                ? null
                : html(
                    "p",
                    { class: "note" },
                    fillText(words.studyForm.modelSource, { source: speech.translate(source) }),
                  ),
            ),
          ]),
    );
  };

  const openEquation = (): EquationField => {
    equation = equationPart(draft, spots, change, rowsChanged);
    void equation.check();
    return equation;
  };

  const drawParameters = (): void => {
    equation = null;
    for (const place of spots.keys()) if (place.startsWith("parameters.")) spots.delete(place);
    const id = draft().model;
    const asked = declaredBy(draft()) === null ? (summaryOf(id)?.parameters ?? {}) : {};
    parameters.replaceChildren(
      ...(declaredBy(draft()) === "equation"
        ? [openEquation().element]
        : parameterFields(id, asked, draft().parameters, spots, (name, text) => {
            change(withParameter(draft(), name, text), `parameters.${name}`);
            clearTimeout(timer);
            timer = setTimeout(() => void describe(), PAUSE);
          })),
    );
  };

  return {
    about,
    parameters,
    note,
    shape,
    names: () => Object.keys(shape().inputs),
    open: () => {
      drawParameters();
      void describe();
    },
    tableChanged: () => {
      if (equation === null) return;
      clearTimeout(timer);
      timer = setTimeout(() => void equation?.check(), PAUSE);
    },
    redraw: () => {
      drawParameters();
      drawAbout();
    },
  };
}

/** The draft with another model: a table of one's own starts from what was stated for the model before. */
export function withModel(draft: Draft, shape: TableShape, model: string): Draft {
  const next = { ...draft, model };
  if (declaredBy(next) === null || shape.declared !== null || draft.model === "") return next;
  const own = draft.rows.filter(({ key }) => !Object.hasOwn(shape.inputs, key));
  if (own.length > 0) return { ...next, rows: own };
  const stated = shownRows(draft, shape)
    .filter(({ how }) => how !== "")
    .map((row) => {
      const { unit: _unit, ...fields } = row.fields;
      const difference = shape.inputs[row.key]!.difference;
      const ofTemperature = difference === true ? "difference" : row.unit === "°C" ? "temperature" : "";
      return { ...row, fields, sensitivity: "1", ofTemperature } as const;
    });
  return { ...next, rows: stated.length > 0 ? stated : BLANK.rows };
}
