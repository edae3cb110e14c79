import type { RunRecord } from "../../../engine/index.ts";
import { fillText } from "../../present/fill.ts";
import { messages } from "../language.ts";
import { plain } from "../numbers.ts";
import { symbolText } from "../../present/symbol.ts";
import { estimateWord, freedomText, placeText, widthText } from "./change-words.ts";
import { readEstimate, readFreedom, readWidth, widthFigure } from "./figure.ts";
import { statedFreedom, type InputChange } from "./study-change.ts";
import { typedField, type TypedField } from "./typed-field.ts";

const words = messages.whatIfPanel;

/** Nothing changed. */
export const UNCHANGED: InputChange = { kind: "stated", width: 1 };

const near = (a: number, b: number): boolean => a === b || Math.abs(a - b) <= 1e-9 * Math.abs(b);

const named = (record: RunRecord, name: string, label: string): { readonly label: string; readonly name: string } => ({
  label,
  name: fillText(words.figureOf, { figure: label, x: symbolText(record.inputs[name]!.symbol) }),
});

/** A field for the width of an input. @param choose takes it as a factor of the stated one */
export function widthField(record: RunRecord, name: string, choose: (width: number) => void): TypedField {
  const { unit } = record.inputs[name]!;
  return typedField<number>(
    {
      id: `try-width-${name}`,
      ...named(record, name, words.width),
      placeholder: words.widthAsStated,
      of: ({ width }) => width,
      read(text, { kind }) {
        const read = readWidth(text, record, name, kind);
        if ("width" in read) return { value: read.width };
        const [value, units] = [text, read.units.join(", ")];
        switch (read.wrong) {
          case "no single width":
            return { wrong: words.noSingleWidth };
          case "too wide":
            return { wrong: fillText(words.tooWide, { value }) };
          case "unit":
            return { wrong: fillText(words.widthUnit, { value, units }) };
          case "nothing read":
            return { wrong: fillText(words.widthWrong, { value }) };
        }
      },
      same: near,
      written: (width) => (width === 1 ? "" : width === 0 ? "0" : `× ${plain(Number(width.toPrecision(6)))}`),
      said({ kind, width }) {
        if (width === 0) return words.exact;
        const figure = widthFigure(record, name, kind);
        return fillText(width === 1 ? words.figureStated : words.figureNow, {
          figure: words[figure.name],
          stated: widthText(figure.value, unit),
          now: widthText(figure.value * width, unit),
        });
      },
    },
    UNCHANGED,
    choose,
  );
}

/** A field for the estimate of an input, or the value of a constant. @param choose takes `undefined` for the stated one */
export function estimateField(
  record: RunRecord,
  name: string,
  choose: (estimate: number | undefined) => void,
): TypedField {
  const { unit, estimate: before } = record.inputs[name]!;
  const word = estimateWord(record, name, messages);
  return typedField<number | undefined>(
    {
      id: `try-estimate-${name}`,
      ...named(record, name, word),
      placeholder: words.widthAsStated,
      of: ({ estimate }) => estimate,
      read(text, { kind }) {
        const read = readEstimate(text, record, name, kind);
        if ("estimate" in read) return { value: read.estimate ?? undefined };
        const [value, units] = [text, read.units.join(", ")];
        switch (read.wrong) {
          case "no single estimate":
            return { wrong: words.noSingleEstimate };
          case "not finite":
            return { wrong: fillText(words.notFinite, { value }) };
          case "unit":
            return { wrong: fillText(words.widthUnit, { value, units }) };
          case "nothing read":
            return { wrong: fillText(words.estimateWrong, { value }) };
        }
      },
      same: (a, b) => a === b || (a !== undefined && b !== undefined && near(a, b)),
      written: (estimate) => (estimate === undefined ? "" : `${estimate < 0 ? "=" : ""}${placeText(estimate, unit)}`),
      said: ({ estimate }) =>
        estimate === undefined
          ? fillText(words.placeStated, { stated: placeText(before, unit) })
          : fillText(words.placeNow, { now: placeText(estimate, unit), stated: placeText(before, unit) }),
    },
    UNCHANGED,
    choose,
  );
}

/** A field for the degrees of freedom of an input. @param choose takes `undefined` for those stated */
export function freedomField(
  record: RunRecord,
  name: string,
  choose: (freedom: number | undefined) => void,
): TypedField {
  const statement = record.study.inputs[name]!;
  return typedField<number | undefined>(
    {
      id: `try-freedom-${name}`,
      ...named(record, name, "ν"),
      placeholder: words.freedomAsStated,
      of: ({ freedom }) => freedom,
      read(text, { kind }) {
        const read = readFreedom(text, record, name, kind);
        if ("freedom" in read) return { value: read.freedom ?? undefined };
        switch (read.wrong) {
          case "none":
            return { wrong: words.noFreedom };
          case "infinite":
            return { wrong: words.freedomInfinite };
          case "nothing read":
            return { wrong: fillText(words.freedomWrong, { value: text }) };
        }
      },
      same: (a, b) => a === b || (a !== undefined && b !== undefined && near(a, b)),
      written: (freedom) => (freedom === undefined ? "" : freedomText(freedom)),
      said({ kind, freedom }) {
        const stated = statedFreedom(statement, kind);
        const { degreesOfFreedom } = record.inputs[name]!;
        // A kind that states none has those that follow from it: n − 1 of readings.
        const before = freedomText(stated ?? (kind === "stated" ? (degreesOfFreedom ?? Infinity) : Infinity));
        return freedom === undefined
          ? fillText(words.freedomIs, { stated: before })
          : fillText(words.freedomNow, { now: freedomText(freedom), stated: before });
      },
    },
    UNCHANGED,
    choose,
  );
}
