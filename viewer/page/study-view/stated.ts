import type { Quantity } from "../../../engine/index.ts";
import { speech, messages } from "../language.ts";
import { words as pageWords } from "../later-words.ts";
import type { ModelDescription } from "../../api/models.ts";
import { fieldName } from "../field-name.ts";
import { fillText } from "../../present/fill.ts";
import { withUnit } from "../../present/numbers.ts";
import { plain } from "../numbers.ts";
import { own } from "../../present/own.ts";
import { labelOf } from "../../present/pictures/label.ts";
import type { Label } from "../../present/pictures/scene.ts";
import { statementParts, statementWords, type UnitsOf } from "../../present/statement.ts";
import { symbolText } from "../../present/symbol.ts";
import { requirementText } from "../../present/tables/conformity.ts";
import type { Column, Row, Table } from "../../present/tables/table.ts";
import { unitWords } from "./facts.ts";
import { listOr, objectOr, textOr, type Fields } from "./read.ts";

const words = pageWords.studyView;

/** What is known of the quantities of a study: from its model, once the server has said so. */
export interface Known {
  readonly model: ModelDescription | null;
  readonly unitsOf: UnitsOf;
}

const quantityOf = ({ model }: Known, name: string): Quantity | null =>
  model === null
    ? null
    : (own(model.inputs, name) ?? own(model.optionalInputs, name) ?? own(model.measurands, name) ?? null);

/** A quantity by its symbol, or in words while its model is not known. */
const nameOf = (known: Known, name: string): Label => {
  const quantity = quantityOf(known, name);
  return quantity === null ? fieldName(name) : labelOf("{x}", { x: { symbol: quantity.symbol } });
};

const head = (text: string): Column => ({ head: text, kind: "head" });
const text = (title: string): Column => ({ head: title, kind: "text" });

/** What is measured, with the units. */
export const measurandTable = ({ measurands }: ModelDescription): Table => ({
  caption: words.results,
  columns: [head(words.result), text(words.meaning), text(words.unit)],
  rows: Object.values(measurands).map(({ symbol, meaning, unit }) => ({
    head: labelOf("{y}", { y: { symbol } }),
    cells: [speech.translate(meaning), unitWords(unit)],
  })),
});

/** Every input as the study states it, with symbols and units; those it leaves out come last. */
export function inputTable(document: Fields, known: Known): Table {
  const inputs = Object.entries(objectOr(document["inputs"]));
  const rows = inputs.map(([name, statement]): Row => {
    const quantity = quantityOf(known, name);
    const { distribution, figures } = statementParts(statement, quantity?.unit ?? "1", known.unitsOf, speech);
    return {
      head: nameOf(known, name),
      ...(quantity === null || quantity.meaning === quantity.symbol
        ? {}
        : { note: speech.translate(quantity.meaning) }),
      cells: [
        distribution,
        figures.map((figure) => figure.text).join(", "),
        textOr(objectOr(statement)["source"], messages.inputs.noSource),
      ],
    };
  });
  const leftOut = Object.entries(objectOr(document["negligible"])).map(([name, why]): Row => ({
    head: nameOf(known, name),
    cells: [words.leftOut, "", textOr(why, "")],
  }));
  return {
    caption: fillText(words.inputsCaption, { count: String(inputs.length) }),
    columns: [head(words.quantity), text(words.known), text(words.figures), text(words.source)],
    rows: [...rows, ...leftOut],
  };
}

/** Correlations that are stated; `null` if there are none. */
export function correlationTable(document: Fields, known: Known): Table | null {
  const stated = listOr(document["correlations"]).map(objectOr);
  if (stated.length === 0) return null;
  const { compared, inputs } = messages;
  return {
    caption: words.pairs,
    columns: [head(words.between), text(words.coefficient), text(words.source)],
    rows: stated.map(({ between, coefficient, refersTo, source }) => {
      const [a, b] = listOr(between).map((name) => quantityOf(known, String(name))?.symbol ?? fieldName(String(name)));
      const value = typeof coefficient === "number" ? plain(coefficient) : inputs.fromReadings;
      return {
        head: labelOf("{a}, {b}", { a: { symbol: a ?? "" }, b: { symbol: b ?? "" } }),
        cells: [
          refersTo === "ranks" ? fillText(compared.ranks, { coefficient: value }) : value,
          textOr(source, inputs.noSource),
        ],
      };
    }),
  };
}

/** Tolerances and decision rules; `null` if none are stated. */
export function toleranceTable(document: Fields, known: Known): Table | null {
  const stated = Object.entries(objectOr(document["conformity"]));
  if (stated.length === 0) return null;
  return {
    caption: words.tolerances,
    columns: [head(words.result), text(words.tolerance), text(words.basis), text(words.rule)],
    rows: stated.map(([name, requirement]) => {
      const { tolerance, guardBandMultiplier: r = 0 } = objectOr(requirement);
      const unit = quantityOf(known, name)?.unit ?? "1";
      return {
        head: nameOf(known, name),
        cells: [
          toleranceWords(objectOr(tolerance), unit),
          textOr(objectOr(tolerance)["basis"], messages.notApplicable),
          r === 0 ? words.simple : typeof r === "number" ? plain(r) : String(r),
        ],
      };
    }),
  };
}

function toleranceWords(tolerance: Fields, unit: string): string {
  if (typeof tolerance["specification"] === "string") {
    const { class: name, temperature, element } = objectOr(tolerance["parameters"]);
    return fillText(element === undefined ? words.classOf : words.classElement, {
      class: String(name),
      temperature: typeof temperature === "number" ? plain(temperature) : String(temperature),
      element: String(element),
    });
  }
  const limit = (name: string): number | null =>
    typeof tolerance[name] === "number" ? (tolerance[name] as number) : null;
  const [lower, upper] = [limit("lower"), limit("upper")];
  return lower === null && upper === null
    ? words.none
    : requirementText({ lower, upper } as Parameters<typeof requirementText>[0], unit, speech);
}

/** The points of a range; `null` if none is asked for. */
export function sweepTable(document: Fields, known: Known): Table | null {
  const { quantity, unit, points } = objectOr(document["sweep"]);
  const stated = listOr(points).map(objectOr);
  if (stated.length === 0) return null;
  return {
    caption: words.points,
    columns: [head(textOr(quantity, words.quantity)), text(words.differs), text(words.figures)],
    rows: stated.flatMap(({ at, inputs }): readonly Row[] => {
      const point = typeof at === "number" ? withUnit(plain(at), textOr(unit, "1")) : "?";
      const differing = Object.entries(objectOr(inputs)).map(([name, statement]): Row => {
        const found = quantityOf(known, name);
        return {
          head: point,
          cells: [
            found === null ? fieldName(name) : `${symbolText(found.symbol)}, ${found.meaning}`,
            statementWords(statement, found?.unit ?? "1", known.unitsOf, speech),
          ],
        };
      });
      return differing.length === 0 ? [{ head: point, cells: [words.asTable, ""] }] : differing;
    }),
  };
}
