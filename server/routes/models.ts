import type { Model, Quantity } from "../../engine/index.ts";
import { models as catalogued } from "../shelves/catalogue.ts";
import { loadModel } from "../shelves/model.ts";
import { objectOf } from "./body.ts";
import type { RouteRegistration } from "./route.ts";

/** What a model asks for and gives, once it is known in full. */
interface Description {
  readonly id: string;
  readonly equation: string | null;
  readonly cautions: readonly string[];
  readonly inputs: Readonly<Record<string, Quantity>>;
  readonly optionalInputs: Readonly<Record<string, Quantity>>;
  readonly measurands: Readonly<Record<string, Quantity>>;
}

export const models: RouteRegistration = (router) => {
  router.get("/models", (_request, response) => {
    response.json(catalogued());
  });

  /** A family's model for given parameters; any model's own declaration for none. */
  router.post("/models/:id", async (request, response) => {
    const { parameters = {} } = objectOf(request.body, "a JSON object with parameters");
    const model = await loadModel({
      kind: "registered",
      id: request.params.id,
      parameters: objectOf(parameters, "an object with a field for each parameter", "parameters"),
    });
    response.json(describe(model));
  });
};

function describe(model: Model): Description {
  const { id, equation = null, cautions = [], inputs, optionalInputs = {}, measurands } = model;
  return { id, equation, cautions, inputs, optionalInputs, measurands };
}
