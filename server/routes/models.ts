import type { Model } from "../../engine/index.ts";
import { models as catalogued } from "../shelves/catalogue.ts";
import { loadModel } from "../shelves/model.ts";
import { modelRequest, type ModelDescription, type ModelList } from "../../viewer/api/models.ts";
import { bodyOf } from "./body.ts";
import type { RouteRegistration } from "./route.ts";

export const models: RouteRegistration = (router) => {
  router.get("/models", "read", (_request, response) => {
    response.json(catalogued() satisfies ModelList);
  });

  /** A family's model for given parameters; any model's own declaration for none. */
  router.post("/models/:id", "read", async (request, response) => {
    const { parameters } = bodyOf(modelRequest, request.body);
    const model = await loadModel({
      kind: "registered",
      id: request.params.id,
      parameters,
    });
    response.json(describe(model) satisfies ModelDescription);
  });
};

function describe(model: Model): ModelDescription {
  const { id, equation = null, cautions = [], inputs, optionalInputs = {}, measurands } = model;
  return { id, equation, cautions, inputs, optionalInputs, measurands };
}
