import { models as catalogued } from "../catalogue.ts";
import type { RouteRegistration } from "./route.ts";

export const models: RouteRegistration = (router) => {
  router.get("/models", (_request, response) => {
    response.json(catalogued());
  });
};
