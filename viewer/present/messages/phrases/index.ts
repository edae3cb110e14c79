import type { Language } from "../../../../engine/index.ts";
import { phraseBook } from "./book.ts";
import { bath } from "./bath.ts";
import { budgetTables } from "./budget-tables.ts";
import { calibration } from "./calibration.ts";
import { engine } from "./engine.ts";
import { evidence } from "./evidence.ts";
import { files } from "./files.ts";
import { general } from "./general.ts";
import { platinum } from "./platinum.ts";
import { published } from "./published.ts";
import { requests } from "./requests.ts";
import { safety } from "./safety.ts";

/**
 * German for the texts of the models that come with Trialband, by their English, which is what a record carries. `{…}`
 * stands for a number with or without a unit, a moment, or a text that has a phrase of its own; a place whose name begins with
 * `own` for any text, which stays as it is.
 */
export const GERMAN: Readonly<Record<string, string>> = {
  ...bath,
  ...platinum,
  ...calibration,
  ...published,
  ...general,
  ...safety,
  ...engine,
  ...evidence,
  ...requests,
  ...files,
  ...budgetTables,
};

/** A number, with a unit or without. */
const isFigure = (text: string): boolean => /^[−-]?(\d+(\.\d+)?|∞)([ \u00a0](mK|K|°C|Ω|mm|s|min|h|%))?$/.test(text);
/** A day, or a moment as a log's clock shows it. */
const isMoment = (text: string): boolean => /^\d{4}-\d\d-\d\d(T[\d:.]+Z?)?$/.test(text);

/** A place's content: a figure with a comma, a moment, a letter or a name as it is, or a phrase of its own. */
function partInGerman(part: string): string | null {
  if (isMoment(part)) return part;
  if (isFigure(part)) return part.replace(".", ",").replace("-", "−");
  return /^[\p{L}\d]{1,2}$|^[a-z]+(-[a-z0-9]+)*(, [a-z]+(-[a-z0-9]+)*)+$/u.test(part) ? part : inGerman(part);
}

/** A text of a record in German; `null` if it is the study's own, or of a model of the laboratory. */
const inGerman = phraseBook(GERMAN, partInGerman);

/** Words within an equation that is otherwise signs and symbols. */
const IN_EQUATIONS: Readonly<Record<string, string>> = {
  "by least squares of": "durch kleinste Quadrate von",
  "gives the coefficients": "ergibt die Koeffizienten",
  solves: "löst",
  with: "mit",
  and: "und",
};

/** A model equation with its words in another language. */
export const equationIn = (equation: string, language: Language): string =>
  language === "en"
    ? equation
    : Object.entries(IN_EQUATIONS).reduce(
        (text, [english, german]) => text.replace(new RegExp(`(?<= |^)${english}(?=[ ;]|$)`, "g"), german),
        equation,
      );

/** A text that a record has in English, in another language; `null` if there are no words for it. */
export const translated = (text: string, language: Language): string | null =>
  language === "en" ? text : inGerman(text);
