import type { SurveyPlan } from "../../api/evidence.ts";
import { fillText } from "../../present/fill.ts";
import { words } from "../later-words.ts";
import type { SetUp } from "./draft.ts";

const alike = (a: string, b: string): boolean => a.trim().toLowerCase() === b.trim().toLowerCase();

/**
 * Takes the steps or the positions of a table into the set-up: steps in the place of those there were, positions beside
 * them, those of the same name anew. Names go by the set-up's own spelling.
 *
 * @returns what was taken, in words
 */
export function takePlan(draft: SetUp, plan: SurveyPlan): string {
  const position = (name: string): string => draft.positions.find((one) => alike(one.name, name))?.name ?? name.trim();
  if (plan.kind === "positions") {
    const named = plan.positions.filter(({ name }) => name.trim() !== "");
    for (const stated of named) {
      const known = draft.positions.find(({ name }) => alike(name, stated.name));
      if (known === undefined) draft.positions.push({ ...stated });
      else Object.assign(known, stated, { name: known.name });
    }
    draft.reference ||= draft.positions[0]?.name ?? "";
    return fillText(words.surveySetup.positionsTaken, { n: String(named.length) });
  }
  const thermometer = (name: string): string =>
    draft.thermometers.find((one) => alike(one.name, name))?.name ?? name.trim();
  draft.steps = plan.steps.map(({ from, to, at }) => ({
    from,
    to,
    at: Object.fromEntries(Object.entries(at).map(([name, place]) => [thermometer(name), position(place)])),
  }));
  for (const name of draft.steps.flatMap(({ at }) => Object.values(at)))
    if (!draft.positions.some((one) => one.name === name))
      draft.positions.push({ name, depth: "", radius: "", direction: "" });
  draft.reference ||= draft.positions[0]?.name ?? "";
  const known = new Set(draft.thermometers.map(({ name }) => name));
  const strange = [...new Set(draft.steps.flatMap(({ at }) => Object.keys(at)))].filter((name) => !known.has(name));
  const taken = fillText(words.surveySetup.stepsTaken, { n: String(draft.steps.length) });
  return strange.length === 0 || known.size === 0
    ? taken
    : `${taken} ${fillText(words.surveySetup.stepsStrange, { names: strange.join(", ") })}`;
}
