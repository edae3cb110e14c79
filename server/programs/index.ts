// A model's text → the model as a program, which engine/native runs.
export { moduleScope, type ModuleText } from "./module-scope.ts";
export { functionsOf, programOfModel } from "./program-of-model.ts";
