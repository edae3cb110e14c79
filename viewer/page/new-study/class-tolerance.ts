import { textOf } from "./row.ts";

type Fields = Readonly<Record<string, unknown>>;

/** The specification by which a study names a class of IEC 60751. */
const IEC_60751 = "iec60751";

/** What a study states of a class of IEC 60751, as typed. */
export interface ClassParameters {
  readonly class: string;
  readonly temperature: string;
  readonly element: string;
  /** R₀ in Ω; of a resistance alone. */
  readonly nominal: string;
}

export const isClass = (specification: Fields): boolean => specification["specification"] === IEC_60751;

export function classParameters({ parameters }: Fields): ClassParameters {
  const stated = (typeof parameters === "object" && parameters !== null ? parameters : {}) as Fields;
  const text = (name: string): string => textOf(stated[name]);
  return {
    class: text("class"),
    temperature: text("temperature"),
    element: text("element"),
    nominal: text("nominal"),
  };
}

/** A tolerance by class. What is left empty is left out of the study. */
export const classSpecification = (parameters: ClassParameters): Fields => ({
  specification: IEC_60751,
  parameters,
});

/** Whether a result may have a class for its tolerance: a temperature, a difference of temperatures or a resistance. */
export const takesClass = (unit: string): boolean => /^(°C|K|mK|Ω|mΩ)$/.test(unit.trim());
