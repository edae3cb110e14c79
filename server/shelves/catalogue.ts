import { models as registered } from "../../models/index.ts";
import type { ListedModel } from "../../viewer/api/models.ts";

export const models = (): ListedModel[] =>
  registered.map((model) => {
    const { id, title, source = null } = model;
    if ("build" in model)
      return {
        id,
        title,
        equation: null,
        source,
        cautions: [],
        family: true,
        parameters: model.parameters,
        ...(model.example === undefined ? {} : { example: model.example }),
      };
    const { equation = null, cautions = [], inputs, optionalInputs, measurands } = model;
    const optional = optionalInputs === undefined ? {} : { optionalInputs };
    return { id, title, equation, source, cautions, family: false, inputs, ...optional, measurands };
  });
