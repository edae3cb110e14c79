import type { Session } from "../../viewer/api/access.ts";
import { identityOf } from "../access/identity.ts";
import type { RouteRegistration } from "./route.ts";

/** Who asks, so that the page offers what they may do and nothing else. */
export const session: RouteRegistration = (router) => {
  router.get("/session", "read", (_request, response) => {
    response.set("cache-control", "no-store").json(identityOf(response) satisfies Session);
  });
};
