// A route states the role that it needs, or does not compile. Checked by `npm run types`; nothing here runs.
import type { Routes } from "../../server/routes/route.ts";

declare const routes: Routes;

routes.get("/things/:id", "read", (request, response) => void response.json(request.params.id));
// @ts-expect-error no role is stated
routes.get("/things", (_request, response) => void response.json([]));
// @ts-expect-error no such role
routes.delete("/things", "anyone", (_request, response) => void response.json([]));
// @ts-expect-error the path has no such parameter
routes.get("/things/:id", "read", (request, response) => void response.json(request.params.name));
