import { ModelError, prepare, type Problem } from "../../engine/index.ts";
import { studiesOfSweep } from "../../engine/internal.ts";
import { Fault, reportOf } from "../errors.ts";
import { loadStudyDocument } from "../shelves/study.ts";

/**
 * Everything that can be found wrong with a study without drawing a trial; none if it can be run.
 *
 * @throws {Fault} what is wrong, if it is the fault of no field
 */
export async function problemsOf(document: unknown): Promise<readonly Problem[]> {
  try {
    const { study, model } = await loadStudyDocument(document, null);
    prepare(model, study);
    for (const point of studiesOfSweep(study)) prepare(model, point);
    return [];
  } catch (error) {
    // A model that is not finite at the estimates is the fault of no single field.
    if (error instanceof ModelError)
      return [{ place: "inputs", value: error.message, accepted: "estimates at which the model has a finite value" }];
    const { code, message, problems } = reportOf(error);
    if (problems.length === 0) throw new Fault(code, message);
    return problems;
  }
}
