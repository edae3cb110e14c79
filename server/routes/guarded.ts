import type { RequestHandler, Router } from "express";
import { requireRole } from "../access/identity.ts";
import type { Operation } from "../openapi/described.ts";
import type { Routes } from "./route.ts";

/**
 * Routes of a router that ask for their role before anything else of them is done.
 *
 * @param under path that the router is mounted at
 * @param added is given each route, for the interface's document
 */
export function guarded(router: Router, under: string, added: (operation: Operation) => void): Routes {
  return collected(under, (operation, path, handler) => {
    const { method, needs } = operation;
    const guard: RequestHandler = (_request, response, next) => {
      requireRole(response, needs);
      next();
    };
    router[method](path, guard, handler);
    added(operation);
  });
}

/** Gives each route that is added, as an operation, with its path below `under` and its handler. */
export function collected(
  under: string,
  add: (operation: Operation, path: string, handler: RequestHandler) => void,
): Routes {
  const adding =
    (method: Operation["method"]): Routes[Operation["method"]] =>
    (path, needs, described, handler) =>
      add(
        { method, path: path === "/" ? under : under + path, needs, described },
        path,
        handler as unknown as RequestHandler,
      );
  return { get: adding("get"), post: adding("post"), put: adding("put"), delete: adding("delete") };
}
