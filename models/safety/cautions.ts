import { type Safety } from "../../engine/index.ts";
import { readBySchema } from "../../engine/internal.ts";
import { BATH_FLUIDS, bathSchema, fluidOf, type BathDescription, type BathFluid } from "./fluids.ts";

/**
 * The usual cautions for work at a stirred bath (common practice). They remind; they do not replace the fluid's safety
 * data sheet, local codes or a qualified person.
 */
export const BATH_CAUTIONS: readonly string[] = [
  "Hot fluid burns: wear face and hand protection, lower probes slowly, and let a hot bath cool before moving or draining it.",
  "Keep the set temperature well below the flash point of the fluid, and set an independent over-temperature cut-out between the two.",
  "Heated oil and any alcohol give off fumes: work under extraction, away from flames.",
  "Fluid expands when heated: fill it cold and leave room for the hot level. Never let water reach oil above 90 °C, where it boils violently.",
  "A cold bath frosts bare skin and gathers condensation: wear gloves, purge or cover the bath, and dry probes before they go into a hot one.",
  "The safety data sheet of the fluid, local codes and qualified persons decide; this list does not replace them.",
];

/** Below this a bath counts as cold, °C: fluids thicken or freeze and water condenses. */
const COLD = 0;
/** From here up a fluid counts as hot oil: water in it flashes to steam, °C (common practice). */
const WATER_BOILS_IN_OIL = 90;

/** Something in a bath's description that may hurt people or that contradicts the fluid's own figures. */
export interface BathWarning {
  /** The field of the bath description it is about. */
  readonly place: string;
  readonly warning: string;
  /** Why, and where the rule comes from. */
  readonly because: string;
}

/**
 * A bath's description judged: its fluid (`null` if it is not named), warnings, what could not be judged, and the
 * cautions for the people beside it. Advice, not permission: no warning does not mean safe.
 */
export interface BathSafety {
  readonly fluid: BathFluid | null;
  /** What seems wrong in what was stated. */
  readonly warnings: readonly BathWarning[];
  /** What could not be judged, because it was not stated. */
  readonly unknown: readonly string[];
  /** Always shown. */
  readonly cautions: readonly string[];
}

/**
 * Compares what is stated of a bath with the usual rules. Advice, not permission: no warning does not mean safe.
 */
export function bathSafety(bath: BathDescription): BathSafety {
  const fluid = bath.fluid === undefined ? null : (fluidOf(bath.fluid) ?? null);
  const unknown: string[] = [];
  if (fluid === null) unknown.push(`the fluid is not named (one of ${BATH_FLUIDS.map(({ kind }) => kind).join(", ")})`);
  return {
    fluid,
    warnings: [
      ...rangeWarnings(bath, fluid, unknown),
      ...flashWarnings(bath, fluid, unknown),
      ...coldWarnings(bath, fluid),
      ...thicknessWarnings(bath),
    ],
    unknown,
    cautions: [...BATH_CAUTIONS.slice(0, -1), ...fluidCautions(bath, fluid), BATH_CAUTIONS.at(-1)!],
  };
}

/**
 * What a study states under `bath`, judged: the `safety` of a bath model.
 *
 * @param at place of the description within the study
 * @throws {InputError} fields that cannot be used, at `bath.…`
 */
export function judgeBath(stated: Readonly<Record<string, unknown>>, at = "bath"): Safety {
  const { warnings, unknown, cautions } = bathSafety(readBySchema(bathSchema, stated, at));
  return {
    warnings: warnings.map(({ warning, because }) => `${warning}; ${because}.`),
    cautions: [...(unknown.length === 0 ? [] : [`Not judged: ${unknown.join("; ")}.`]), ...cautions],
  };
}

function rangeWarnings(bath: BathDescription, fluid: BathFluid | null, unknown: string[]): BathWarning[] {
  const range = bath.usableRange ?? fluid?.usable;
  if (range === undefined) {
    unknown.push("the usable range of the fluid is not known");
    return [];
  }
  const [low, high] = range;
  if (bath.setTemperature >= low && bath.setTemperature <= high) return [];
  return [
    {
      place: "bath.setTemperature",
      warning: `${celsius(bath.setTemperature)} is outside the usable range of the fluid, ${celsius(low)} to ${celsius(high)}`,
      because:
        bath.usableRange === undefined
          ? `usual range of ${fluid!.title} in an open stirred bath (${fluid!.source}); its data sheets decide`
          : "range stated from the fluid's data sheet",
    },
  ];
}

/** Above this, mm²/s, a bath is stirred badly. */
const THICK = 50;

function thicknessWarnings({ viscosity }: BathDescription): BathWarning[] {
  if (viscosity === undefined || viscosity <= THICK) return [];
  return [
    {
      place: "bath.viscosity",
      warning: `a fluid of ${viscosity} mm²/s is too thick to be stirred well`,
      because: `below ${THICK} mm²/s at the working temperature, best 10 mm²/s or less (a bath maker's manual)`,
    },
  ];
}

function flashWarnings(bath: BathDescription, fluid: BathFluid | null, unknown: string[]): BathWarning[] {
  const { setTemperature, overTemperatureCutOut: cutOut, flashPointMargin: margin } = bath;
  const warnings: BathWarning[] = [];
  const place = "bath.overTemperatureCutOut";
  const flash = bath.flashPoint ?? fluid?.flashPoint ?? null;
  const origin = bath.flashPoint === undefined ? "a hint, not that of your fluid" : "stated from the safety data sheet";
  const burns = fluid?.combustible ?? flash !== null;
  if (fluid === null && flash === null) unknown.push("the flash point is not stated");
  if (burns && bath.flashPoint === undefined) {
    warnings.push({
      place: "bath.flashPoint",
      warning: `the flash point of the fluid is not stated: state the closed-cup one of its own safety data sheet before you judge ${celsius(setTemperature)} by it`,
      because:
        flash === null
          ? `no figure for ${fluid!.title} is available, so that nothing was judged by it`
          : `${celsius(flash)} is the lowest in print for ${fluid!.title} (${fluid!.flashPointNote}); yours may lie lower`,
    });
  }
  if (burns) {
    if (flash !== null && setTemperature > flash - margin) {
      warnings.push({
        place: "bath.setTemperature",
        warning: `${celsius(setTemperature)} is not ${margin} K below the flash point ${celsius(flash)} (${origin})`,
        because: "set point 10 K to 25 K below the closed-cup flash point (common practice)",
      });
    }
    if (cutOut === undefined) {
      warnings.push({
        place,
        warning: "no over-temperature cut-out is stated for a fluid that can burn",
        because:
          "an independent cut-out protects the flash point (requirements: IEC 61010-2-010; classes of baths: DIN 12876-1)",
      });
    } else if (flash !== null && cutOut > flash - margin) {
      warnings.push({
        place,
        warning: `the cut-out at ${celsius(cutOut)} is not ${margin} K below the flash point ${celsius(flash)} (${origin})`,
        because: "the cut-out must act before the fluid can ignite (common practice)",
      });
    }
  } else if (cutOut === undefined) {
    unknown.push("the setting of the over-temperature cut-out is not stated");
  }
  if (cutOut !== undefined && cutOut <= setTemperature) {
    warnings.push({
      place,
      warning: `the cut-out at ${celsius(cutOut)} is not above the set temperature ${celsius(setTemperature)}`,
      because: "it would trip in normal work",
    });
  }
  return warnings;
}

function coldWarnings(bath: BathDescription, fluid: BathFluid | null): BathWarning[] {
  const { setTemperature, underTemperatureCutOut: cutOut } = bath;
  const place = "bath.underTemperatureCutOut";
  // Water freezes in the coils before the bath counts as cold by any other measure.
  const cold = setTemperature < COLD || (fluid?.hazard === "water" && setTemperature < fluid.usable[0]);
  if (cutOut === undefined) {
    if (!cold) return [];
    return [
      {
        place,
        warning: `no under-temperature cut-out is stated for a bath at ${celsius(setTemperature)}`,
        because: "a runaway cooler thickens or freezes the fluid and stops the stirrer (common practice)",
      },
    ];
  }
  if (cutOut < setTemperature) return [];
  return [
    {
      place,
      warning: `the under-temperature cut-out at ${celsius(cutOut)} is not below the set temperature ${celsius(setTemperature)}`,
      because: "it would trip in normal work",
    },
  ];
}

/** What the kind of fluid and the temperature add to the usual list. */
function fluidCautions(bath: BathDescription, fluid: BathFluid | null): string[] {
  const { setTemperature } = bath;
  const cautions: string[] = [];
  if (fluid?.expansion != null) {
    const filled = bath.lowestTemperature ?? Math.min(20, setTemperature);
    const percent = 100 * fluid.expansion * Math.max(setTemperature, 20) - 100 * fluid.expansion * filled;
    if (percent > 0) {
      cautions.push(
        `${fluid.title} gains about ${percent.toFixed(1)} % in volume from ${celsius(filled)} to ${celsius(Math.max(setTemperature, 20))}: ` +
          "keep the warm level 10 mm to 20 mm below the rim.",
      );
    }
  }
  if (fluid?.hazard === "oil" && setTemperature > WATER_BOILS_IN_OIL) {
    cautions.push(
      "Water in hot oil: 1 g makes about 1.7 L of steam. No wet probes, no ice; heat oil that has taken up water slowly through 100 °C to 120 °C.",
    );
  }
  if (fluid?.hazard === "oil" && setTemperature > 120) {
    cautions.push(
      "Hot silicone oil oxidises in air, gives off formaldehyde and thickens: extract the fumes, replace oil that gels.",
    );
  }
  if (fluid?.hazard === "alcohol") {
    cautions.push(
      "Alcohol vapour ignites at room temperature: no flames, sparks or ignition sources at the bath, also while it warms up.",
    );
  }
  if (fluid?.hazard === "salt") {
    cautions.push("Molten salt is a strong oxidiser: keep organic matter, oil and water away from it.");
  }
  if (setTemperature < COLD) {
    cautions.push(
      "Water condenses into a cold bath and freezes on its coils: cover and purge it, and dry the fluid before it goes above 0 °C.",
    );
  }
  return cautions;
}

const celsius = (value: number): string => `${String(value).replace("-", "−")} °C`;
