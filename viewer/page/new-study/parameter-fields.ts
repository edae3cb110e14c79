import { words } from "../../present/field-words.ts";
import { choice, labelled, textInput, type Spots } from "./controls.ts";

/** How a parameter of a model is asked for. */
interface Question {
  readonly label: string;
  readonly help: string;
  /** Words by the value that the study has; none for a text. */
  readonly options?: readonly (readonly [string, string])[];
}

const SUB_RANGE: Question = {
  label: "Sub-range of ITS-90",
  help: "That of the certificate's coefficients",
  options: [
    ["", "choose…"],
    ...(
      [
        [1, "13.8033 K to 273.16 K"],
        [2, "24.5561 K to 273.16 K"],
        [3, "54.3584 K to 273.16 K"],
        [4, "83.8058 K to 273.16 K"],
        [5, "−38.8344 °C to 29.7646 °C"],
        [6, "0 °C to 961.78 °C"],
        [7, "0 °C to 660.323 °C"],
        [8, "0 °C to 419.527 °C"],
        [9, "0 °C to 231.928 °C"],
        [10, "0 °C to 156.5985 °C"],
        [11, "0 °C to 29.7646 °C"],
      ] as const
    ).map(([n, range]) => [`"${n}"`, `${n}: ${range}`] as const),
  ],
};

/** By parameter; one that is not here is asked for in the words of its model. */
const QUESTIONS: Readonly<Record<string, Question>> = {
  subRange: SUB_RANGE,
  temperatures: {
    label: "Temperatures of the points, °C",
    help: "One each, with semicolons between them: −40; 4; 72; 134",
  },
  reference: { label: "Reference temperature of the line, °C", help: "From which the slope counts" },
  use: { label: "Temperature in use, °C", help: "At which the correction is predicted" },
  fitC: {
    label: "Is C fitted too?",
    help: "Usual where a bath lies below 0 °C",
    options: [
      ["", "where a bath lies below 0 °C"],
      ["true", "yes"],
      ["false", "no: C of IEC 60751"],
    ],
  },
  weights: {
    label: "Weights of the points",
    help: "One each, such as 1/u², with semicolons between them; all alike if left empty",
  },
  squaredCurrentRatio: {
    label: "Squared ratio of the two currents",
    help: "(I₂/I₁)² at the fixed points; 2 if left empty",
  },
};

/** Choices of a parameter that two models ask for in different words. */
const TRIPLE_POINT: Readonly<Record<string, Question>> = {
  "sprt-bath": {
    label: "How is the triple point of water known?",
    help: "",
    options: [
      ["", "as a resistance, from elsewhere"],
      ["ratio", "as a ratio to the same standard resistor"],
    ],
  },
  "sprt-fixed-points": {
    label: "Which triple point of water counts in use?",
    help: "",
    options: [
      ["", "that of the calibration"],
      ["remeasured", "one that was measured anew"],
    ],
  },
};

/** The parameters of a model, each as a question. @param change takes the text of one */
export function parameterFields(
  model: string,
  asked: Readonly<Record<string, string>>,
  texts: Readonly<Record<string, string>>,
  spots: Spots,
  change: (name: string, text: string) => void,
): HTMLElement[] {
  return Object.entries(asked).map(([name, help]) => {
    const question = name === "triplePoint" ? TRIPLE_POINT[model] : QUESTIONS[name];
    const { label, options, ...own } = question ?? { label: capital(words(name)), help, options: undefined };
    const text = texts[name] ?? "";
    const known = options === undefined || options.some(([value]) => value === text);
    return labelled(
      { place: `parameters.${name}`, label, name: label, help: own.help },
      options === undefined || !known
        ? textInput(shown(text), (typed) => change(name, typed))
        : choice(text, options, (chosen) => change(name, chosen)),
      spots,
    );
  });
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** A list as people write it: the study's brackets and commas are its own. */
const shown = (text: string): string => (/^\[[^"{[\]]*\]$/.test(text) ? text.slice(1, -1).replaceAll(",", "; ") : text);
