import { ModelError, prepare, studiesOfSweep, type Problem } from "../../engine/index.ts";
import { Fault, reportOf } from "../errors.ts";
import { loadStudyDocument } from "../shelves/study.ts";
import { studyCheckRequest, type StudyCheck, type StudyList } from "../../viewer/api/studies.ts";
import { bodyOf } from "./body.ts";
import type { RouteRegistration } from "./route.ts";

export const studies: RouteRegistration = (router, { shelf }) => {
  router.get("/studies", "read", async (_request, response) => {
    response.json((await shelf.list()) satisfies StudyList);
  });

  /** Everything that can be found wrong with a study without drawing a trial; none if it can be run. */
  router.post("/studies/check", "read", async (request, response) => {
    const { study } = bodyOf(studyCheckRequest, request.body);
    response.json({ problems: await problemsOf(study) } satisfies StudyCheck);
  });

  router.get("/studies/*id", "read", async (request, response) => {
    const { id } = request.params as unknown as { id: string[] };
    response.json(await shelf.read(id.join("/")));
  });
};

async function problemsOf(document: unknown): Promise<readonly Problem[]> {
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
