import { refuse } from "../errors.ts";
import type { Quantity } from "../model.ts";
import { conversionBetween, type Conversion } from "../units/unit.ts";
import type { Distribution, InputKnowledge } from "./distribution.ts";

/** What is known of an input in the unit of the model, from a statement in another. */
function converted({ distribution, budget }: InputKnowledge, conversion: Conversion): InputKnowledge {
  const { factor, offset } = conversion;
  return {
    distribution: convertedDistribution(distribution, conversion),
    budget: {
      ...budget,
      estimate: budget.estimate * factor + offset,
      standardUncertainty: budget.standardUncertainty * factor,
    },
  };
}

/** The distribution of factor·X + offset, factor above 0. */
export function convertedDistribution(of: Distribution, { factor, offset }: Conversion): Distribution {
  const back = (y: number): number => (y - offset) / factor;
  const { upperTail, atoms } = of;
  return {
    mean: of.mean === null ? null : of.mean * factor + offset,
    standardDeviation: of.standardDeviation === null ? null : of.standardDeviation * factor,
    support: [of.support[0] * factor + offset, of.support[1] * factor + offset],
    ...(of.discrete === true ? { discrete: true } : {}),
    ...(of.momentsBelow === undefined ? {} : { momentsBelow: of.momentsBelow }),
    ...(of.normal === true ? { normal: true } : {}),
    ...(of.smoothOver === undefined ? {} : { smoothOver: of.smoothOver * factor }),
    ...(atoms === undefined
      ? {}
      : {
          atoms() {
            const { values, probabilities } = atoms();
            return { values: values.map((x) => x * factor + offset), probabilities };
          },
        }),
    density: (y) => (of.discrete === true ? of.density(back(y)) : of.density(back(y)) / factor),
    distributionFunction: (y) => of.distributionFunction(back(y)),
    ...(upperTail === undefined ? {} : { upperTail: (y) => upperTail(back(y)) }),
    quantile: (p) => of.quantile(p) * factor + offset,
    sample(from, out, count) {
      of.sample(from, out, count);
      for (let i = 0; i < count; i++) out[i] = out[i]! * factor + offset;
    },
  };
}

/**
 * What a statement makes known of a quantity, in the quantity's unit.
 *
 * @param unit of the statement; `undefined` where it is the quantity's
 * @throws {InputError} a unit that does not go with the quantity's, or that has another zero where it is not known whether
 *   the quantity is a temperature or a difference; placed at `place.unit`
 */
export function inUnitOf(
  quantity: Pick<Quantity, "unit" | "difference">,
  unit: string | undefined,
  knowledge: InputKnowledge,
  place: string,
): InputKnowledge {
  if (unit === undefined || unit === quantity.unit) return knowledge;
  // Models state for quantities in °C whether they are differences; one in kelvin may be either.
  const conversion = conversionBetween(unit, quantity.unit, quantity.difference === true);
  const known = conversion !== null && (conversion.offset === 0 || quantity.unit === "°C");
  if (!known) return refuse(`${place}.unit`, unit, `a unit in which ${quantity.unit} can be stated, or nothing`);
  return conversion.factor === 1 && conversion.offset === 0 ? knowledge : converted(knowledge, conversion);
}
