import { messages } from "../language.ts";
import { words as pageWords } from "../later-words.ts";
import { html, type Child } from "../draw/node.ts";
import { fillText } from "../../present/fill.ts";
import { plain, probabilityText, whole } from "../numbers.ts";
import { labelOf } from "../../present/pictures/label.ts";
import { labelNodes } from "../draw/symbol.ts";
import { listOr, objectOr, textOr, type Fields } from "./read.ts";

const words = pageWords.studyView;

/** What a study asks of a run, a line each. @param title of its model, if the server has it */
export function askedFacts(document: Fields, title: string | null): HTMLElement {
  const { probability, factor, interval } = objectOr(document["coverage"]);
  const { trials = 1_000_000, maximumTrials, significantDigits = 2, seed, sensitivity, sweep, conformity } = document;
  const coverage =
    typeof factor === "number"
      ? fillText(words.factor, { k: plain(factor) })
      : fillText(words.probability, { p: probabilityText(typeof probability === "number" ? probability : 0.95) });
  const limit =
    typeof maximumTrials === "number"
      ? fillText(words.atMost, { asked: messages.compared.adaptive, limit: whole(maximumTrials) })
      : messages.compared.adaptive;
  const { quantity, unit, points } = objectOr(sweep);
  const count = Object.keys(objectOr(conformity)).length;
  const correlations = listOr(document["correlations"]).length;
  const facts: readonly (readonly [Child, Child])[] = [
    [words.model, title ?? textOr(document["model"], words.none)],
    [words.coverage, fillText(interval === "shortest" ? words.shortest : words.symmetric, { coverage })],
    [labelNodes(labelOf(words.digits, { u: { symbol: "u" } })), String(significantDigits)],
    [words.trials, typeof trials === "number" ? whole(trials) : limit],
    [words.seed, html("code", {}, textOr(seed, "1"))],
    [words.conformity, count === 0 ? words.nothing : words.yes],
    [
      words.range,
      points === undefined
        ? words.nothing
        : `${textOr(quantity, words.quantity)}, ${listOr(points)
            .map((point) => objectOr(point)["at"])
            .map((at) => (typeof at === "number" ? plain(at) : "?"))
            .join("; ")} ${textOr(unit, "")}`,
    ],
    [words.sensitivity, sensitivity === undefined || sensitivity === null ? words.nothing : words.yes],
    [words.correlations, correlations === 0 ? words.none : String(correlations)],
    ...bathFacts(objectOr(document["bath"])),
  ];
  return html(
    "dl",
    { class: "provenance" },
    facts.map(([term, value]) => html("div", {}, html("dt", {}, term), html("dd", {}, value))),
  );
}

const bathFacts = (bath: Fields): readonly (readonly [Child, Child])[] => {
  const { fluid, setTemperature } = bath;
  const told = [
    textOr(fluid, "").replaceAll("-", " "),
    typeof setTemperature === "number" ? `${plain(setTemperature)}\u00a0°C` : "",
  ].filter((part) => part !== "");
  return told.length === 0 ? [] : [[words.bath, told.join(", ")]];
};

/** The unit as a reader sees it; that of dimension one has a name. */
export const unitWords = (unit: string): string => (unit === "1" ? messages.model.dimensionless : unit);
