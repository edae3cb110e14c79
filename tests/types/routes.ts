// A route states the role that it needs, or does not compile. Checked by `npm run types`; nothing here runs.
import type { Described } from "../../server/openapi/described.ts";
import type { Routes } from "../../server/routes/route.ts";

declare const routes: Routes;
declare const described: Described<"/things/:id">;

routes.get("/things/:id", "read", described, (request, response) => void response.json(request.params.id));
// @ts-expect-error no role is stated
routes.get("/things/:id", described, (_request, response) => void response.json([]));
// @ts-expect-error no such role
routes.delete("/things/:id", "anyone", described, (_request, response) => void response.json([]));
// @ts-expect-error the path has no such parameter
routes.get("/things/:id", "read", described, (request, response) => void response.json(request.params.name));
// @ts-expect-error the document says nothing of it
routes.get("/things/:id", "read", (_request, response) => void response.json([]));
// @ts-expect-error the document describes a parameter that the path does not have
routes.get("/things/:id", "read", { ...described, path: { name: "Its name." } }, (_request, response) => {
  response.json([]);
});
