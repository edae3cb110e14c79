import type { Request } from "express";
import { session as answer, type Session } from "../../viewer/api/access.ts";
import { identityOf } from "../access/identity.ts";
import { json } from "../openapi/described.ts";
import type { RouteRegistration } from "./route.ts";

/** Who asks, so that the page offers what they may do and nothing else. */
export const session: RouteRegistration = (router, { signOut }) => {
  router.get(
    "/session",
    "read",
    {
      id: "getSession",
      summary: "Who asks, and what they may do",
      answers: { 200: { description: "Name, role and by what the server knows them.", content: json(answer) } },
    },
    (_request, response) => {
      response.set("cache-control", "no-store").json(identityOf(response) satisfies Session);
    },
  );

  router.delete(
    "/session",
    "read",
    {
      id: "signOut",
      summary: "Sign out",
      description: "Ends the session whose cookie is sent, and the streams that it reads. A token stays as it is.",
      answers: { 204: { description: "The session has ended." } },
    },
    (request, response) => {
      signOut(request as Request, response);
      response.status(204).end();
    },
  );
};
