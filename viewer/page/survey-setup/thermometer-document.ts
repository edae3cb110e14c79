import { subRangeNumbered } from "../../present/sub-ranges.ts";
import { bag, figure, text, whole, type Bag } from "../evidence/text.ts";

/** How a resistance becomes a temperature: by IEC 60751, by coefficients of the thermometer's own, or as a standard one. */
export type Conversion = "iec" | "own" | "its90";

/** A thermometer, and where it stands in the log. */
export interface Thermometer {
  name: string;
  file: string;
  /** Heading or letter; "" if the name is the heading. */
  column: string;
  unit: string;
  conversion: Conversion;
  r0: string;
  a: string;
  b: string;
  c: string;
  subRange: string;
  /** R(273.16 K) in Ω. */
  triplePoint: string;
  /** Coefficients of the deviation function of ITS-90, by name. */
  deviation: Record<string, string>;
}

/** A thermometer of which nothing is known yet. */
export const newOne = (name: string, file = "", column = "", unit = ""): Thermometer => ({
  name,
  file,
  column,
  unit,
  conversion: "iec",
  r0: "",
  a: "",
  b: "",
  c: "",
  subRange: "",
  triplePoint: "",
  deviation: {},
});

/** The thermometers of a description, finished or not. @param first the log's first file, which none has to name */
export const thermometersToDocument = (
  thermometers: readonly Thermometer[],
  first: string | undefined,
): Record<string, unknown> =>
  Object.fromEntries(
    thermometers.map((one) => [
      one.name,
      whole({
        file: one.file === first ? undefined : one.file,
        column: one.column === one.name ? undefined : one.column,
        unit: one.unit,
        ...(one.unit === "Ω" ? conversionOf(one) : {}),
      }) ?? {},
    ]),
  );

function conversionOf({ conversion, r0, a, b, c, subRange, triplePoint, deviation }: Thermometer): Bag {
  if (conversion === "iec") return { nominalResistance: figure(r0) };
  if (conversion === "own")
    return {
      nominalResistance: figure(r0),
      // Their fields are named one by one if the set is not whole.
      coefficients: { ...whole({ A: figure(a), B: figure(b), C: figure(c) }) },
    };
  const names = subRangeNumbered(subRange)?.coefficients ?? [];
  return {
    its90: {
      ...whole({ subRange, triplePointResistance: figure(triplePoint) }),
      coefficients: { ...whole(Object.fromEntries(names.map((name) => [name, figure(deviation[name] ?? "")]))) },
    },
  };
}

/** The thermometers as they stand in a description. */
export const thermometersFrom = (stated: unknown, first: string): Thermometer[] =>
  Object.entries(bag(stated)).map(([name, value]) => {
    const { file, column, unit, nominalResistance, coefficients, its90 } = bag(value);
    const { A, B, C } = bag(coefficients);
    const standard = bag(its90);
    return {
      ...newOne(name, text(file) || first, text(column), text(unit)),
      conversion: its90 === undefined ? (coefficients === undefined ? "iec" : "own") : "its90",
      r0: text(nominalResistance),
      a: text(A),
      b: text(B),
      c: text(C),
      subRange: text(standard["subRange"]),
      triplePoint: text(standard["triplePointResistance"]),
      deviation: Object.fromEntries(
        Object.entries(bag(standard["coefficients"])).map(([letter, figureOf]) => [letter, text(figureOf)]),
      ),
    };
  });
