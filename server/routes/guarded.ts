import type { RequestHandler, Router } from "express";
import { requireRole } from "../access/identity.ts";
import type { Routes } from "./route.ts";

/** Routes of a router that ask for their role before anything else of them is done. */
export function guarded(router: Router): Routes {
  const adding =
    (method: keyof Routes): Routes[keyof Routes] =>
    (path, needs, handler) => {
      const guard: RequestHandler = (_request, response, next) => {
        requireRole(response, needs);
        next();
      };
      router[method](path, guard, handler as unknown as RequestHandler);
    };
  return { get: adding("get"), post: adding("post"), put: adding("put"), delete: adding("delete") };
}
