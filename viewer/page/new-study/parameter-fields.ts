import { fillText } from "../../present/fill.ts";
import { speech, messages } from "../language.ts";
import { words } from "../later-words.ts";
import { fieldName } from "../field-name.ts";
import { choice, labelled, textInput, type Spots } from "./controls.ts";

/** How a parameter of a model is asked for. */
interface Question {
  readonly label: string;
  readonly help: string;
  /** Words by the value that the study has; none for a text. */
  readonly options?: readonly (readonly [string, string])[];
}

/** A range of temperatures from the figures as ITS-90 prints them. */
const printedRange = (from: string, to: string, unit: string): string => {
  const printed = (figure: string): string => `${figure.replace(".", messages.decimalSign)} ${unit}`;
  return fillText(words.studyForm.parameters.range, { from: printed(from), to: printed(to) });
};
const kelvin = (from: string): string => printedRange(from, "273.16", "K");
const celsius = (from: string, to: string): string => printedRange(from, to, "°C");

const SUB_RANGE: Question = {
  label: words.studyForm.parameters.subRange,
  help: words.studyForm.parameters.subRangeHelp,
  options: [
    ["", words.studyTable.choose],
    ...(
      [
        [1, kelvin("13.8033")],
        [2, kelvin("24.5561")],
        [3, kelvin("54.3584")],
        [4, kelvin("83.8058")],
        [5, celsius("−38.8344", "29.7646")],
        [6, celsius("0", "961.78")],
        [7, celsius("0", "660.323")],
        [8, celsius("0", "419.527")],
        [9, celsius("0", "231.928")],
        [10, celsius("0", "156.5985")],
        [11, celsius("0", "29.7646")],
      ] as const
    ).map(([n, range]) => [`"${n}"`, `${n}: ${range}`] as const),
  ],
};

/** By parameter; one that is not here is asked for in the words of its model. */
const QUESTIONS: Readonly<Record<string, Question>> = {
  subRange: SUB_RANGE,
  temperatures: {
    label: words.studyForm.parameters.temperatures,
    help: words.studyForm.parameters.temperaturesHelp,
  },
  reference: { label: words.studyForm.parameters.reference, help: words.studyForm.parameters.referenceHelp },
  use: { label: words.studyForm.parameters.use, help: words.studyForm.parameters.useHelp },
  fitC: {
    label: words.studyForm.parameters.fitC,
    help: words.studyForm.parameters.fitCHelp,
    options: [
      ["", words.studyForm.parameters.fitCCold],
      ["true", words.studyForm.parameters.yes],
      ["false", words.studyForm.parameters.fitCNo],
    ],
  },
  weights: {
    label: words.studyForm.parameters.weights,
    help: words.studyForm.parameters.weightsHelp,
  },
  squaredCurrentRatio: {
    label: words.studyForm.parameters.ratio,
    help: words.studyForm.parameters.ratioHelp,
  },
};

/** Choices of a parameter that two models ask for in different words. */
const TRIPLE_POINT: Readonly<Record<string, Question>> = {
  "sprt-bath": {
    label: words.studyForm.parameters.triplePoint,
    help: "",
    options: [
      ["", words.studyForm.parameters.asResistance],
      ["ratio", words.studyForm.parameters.asRatio],
    ],
  },
  "sprt-fixed-points": {
    label: words.studyForm.parameters.whichTriplePoint,
    help: "",
    options: [
      ["", words.studyForm.parameters.ofCalibration],
      ["remeasured", words.studyForm.parameters.remeasured],
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
    const { label, options, ...own } = question ?? {
      label: capital(fieldName(name)),
      help: speech.translate(help),
      options: undefined,
    };
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
