import { refuse, type ToleranceSpecification } from "../../engine/index.ts";
import { conversionBetween } from "../../engine/internal.ts";
import { resistance, resistanceSlope } from "./iec60751.ts";
import {
  isResistorClass,
  resistorClassNames,
  resistorTolerance,
  tolerance,
  type Element,
  type ResistorClassName,
  type ToleranceClassName,
} from "./tolerance-class.ts";

const CLASSES = `AA, A, B or C of a thermometer, or ${resistorClassNames.join(", ")} of a sensing element`;

/**
 * The tolerance class of an industrial platinum thermometer as a study names it:
 * `{ "specification": "iec60751", "parameters": { "class": "A", "temperature": 72, "element": "wire" } }`.
 *
 * For an error in °C, or another unit of temperature differences, the limits are ±tolerance; for a resistance in Ω or a
 * multiple of it they lie about R(t). Other units are refused.
 */
export const classTolerance: ToleranceSpecification = {
  title: "Tolerance class of IEC 60751",
  parameters: {
    class: CLASSES,
    temperature: "Temperature at which the class is judged, °C",
    element: "wire or film: with it, the temperature must lie in the class's range",
    nominal: "R_0 in Ω, for a resistance; 100 by default",
  },
  limits(parameters, { unit }, place) {
    const known = Object.keys(this.parameters);
    for (const name of Object.keys(parameters)) {
      if (!known.includes(name))
        refuse(`${place}.${name}`, parameters[name], `nothing: the parameters are ${known.join(", ")}`);
    }
    const { class: name, temperature: t, element, nominal = 100 } = parameters;
    if (name !== "AA" && name !== "A" && name !== "B" && name !== "C" && !isResistorClass(name))
      return refuse(`${place}.class`, name, CLASSES);
    if (typeof t !== "number" || !Number.isFinite(t))
      return refuse(`${place}.temperature`, t, "a finite number, in °C");
    if (element !== undefined && element !== "wire" && element !== "film")
      return refuse(`${place}.element`, element, "wire or film");
    if (element !== undefined && isResistorClass(name))
      return refuse(`${place}.element`, element, `nothing: class ${name} names the element`);
    if (typeof nominal !== "number" || !(nominal > 0))
      return refuse(`${place}.nominal`, nominal, "a resistance greater than 0 Ω");
    const ofResistance = conversionBetween("Ω", unit, true);
    const found = ofResistance ?? conversionBetween("°C", unit, true);
    if (found === null)
      return refuse(
        `${place.replace(/\.parameters$/, "")}.specification`,
        `a class of IEC 60751 for a measurand in ${unit}`,
        "a measurand in °C, K or Ω, or in a multiple of them",
      );
    return limitsOf(name, t, element, nominal, ofResistance !== null, found.factor);
  },
};

function limitsOf(
  name: ToleranceClassName | ResistorClassName,
  t: number,
  element: Element | undefined,
  nominal: number,
  inOhms: boolean,
  factor: number,
): ReturnType<ToleranceSpecification["limits"]> {
  const centre = inOhms ? resistance(t, nominal) : 0;
  const inKelvins = isResistorClass(name) ? resistorTolerance(name, t) : tolerance(name, t, element);
  const limit = inOhms ? inKelvins * resistanceSlope(t, nominal) : inKelvins;
  return {
    lower: factor * (centre - limit),
    upper: factor * (centre + limit),
    basis: `IEC 60751:2022, class ${name} at ${String(t).replace("-", "−")} °C${element === undefined ? "" : `, ${element} element`}`,
  };
}
