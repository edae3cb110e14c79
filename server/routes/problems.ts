import { problemKind, type ProblemKind } from "../../viewer/api/fault.ts";
import { Fault, FAULTS, type FaultCode } from "../errors.ts";
import { json } from "../openapi/described.ts";
import type { RouteRegistration } from "./route.ts";

/** What a refusal's `type` leads to: the kind of fault. */
export const problems: RouteRegistration = (router) => {
  router.get(
    "/problems/:code",
    "read",
    {
      id: "getProblem",
      summary: "A kind of fault",
      description: "What the type of a refusal leads to.",
      path: { code: "Code of the fault." },
      answers: { 200: { description: "Its status and title.", content: json(problemKind) } },
      faults: ["no-such-route"],
    },
    (request, response) => {
      const { code } = request.params;
      if (!Object.hasOwn(FAULTS, code)) throw new Fault("no-such-route", `There is no fault of the code ${code}.`);
      const { status, title } = FAULTS[code as FaultCode];
      response.json({ code, status, title } satisfies ProblemKind);
    },
  );
};
