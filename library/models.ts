// The package's door `trialband/models`: the models that a study can name, and what they stand on.

// Every registered model and family, to be found by its id; and those that programs take by name.
export {
  additive,
  bathComparison,
  calibrationPoints,
  endGauge,
  lethalRate,
  massCalibration,
  models,
  probeFit,
  sprtBath,
  sprtFixedPoints,
  twoWirePlant,
  typedEquation,
} from "../models/index.ts";

// The functions of typed equations, whose results are the same bits in every engine: a saved equation calls them.
export { algebra } from "../models/index.ts";

// Platinum resistance thermometers as plain functions: IEC 60751, ITS-90, fits, the measuring chain.
export { platinum } from "../models/index.ts";

// What a bath's fluid and temperature demand of the people beside it.
export { BATH_CAUTIONS, BATH_FLUIDS, bathSafety } from "../models/index.ts";
export type { BathDescription, BathFluid, BathSafety, BathWarning } from "../models/index.ts";
