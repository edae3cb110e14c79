// Immersion: does the stem conduct heat to or from the element, and is the planned depth enough?
export { immersionSchema } from "./description.ts";
export { depthReadings, evaluateImmersion, immersionStatement } from "./evaluate.ts";
export { fitStemConduction, stemConductionStatement } from "./stem-conduction.ts";
export {
  errorFromTwoWithdrawals,
  errorFromWithdrawal,
  evaluateWithdrawal,
  USUAL_CONDUCTION_LENGTHS,
  USUAL_IMMERSION,
  withdrawalStatement,
} from "./withdrawal.ts";

export type { ImmersionDescription } from "./description.ts";
export type { ImmersionEvaluation } from "./evaluate.ts";
export type { DepthReading, StemConductionFit, StemConductionOptions } from "./stem-conduction.ts";
export type { Withdrawal, WithdrawalEvaluation } from "./withdrawal.ts";
