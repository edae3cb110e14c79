import { laboratory as answer, laboratoryDefaults, type Laboratory } from "../../viewer/api/laboratory.ts";
import { identityOf } from "../access/identity.ts";
import { json } from "../openapi/described.ts";
import { bodyOf } from "./body.ts";
import { versionSeen } from "./if-match.ts";
import type { RouteRegistration } from "./route.ts";

/** What every study of the laboratory begins with, the same in each of its browsers. */
export const laboratory: RouteRegistration = (router, { desk }) => {
  router.get(
    "/laboratory",
    "read",
    {
      id: "getLaboratory",
      summary: "What the laboratory's studies begin with",
      answers: { 200: { description: "Its defaults.", content: json(answer) } },
    },
    (_request, response) => {
      response.json(desk.laboratory() satisfies Laboratory);
    },
  );

  router.put(
    "/laboratory",
    "run",
    {
      id: "setLaboratory",
      summary: "State what the laboratory's studies begin with",
      reads: { "If-Match": 'Version that the writer has seen, such as "3": 412 if it has another by now.' },
      body: json(laboratoryDefaults),
      answers: {
        200: {
          description: "Its defaults from now on.",
          content: json(answer),
          headers: { ETag: 'Version of the defaults, such as "4".' },
        },
      },
      faults: ["changed-meanwhile", "cannot-keep", "busy"],
    },
    (request, response) => {
      const defaults = bodyOf(laboratoryDefaults, request.body);
      const seen = versionSeen(request.headers["if-match"]);
      const now = desk.setLaboratory(defaults, seen, identityOf(response).name);
      response.set("etag", `"${now.version}"`).json(now satisfies Laboratory);
    },
  );
};
