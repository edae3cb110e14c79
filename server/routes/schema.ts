import { schemaText } from "../record/json-schema.ts";
import type { RouteRegistration } from "./route.ts";

/** What a study may hold, for a form or an editor that checks as one types. */
export const schema: RouteRegistration = (router) => {
  let text: string | undefined;
  router.get("/schema/study", "read", (_request, response) => {
    response.type("json").send((text ??= schemaText()));
  });
};
