import {
  namingRequest,
  ownStudy,
  ownStudyList,
  type OwnStudy,
  type OwnStudyList,
} from "../../viewer/api/own-studies.ts";
import { identityOf } from "../access/identity.ts";
import { json } from "../openapi/described.ts";
import { bodyOf } from "./body.ts";
import { versionSeen } from "./if-match.ts";
import type { RouteRegistration } from "./route.ts";

/** The laboratory's own studies: what its runs are versions of. */
export const ownStudies: RouteRegistration = (router, { desk }) => {
  router.get(
    "/own-studies",
    "read",
    {
      id: "listOwnStudies",
      summary: "The laboratory's own studies, the one run last first",
      description: "Each study that is not one of those listed under /api/studies and has a run on the list.",
      answers: { 200: { description: "Each study with its name and tags.", content: json(ownStudyList) } },
    },
    (_request, response) => {
      response.json(desk.ownStudies() satisfies OwnStudyList);
    },
  );

  router.put(
    "/own-studies/:id/name",
    "run",
    {
      id: "nameOwnStudy",
      summary: "Name and tag a study of one's own",
      path: { id: "Id of the study." },
      reads: { "If-Match": 'Revision that the writer has seen, such as "3": 412 if it has another by now.' },
      body: json(namingRequest),
      answers: {
        200: {
          description: "The study as the list has it now.",
          content: json(ownStudy),
          headers: { ETag: 'Revision of name and tags, such as "4".' },
        },
      },
      faults: ["no-such-study", "changed-meanwhile", "cannot-keep", "busy"],
    },
    (request, response) => {
      const naming = bodyOf(namingRequest, request.body);
      const seen = versionSeen(request.headers["if-match"]);
      const study = desk.nameOwnStudy(request.params.id, naming, seen, identityOf(response).name);
      response.set("etag", `"${study.revision}"`).json(study satisfies OwnStudy);
    },
  );
};
