import { fillText } from "../../present/fill.ts";
import type { Draft } from "./draft.ts";
import type { Kind } from "./fields.ts";
import { words as pageWords } from "../later-words.ts";
import { classParameters, isClass } from "./class-tolerance.ts";
import { howOf } from "./hows.ts";
import { lacksOfFigures, notANumber, type Lack } from "./lacks.ts";
import { isFilled, readNumber } from "./typed.ts";

/** What the questions beyond the table lack, as far as the form sees it by itself. */
export function lacksOfRequests(draft: Draft, kinds: readonly Kind[]): readonly Lack[] {
  const lacks: Lack[] = [];
  const add = (place: string, words: string): void => void lacks.push({ place, words });
  /** A figure that may be left empty. */
  const figure = (place: string, text: string | undefined): void => {
    if (isFilled(text) && readNumber(text) === null) add(place, notANumber(text));
  };
  const needed = (place: string, text: string, words: string): void => {
    if (isFilled(text)) figure(place, text);
    else add(place, words);
  };

  for (const [i, { between, coefficient }] of draft.correlations.entries()) {
    const place = `correlations.${i}`;
    if (between[0] === "") add(`${place}.between.0`, pageWords.studyLacks.first);
    if (between[1] === "") add(`${place}.between.1`, pageWords.studyLacks.second);
    else if (between[0] === between[1]) add(`${place}.between.1`, pageWords.studyLacks.another);
    if (!isFilled(coefficient)) add(`${place}.coefficient`, pageWords.studyLacks.coefficient);
    else if (coefficient.trim() !== "readings") {
      const number = readNumber(coefficient);
      if (number === null || Math.abs(number) > 1) add(`${place}.coefficient`, pageWords.studyLacks.coefficientRange);
    }
  }

  for (const { measurand, lower, upper, guard, priorMean, priorDeviation, specification } of draft.conformity) {
    const place = `conformity.${measurand === "" ? "result" : measurand}`;
    if (isClass(specification)) {
      const at = `${place}.tolerance.parameters`;
      const { class: name, temperature, nominal } = classParameters(specification);
      if (name === "") add(`${at}.class`, pageWords.conformityForm.needsClass);
      needed(`${at}.temperature`, temperature, pageWords.conformityForm.needsTemperature);
      figure(`${at}.nominal`, nominal);
    }
    figure(`${place}.tolerance.lower`, lower);
    figure(`${place}.tolerance.upper`, upper);
    figure(`${place}.guardBandMultiplier`, guard);
    const [from, to] = [readNumber(lower), readNumber(upper)];
    if (from !== null && to !== null && !(from < to))
      add(`${place}.tolerance.upper`, fillText(pageWords.studyLacks.greatest, { lower: lower.trim() }));
    if (isFilled(priorMean) || isFilled(priorDeviation)) {
      needed(`${place}.prior.mean`, priorMean, pageWords.studyLacks.priorMean);
      needed(`${place}.prior.standardDeviation`, priorDeviation, pageWords.studyLacks.priorDeviation);
    }
  }

  if (draft.sweep !== null) {
    if (!isFilled(draft.sweep.quantity)) add("sweep.quantity", pageWords.studyLacks.sweepQuantity);
    if (!isFilled(draft.sweep.unit)) add("sweep.unit", pageWords.studyLacks.sweepUnit);
    for (const [i, { at, changes }] of draft.sweep.points.entries()) {
      needed(`sweep.points.${i}.at`, at, fillText(pageWords.studyLacks.sweepAt, { n: String(i + 1) }));
      for (const { key, how, fields } of changes) {
        const known = howOf(how);
        if (known !== undefined)
          lacks.push(...lacksOfFigures(`sweep.points.${i}.inputs.${key}`, { fields }, known, kinds));
      }
    }
  }

  figure("sensitivity.trials", draft.sensitivity ?? "");
  for (const [name, text] of Object.entries(draft.bath))
    if (!["fluid", "name", "usableRange"].includes(name)) figure(`bath.${name}`, text);
  if (draft.custom === "probability")
    needed("coverage.probability", draft.probability, pageWords.studyLacks.probability);
  else needed("coverage.factor", draft.factor, pageWords.studyLacks.factor);
  if (draft.trials === "count") needed("trials", draft.count, pageWords.studyLacks.trials);
  else figure("maximumTrials", draft.maximumTrials);
  if (!isFilled(draft.seed)) add("seed", pageWords.studyLacks.seed);
  return lacks;
}
