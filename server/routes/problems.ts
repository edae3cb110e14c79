import type { ProblemKind } from "../../viewer/api/fault.ts";
import { Fault, FAULTS, type FaultCode } from "../errors.ts";
import type { RouteRegistration } from "./route.ts";

/** What a refusal's `type` leads to: the kind of fault. */
export const problems: RouteRegistration = (router) => {
  router.get("/problems/:code", "read", (request, response) => {
    const { code } = request.params;
    if (!Object.hasOwn(FAULTS, code)) throw new Fault("no-such-route", `There is no fault of the code ${code}.`);
    const { status, title } = FAULTS[code as FaultCode];
    response.json({ code, status, title } satisfies ProblemKind);
  });
};
