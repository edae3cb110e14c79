import { ModelError, prepare, studiesOfSweep, type Problem } from "../../engine/index.ts";
import { Fault, reportOf } from "../errors.ts";
import { loadStudyDocument } from "../shelves/study.ts";
import { studyCheck, studyCheckRequest, studyList, type StudyCheck, type StudyList } from "../../viewer/api/studies.ts";
import { studyShown } from "../../viewer/api/study-document.ts";
import { json } from "../openapi/described.ts";
import { bodyOf } from "./body.ts";
import type { RouteRegistration } from "./route.ts";

export const studies: RouteRegistration = (router, { shelf }) => {
  router.get(
    "/studies",
    "read",
    {
      id: "listStudies",
      summary: "The studies that come with Trialband",
      answers: { 200: { description: "Each study, to start from.", content: json(studyList) } },
    },
    async (_request, response) => {
      response.json((await shelf.list()) satisfies StudyList);
    },
  );

  router.post(
    "/studies/check",
    "read",
    {
      id: "checkStudy",
      summary: "What is wrong with a study",
      description: "Everything that can be found without drawing a trial; no problem if it can be run.",
      body: json(studyCheckRequest),
      answers: { 200: { description: "Every place that cannot be used.", content: json(studyCheck) } },
      faults: ["no-such-model"],
    },
    async (request, response) => {
      const { study } = bodyOf(studyCheckRequest, request.body);
      response.json({ problems: await problemsOf(study) } satisfies StudyCheck);
    },
  );

  router.get(
    "/studies/:group/:name",
    "read",
    {
      id: "getStudy",
      summary: "A listed study",
      path: { group: "The first part of its id.", name: "The second part of its id, after the stroke." },
      answers: { 200: { description: "The study, as its file has it.", content: json(studyShown()) } },
      faults: ["no-such-study"],
    },
    async (request, response) => {
      const { group, name } = request.params;
      response.json(await shelf.read(`${group}/${name}`));
    },
  );
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
