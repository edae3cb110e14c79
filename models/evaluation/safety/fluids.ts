import * as z from "zod";

/** A bath fluid by its generic kind. Temperatures in °C. */
export interface BathFluid {
  readonly kind: string;
  readonly title: string;
  /** Where it is usually used in an open stirred bath. */
  readonly usable: readonly [number, number];
  /** Usual flash point, as a hint where the laboratory gives none; `null`: none. The least of a range of grades. */
  readonly flashPoint: number | null;
  readonly flashPointNote: string;
  /** Expansion of its volume, 1/K, where known. */
  readonly expansion: number | null;
  /** What kind of caution it calls for. */
  readonly hazard: "water" | "alcohol" | "oil" | "salt";
  readonly source: string;
}

const COMMON = "common practice, no source";

/**
 * Fluids by generic kind. Flash points vary by tens of degrees with grade and maker: these are hints, the fluid's
 * safety data sheet decides.
 */
export const BATH_FLUIDS: readonly BathFluid[] = [
  {
    kind: "water",
    title: "water",
    usable: [5, 90],
    flashPoint: null,
    flashPointNote: "none",
    expansion: null,
    hazard: "water",
    source: "from memory",
  },
  {
    kind: "water-glycol",
    title: "water and ethylene glycol, 1:1 by volume",
    usable: [-25, 90],
    flashPoint: null,
    flashPointNote: "none below the boiling of water; the pure glycol 111 °C closed cup",
    expansion: null,
    hazard: "water",
    source: "range from memory; flash point of the glycol: NTP chemical repository, NIOSH Pocket Guide",
  },
  {
    kind: "ethanol",
    title: "ethanol",
    usable: [-80, 0],
    flashPoint: 13,
    flashPointNote: "closed cup",
    expansion: 0.0011,
    hazard: "alcohol",
    source: "flash point: NTP chemical repository, NIOSH Pocket Guide; range common practice",
  },
  {
    kind: "methanol",
    title: "methanol",
    usable: [-80, 0],
    flashPoint: 11,
    flashPointNote: "closed cup",
    expansion: null,
    hazard: "alcohol",
    source: "flash point: NAS laboratory chemical safety summary; range common practice",
  },
  silicone(2, [-60, 50], 79, "79 °C", "flash point: ECHA registration dossier; range common practice"),
  silicone(5, [-40, 110], 120, "120–140 °C"),
  silicone(10, [-30, 130], 155, "155–165 °C closed cup"),
  silicone(20, [10, 180], 220, "220–240 °C"),
  silicone(50, [40, 220], 270, "270–290 °C open cup"),
  silicone(100, [70, 250], 300, "above 300 °C open cup"),
  {
    kind: "phenylmethyl-silicone-125",
    title: "phenylmethyl silicone oil, 125 mm²/s",
    usable: [80, 280],
    flashPoint: 300,
    flashPointNote: "about 300 °C open cup",
    expansion: null,
    hazard: "oil",
    source: COMMON,
  },
  {
    kind: "mineral-oil",
    title: "white mineral oil",
    usable: [20, 130],
    flashPoint: 150,
    flashPointNote: "150–200 °C",
    expansion: null,
    hazard: "oil",
    source: COMMON,
  },
  {
    kind: "salt",
    title: "nitrate and nitrite salt mixture",
    usable: [180, 550],
    flashPoint: null,
    flashPointNote: "none; a strong oxidiser",
    expansion: null,
    hazard: "salt",
    source: COMMON,
  },
];

function silicone(
  viscosity: number,
  usable: readonly [number, number],
  flashPoint: number,
  note: string,
  source = COMMON,
): BathFluid {
  return {
    kind: `silicone-${viscosity}`,
    title: `dimethyl silicone oil, ${viscosity} mm²/s`,
    usable,
    flashPoint,
    flashPointNote: note,
    expansion: 0.00105,
    hazard: "oil",
    source,
  };
}

export const fluidOf = (kind: string): BathFluid | undefined => BATH_FLUIDS.find((fluid) => fluid.kind === kind);

/** What a laboratory says of the bath itself. Temperatures in °C. */
export const bathSchema = z.strictObject({
  name: z.string().optional(),
  fluid: z
    .enum(BATH_FLUIDS.map(({ kind }) => kind) as [string, ...string[]])
    .optional()
    .describe("Generic kind of the fluid"),
  setTemperature: z.number().describe("Set temperature, °C"),
  lowestTemperature: z
    .number()
    .optional()
    .describe("Lowest temperature the bath reaches between runs, °C; default: the set temperature or 20 °C"),
  flashPoint: z.number().optional().describe("Closed-cup flash point by the fluid's safety data sheet, °C"),
  overTemperatureCutOut: z.number().optional().describe("Setting of the independent over-temperature cut-out, °C"),
  underTemperatureCutOut: z.number().optional().describe("Setting of the under-temperature cut-out, °C"),
  usableRange: z
    .tuple([z.number(), z.number()])
    .optional()
    .describe("Range by the fluid's data sheet, °C, where it differs from the usual one"),
  flashPointMargin: z
    .number()
    .gt(0)
    .default(10)
    .describe("Least distance from cut-out to flash point, K (10–25 K is common practice)"),
});

export type BathDescription = z.output<typeof bathSchema>;
