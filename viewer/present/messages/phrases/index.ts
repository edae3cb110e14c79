import type { Language } from "../../../../engine/index.ts";
import { bath } from "./bath.ts";
import { calibration } from "./calibration.ts";
import { engine } from "./engine.ts";
import { general } from "./general.ts";
import { platinum } from "./platinum.ts";
import { published } from "./published.ts";
import { safety } from "./safety.ts";

/**
 * German for the texts of the models that come with Trialband, by their English, which is what a record carries. `{…}`
 * stands for a number, or for a text that has a phrase of its own.
 */
export const GERMAN: Readonly<Record<string, string>> = {
  ...bath,
  ...platinum,
  ...calibration,
  ...published,
  ...general,
  ...safety,
  ...engine,
};

const literal = (text: string): string => text.replace(/[.*+?^$()|[\]\\/]/g, String.raw`\$&`);

/** Phrases with places, as patterns; the longest first, so that the one that says most is taken. */
const PATTERNS = Object.entries(GERMAN)
  .filter(([english]) => english.includes("{"))
  .toSorted(([a], [b]) => b.length - a.length)
  .map(([english, german]) => ({
    pattern: new RegExp(`^${literal(english).replace(/\{(\w+)\}/g, "(?<$1>.+?)")}$`, "u"),
    german,
  }));

const isNumber = (text: string): boolean => /^[−-]?\d+(\.\d+)?$/.test(text);

/** A text of a record in German; `null` if it is the study's own, or of a model of the laboratory. */
function inGerman(text: string): string | null {
  if (Object.hasOwn(GERMAN, text)) return GERMAN[text]!;
  for (const { pattern, german } of PATTERNS) {
    const places = pattern.exec(text)?.groups;
    if (places === undefined) continue;
    const filled = Object.entries(places).map(([name, part]) => [name, partInGerman(part)] as const);
    if (filled.some(([, part]) => part === null)) continue;
    const parts = Object.fromEntries(filled);
    return german.replace(/\{(\w+)\}/g, (_, name: string) => parts[name]!);
  }
  return null;
}

/** A place's content: a number with a comma, a letter or a name as it is, or a phrase of its own. */
function partInGerman(part: string): string | null {
  if (isNumber(part)) return part.replace(".", ",").replace("-", "−");
  return /^[\p{L}\d]{1,2}$|^[a-z]+(-[a-z0-9]+)*(, [a-z]+(-[a-z0-9]+)*)+$/u.test(part) ? part : inGerman(part);
}

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
