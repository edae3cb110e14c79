import * as z from "zod";

/** A bath fluid by its generic kind. Temperatures in °C. */
export interface BathFluid {
  readonly kind: string;
  readonly title: string;
  /** Usual range of temperature in an open stirred bath. */
  readonly usable: readonly [number, number];
  /** Whether it can burn. */
  readonly combustible: boolean;
  /**
   * Lowest closed-cup flash point that was found in print, a hint for warnings, never a figure to rely on; `null`: none, or
   * none in print.
   */
  readonly flashPoint: number | null;
  readonly flashPointNote: string;
  /** Expansion of its volume, 1/K, if known. */
  readonly expansion: number | null;
  /** Kinematic viscosity at 25 °C, mm²/s, by which silicone oils are named (common practice); `null`: not by name. */
  readonly viscosity: number | null;
  /** What kind of caution it calls for. */
  readonly hazard: "water" | "alcohol" | "oil" | "salt";
  readonly source: string;
}

const NOT_FOUND = "no figure found in print";
const COMMON = "range common practice";

/**
 * Fluids by generic kind. Flash points vary by tens of degrees with grade and maker, and open-cup figures, which makers
 * like to print, lie above closed-cup ones: these are hints, the fluid's own safety data sheet decides. If no figure
 * was found in print there is none here.
 */
export const BATH_FLUIDS: readonly BathFluid[] = [
  {
    kind: "water",
    title: "water",
    usable: [5, 90],
    combustible: false,
    flashPoint: null,
    flashPointNote: "none",
    expansion: null,
    viscosity: null,
    hazard: "water",
    source: "a bath maker's manual: a few degrees above 0 °C to a few below 100 °C, less stable above 75 °C",
  },
  {
    kind: "water-glycol",
    title: "water and ethylene glycol, 1:1 by volume",
    usable: [-25, 90],
    combustible: false,
    flashPoint: null,
    flashPointNote: "none below the boiling of water; the pure glycol 111 °C closed cup",
    expansion: null,
    viscosity: null,
    hazard: "water",
    source:
      "range within that of a glycol supplier's density table; flash point of the glycol: NTP chemical repository, NIOSH Pocket Guide",
  },
  {
    kind: "ethanol",
    title: "ethanol",
    usable: [-80, 0],
    combustible: true,
    flashPoint: 13,
    flashPointNote: "closed cup",
    expansion: 0.0011,
    viscosity: null,
    hazard: "alcohol",
    source: "flash point: NTP chemical repository, NIOSH Pocket Guide; range common practice",
  },
  {
    kind: "methanol",
    title: "methanol",
    usable: [-80, 0],
    combustible: true,
    flashPoint: 11,
    flashPointNote: "closed cup",
    expansion: null,
    viscosity: null,
    hazard: "alcohol",
    source: "flash point: NAS laboratory chemical safety summary; range common practice",
  },
  silicone(2, [-60, 50], 79, "flash point: ECHA registration dossier of the pure compound; range common practice"),
  silicone(5, [-40, 110], null),
  silicone(10, [-30, 130], null),
  // No thinner oil flashes later: its range ends where that of 50 mm²/s does.
  silicone(20, [10, 170], null),
  silicone(50, [40, 170], 180, "flash point: a silicone vendor's questions and answers; range common practice"),
  silicone(100, [70, 220], 230, "flash point: a silicone vendor's questions and answers; range common practice"),
  {
    kind: "phenylmethyl-silicone-125",
    title: "phenylmethyl silicone oil, 125 mm²/s",
    usable: [80, 280],
    combustible: true,
    flashPoint: null,
    flashPointNote: NOT_FOUND,
    expansion: null,
    viscosity: 125,
    hazard: "oil",
    source: COMMON,
  },
  {
    kind: "mineral-oil",
    title: "white mineral oil",
    usable: [20, 130],
    combustible: true,
    flashPoint: null,
    flashPointNote: NOT_FOUND,
    expansion: null,
    viscosity: null,
    hazard: "oil",
    source: COMMON,
  },
  {
    kind: "salt",
    title: "nitrate and nitrite salt mixture",
    usable: [180, 550],
    combustible: false,
    flashPoint: null,
    flashPointNote: "none; a strong oxidiser",
    expansion: null,
    viscosity: null,
    hazard: "salt",
    source: COMMON,
  },
];

function silicone(
  viscosity: number,
  usable: readonly [number, number],
  flashPoint: number | null,
  source = COMMON,
): BathFluid {
  return {
    kind: `silicone-${viscosity}`,
    title: `dimethyl silicone oil, ${viscosity} mm²/s`,
    usable,
    flashPoint,
    combustible: true,
    flashPointNote: flashPoint === null ? NOT_FOUND : "the lowest in print",
    // Density polynomials of two oils give 0.00099 and 0.00120 at 20 °C (Melinder, 2010): the greater leaves more room.
    expansion: 0.0012,
    viscosity,
    hazard: "oil",
    source,
  };
}

export const fluidOf = (kind: string): BathFluid | undefined => BATH_FLUIDS.find((fluid) => fluid.kind === kind);

/** What a laboratory states about the bath itself. Temperatures in °C. */
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
    .describe("Range by the fluid's data sheet, °C, if it differs from the usual one"),
  viscosity: z
    .number()
    .gt(0)
    .optional()
    .describe("Kinematic viscosity at the coldest set temperature by the fluid's data sheet, mm²/s"),
  flashPointMargin: z
    .number()
    .gt(0)
    .default(10)
    .describe("Least distance from cut-out to flash point, K (10–25 K is common practice)"),
});

/**
 * What a laboratory states of a bath, checked and with its defaults: fluid, temperatures, flash point and cut-outs, °C;
 * the margin to the flash point, K. `bathSafety` judges it.
 */
export type BathDescription = z.output<typeof bathSchema>;
