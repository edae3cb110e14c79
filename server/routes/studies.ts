import { studyCheck, studyCheckRequest, studyList, type StudyCheck, type StudyList } from "../../viewer/api/studies.ts";
import { studyShown } from "../../viewer/api/study-document.ts";
import { requireFewInputs } from "../runs/limits.ts";
import { json } from "../openapi/described.ts";
import { bodyOf } from "./body.ts";
import { leaving } from "./leaving.ts";
import type { RouteRegistration } from "./route.ts";

export const studies: RouteRegistration = (router, { shelf, checker }) => {
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
      description:
        "Everything that can be found without drawing a trial; no problem if it can be run. A check ends after half a minute.",
      body: json(studyCheckRequest),
      answers: { 200: { description: "Every place that cannot be used.", content: json(studyCheck) } },
      faults: ["no-such-model", "busy", "worker-lost"],
    },
    async (request, response) => {
      const { study } = bodyOf(studyCheckRequest, request.body);
      requireFewInputs(study);
      response.json({ problems: await checker.check(study, leaving(response)) } satisfies StudyCheck);
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
