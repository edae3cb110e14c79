import type { Model } from "../../engine/index.ts";
import { models as catalogued } from "../shelves/catalogue.ts";
import { loadModel } from "../shelves/model.ts";
import {
  modelDescription,
  modelList,
  modelRequest,
  type ModelDescription,
  type ModelList,
} from "../../viewer/api/models.ts";
import { json } from "../openapi/described.ts";
import { bodyOf } from "./body.ts";
import { requireFewInputs } from "../runs/limits.ts";
import type { RouteRegistration } from "./route.ts";

export const models: RouteRegistration = (router) => {
  router.get(
    "/models",
    "read",
    {
      id: "listModels",
      summary: "The registered models",
      answers: {
        200: { description: "Each model, with its inputs unless they depend on parameters.", content: json(modelList) },
      },
    },
    (_request, response) => {
      response.json(catalogued() satisfies ModelList);
    },
  );

  router.post(
    "/models/:id",
    "read",
    {
      id: "describeModel",
      summary: "What a model asks for and gives",
      description: "A family's model for given parameters; any model's own declaration for none.",
      path: { id: "Id of a registered model." },
      body: json(modelRequest),
      answers: { 200: { description: "Its inputs and measurands.", content: json(modelDescription) } },
      faults: ["no-such-model"],
    },
    async (request, response) => {
      const { parameters } = bodyOf(modelRequest, request.body);
      requireFewInputs({ parameters });
      const model = await loadModel({
        kind: "registered",
        id: request.params.id,
        parameters,
      });
      response.json(describe(model) satisfies ModelDescription);
    },
  );
};

function describe(model: Model): ModelDescription {
  const { id, equation = null, cautions = [], inputs, optionalInputs = {}, measurands } = model;
  return { id, equation, cautions, inputs, optionalInputs, measurands, calibrationCurve: curveOf(model) };
}

function curveOf({ calibrationCurve: curve }: Model): ModelDescription["calibrationCurve"] {
  if (curve === undefined) return null;
  const { symbol, unit, from, to } = curve.argument;
  return { argument: { symbol, unit, from, to }, value: { symbol: curve.value.symbol, unit: curve.value.unit } };
}
