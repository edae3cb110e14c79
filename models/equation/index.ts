// Equations that people type: read, checked, evaluated, and written as models.
export { algebra, equationFunctions, type EquationFunction } from "./functions.ts";
export {
  checkEquation,
  isScripted,
  typedEquation,
  type CheckedEquation,
  type ScriptedModel,
} from "./equation-model.ts";
export { loadEquationReader } from "./grammar.ts";
export type { AlgebraPrograms } from "./program.ts";
export { readTypedEquation, typedEquationOf, type EquationReading, type ReadEquation } from "./reading.ts";
export type { Equation, EquationProblem, Expression, Place } from "./tree.ts";
