import type { RouteRegistration } from "./route.ts";

export const studies: RouteRegistration = (router, { shelf }) => {
  router.get("/studies", async (_request, response) => {
    response.json(await shelf.list());
  });
  router.get("/studies/*id", async (request, response) => {
    const { id } = request.params as unknown as { id: string[] };
    response.json(await shelf.read(id.join("/")));
  });
};
