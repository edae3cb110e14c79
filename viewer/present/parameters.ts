import type { RunRecord } from "../../engine/index.ts";
import { fieldWords } from "./field-words.ts";
import { quotientUnit, withUnit } from "./numbers.ts";
import { own } from "./own.ts";
import { labelOf } from "./pictures/label.ts";
import type { Label } from "./pictures/scene.ts";
import type { Speech } from "./statement.ts";

/** One parameter of a model as a study states it. */
export interface Parameter {
  /** Where it stands in the parameters, in any language. */
  readonly id: string;
  readonly label: Label;
  readonly text: string;
}

/** What is needed of a record: its parameters, and what its quantities are called. */
type Source = Pick<RunRecord, "inputs" | "measurands"> & { readonly study: Pick<RunRecord["study"], "parameters"> };
type Fields = Readonly<Record<string, unknown>>;

/** Parameters that are temperatures in °C, whatever the model. */
const CELSIUS: ReadonlySet<string> = new Set(["temperatures", "reference", "use"]);
/** What a study says of a quantity that it declares itself. */
const DECLARED = ["symbol", "meaning", "unit", "difference"] as const;

/** The parameters of a study one by one, with the symbols of the quantities they are about and their units. */
export function parametersOf(record: Source, speech: Speech): readonly Parameter[] {
  const { messages, numbers } = speech;
  const text = messages.parameters;
  const { inputs, measurands } = record;
  const [measurand] = Object.values(measurands);
  const quantity = (name: string): { readonly symbol: string } => ({
    symbol: own(inputs, name)?.symbol ?? own(measurands, name)?.symbol ?? name,
  });
  const declared = (place: string, name: string, x: { readonly symbol: string }, stated: unknown): Parameter[] =>
    DECLARED.flatMap((field) => {
      const value = objectOr(stated)[field];
      return value === undefined
        ? []
        : [
            {
              id: `${place}.${name}.${field}`,
              label: labelOf(text[field], { x }),
              text: field === "unit" && value === "1" ? messages.model.dimensionless : plainText(value, speech),
            },
          ];
    });
  return Object.entries(record.study.parameters ?? {}).flatMap(([name, value]): readonly Parameter[] => {
    switch (name) {
      case "equation":
        return [{ id: name, label: text.equation, text: String(value) }];
      case "coefficients":
        return Object.entries(objectOr(value)).map(([input, c]) => ({
          id: `${name}.${input}`,
          label: labelOf(text.coefficient, { x: quantity(input) }),
          text:
            typeof c === "number" && measurand !== undefined
              ? withUnit(numbers.plain(c), quotientUnit(measurand.unit, own(inputs, input)?.unit ?? "1"))
              : plainText(c, speech),
        }));
      case "terms":
      case "quantities":
        return Object.entries(objectOr(value)).flatMap(([input, stated]) =>
          declared(name, input, quantity(input), stated),
        );
      case "measurand":
        return declared(name, "", { symbol: measurand?.symbol ?? "y" }, value);
      default:
        return [
          {
            id: name,
            label: capital(fieldWords(name)),
            text: CELSIUS.has(name) ? withUnit(plainText(value, speech), "°C") : plainText(value, speech),
          },
        ];
    }
  });
}

const objectOr = (value: unknown): Fields =>
  typeof value === "object" && value !== null && !Array.isArray(value) ? (value as Fields) : {};

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

function plainText(value: unknown, speech: Speech): string {
  const { messages, numbers } = speech;
  if (typeof value === "number") return numbers.plain(value);
  if (typeof value === "string") return value;
  if (typeof value === "boolean") return value ? messages.parameters.yes : messages.parameters.no;
  if (value === null || value === undefined) return messages.compared.none;
  if (Array.isArray(value)) return value.map((item) => plainText(item, speech)).join("; ");
  return Object.entries(value as Fields)
    .map(([name, item]) => `${fieldWords(name)} ${plainText(item, speech)}`)
    .join(", ");
}
