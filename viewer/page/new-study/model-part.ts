import type { Quantity } from "../../../engine/index.ts";
import type { ListedModel, ModelDescription } from "../../api/models.ts";
import { describeModel, RequestError } from "../api.ts";
import { html } from "../draw/node.ts";
import { en } from "../../present/messages/en/index.ts";
import { equationNode } from "../draw/symbol.ts";
import { PAUSE } from "./checker.ts";
import { createEquationField, type EquationField, type StatedQuantities } from "../equation/field.ts";
import { idOf, labelled, textArea, textInput, type Spots } from "./controls.ts";
import { correlationFields } from "./correlation-fields.ts";
import { isStated, parametersOf, withInput, withParameter, withReason, type Draft } from "./draft.ts";
import type { Kind } from "./fields.ts";
import { inputFields } from "./input-fields.ts";

/** What the server offers to write a study with. */
export interface Catalogue {
  readonly models: readonly ListedModel[];
  readonly kinds: readonly Kind[];
}

/** The parts of the form that the chosen model decides: its parameters, its inputs, and what is known about both. */
export interface ModelPart {
  readonly about: HTMLElement;
  readonly parameters: HTMLElement;
  readonly inputs: HTMLElement;
  readonly dependence: HTMLElement;
  /** Names of the model's inputs in its order; none before the server has described it. */
  readonly names: () => readonly string[];
  /** Draws the parts anew for the draft's model. */
  readonly open: () => void;
  /** Another model was chosen. */
  readonly choose: () => void;
}

/**
 * @param draft as it is at the time of asking
 * @param change takes the draft with a change made in these parts
 * @param described the inputs of the model are known, or known to be unknown
 */
export function createModelPart(
  spots: Spots,
  catalogue: () => Catalogue,
  draft: () => Draft,
  change: (draft: Draft) => void,
  described: () => void,
): ModelPart {
  const about = html("div", { class: "about-model" });
  const parameters = html("div", { class: "fields" });
  const inputs = html("div", {});
  const dependence = html("div", {});
  let model: ModelDescription | null = null;
  let equation: EquationField | null = null;
  let timer: ReturnType<typeof setTimeout> | undefined;

  const summaryOf = (id: string): ListedModel | undefined => catalogue().models.find((one) => one.id === id);
  const quantities = (): Readonly<Record<string, Quantity>> =>
    model === null ? {} : { ...model.inputs, ...model.optionalInputs };
  const forgetSpots = (under: string): void => {
    for (const place of spots.keys()) if (place.startsWith(under)) spots.delete(place);
  };

  /** Asks which inputs the model has, given its parameters, and draws a row for each. */
  const describe = async (): Promise<void> => {
    const summary = summaryOf(draft().model);
    if (summary === undefined) {
      model = null;
      drawInputs("Choose a model: the form then asks for each of its input quantities.");
      return;
    }
    try {
      const answer = await describeModel(summary.id, summary.family ? parametersOf(draft()) : {});
      if (draft().model !== summary.id) return;
      model = answer;
      drawInputs("");
    } catch (error) {
      if (!(error instanceof RequestError)) throw error;
      model = null;
      drawInputs("The input quantities follow once the parameters above can be used.");
    }
    described();
  };

  const drawInputs = (note: string): void => {
    forgetSpots("inputs.");
    for (const place of spots.keys()) if (place.startsWith("negligible.")) spots.delete(place);
    const all = Object.entries(quantities());
    const optional = new Set(Object.keys(model?.optionalInputs ?? {}));
    const fieldsOf = ([name, quantity]: readonly [string, Quantity]): HTMLElement =>
      inputFields(name, quantity, draft().inputs[name], catalogue().kinds, spots, (stated) =>
        change(withInput(draft(), name, stated)),
      );
    const may = all.filter(([name]) => optional.has(name));
    inputs.replaceChildren(
      ...(note === "" ? [] : [html("p", { class: "note", id: "no-inputs" }, note)]),
      ...all.filter(([name]) => !optional.has(name)).map(fieldsOf),
      ...(may.length === 0 ? [] : [checklist(may.map((one) => optionalRow(one[0], one[1], fieldsOf(one))))]),
    );
    dependence.replaceChildren(
      all.length < 2
        ? html("p", { class: "note" }, "Two input quantities are needed first.")
        : correlationFields(
            all
              .filter(([name]) => !optional.has(name) || isStated(draft(), name))
              .map(([name, { meaning }]) => [name, meaning]),
            draft().correlations,
            spots,
            (correlations) => change({ ...draft(), correlations }),
          ),
    );
    drawAbout();
  };

  /** An optional input: its statement, or the reason for leaving it out. */
  const optionalRow = (name: string, { meaning }: Quantity, fields: HTMLElement): HTMLElement => {
    fields.append(
      html(
        "span",
        { class: "fields" },
        labelled(
          {
            place: `negligible.${name}`,
            label: en.leftOut.why,
            name: `${en.leftOut.why}: ${meaning}`,
            help: en.leftOut.whyHelp,
            wide: true,
          },
          textInput(draft().negligible[name] ?? "", (because) => change(withReason(draft(), name, because))),
          spots,
        ),
      ),
    );
    return fields;
  };

  /** Every optional input of the model, folded away where none is stated or judged yet. */
  const checklist = (rows: readonly HTMLElement[]): HTMLElement => {
    const names = Object.keys(model?.optionalInputs ?? {});
    const touched = names.some((name) => isStated(draft(), name) || (draft().negligible[name] ?? "") !== "");
    return html(
      "details",
      { class: "fold", id: "optional-inputs", open: touched },
      html("summary", { id: "optional-inputs-summary" }, `${en.leftOut.optional} (${rows.length})`),
      html("p", { class: "note" }, en.leftOut.optionalHelp),
      rows,
    );
  };

  const drawAbout = (): void => {
    const symbols = new Set(
      [...Object.values(quantities()), ...Object.values(model?.measurands ?? {})].map(({ symbol }) => symbol),
    );
    const source = summaryOf(draft().model)?.source ?? null;
    const cautions = model?.cautions ?? [];
    about.replaceChildren(
      // The field of a typed equation shows it as mathematics.
      ...(model?.equation == null || model.id === "equation"
        ? []
        : [html("p", {}, equationNode(model.equation, symbols))]),
      ...(source === null ? [] : [html("p", { class: "note" }, `Source of the model: ${source}`)]),
      ...(cautions.length === 0
        ? []
        : [
            html(
              "ul",
              { class: "sentences cautions" },
              cautions.map((text) => html("li", {}, text)),
            ),
          ]),
    );
  };

  const drawParameters = (): void => {
    forgetSpots("parameters.");
    parameters.replaceChildren(
      ...Object.entries(summaryOf(draft().model)?.parameters ?? {}).map(([name, help]) =>
        draft().model === "equation" && name === "equation"
          ? equationPart()
          : labelled(
              {
                place: `parameters.${name}`,
                label: html("code", {}, name),
                name: `parameter ${name}`,
                help: `${help}. Written as JSON`,
                wide: true,
              },
              textArea(draft().parameters[name] ?? "", 2, (text) => {
                change(withParameter(draft(), name, text));
                clearTimeout(timer);
                timer = setTimeout(() => {
                  void equation?.check();
                  void describe();
                }, PAUSE);
              }),
              spots,
            ),
      ),
    );
  };

  /** The field of a typed equation; it says itself what is wrong with the text. */
  const equationPart = (): HTMLElement => {
    const stated = parametersOf(draft())["equation"];
    equation = createEquationField({
      id: idOf("parameters.equation"),
      text: typeof stated === "string" ? stated : "",
      quantities: () => {
        const { quantities: all } = parametersOf(draft());
        return typeof all === "object" && all !== null && !Array.isArray(all) ? (all as StatedQuantities) : {};
      },
      title: () => draft().title,
      change: (text) => change(withParameter(draft(), "equation", JSON.stringify(text))),
      checked: () => void describe(),
    });
    equation.control.dataset.place = "parameters.equation";
    equation.control.dataset.checked = "itself";
    spots.set("parameters.equation", {
      place: "parameters.equation",
      name: "Equation",
      control: equation.control,
      message: html("span", {}),
    });
    return equation.element;
  };

  return {
    about,
    parameters,
    inputs,
    dependence,
    names: () => Object.keys(quantities()),
    open: () => {
      drawParameters();
      drawInputs("Reading what the model asks for…");
      void describe();
    },
    choose: () => {
      drawParameters();
      void describe();
    },
  };
}
