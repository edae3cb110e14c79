import type { Quantity } from "../../engine/index.ts";
import { models as registered } from "../../models/index.ts";

/** A registered model as a list shows it. A family's inputs are only known once a study states its parameters. */
export interface Catalogued {
  readonly id: string;
  readonly title: string;
  readonly equation: string | null;
  readonly source: string | null;
  readonly cautions: readonly string[];
  readonly family: boolean;
  readonly parameters?: Readonly<Record<string, string>>;
  readonly inputs?: Readonly<Record<string, Quantity>>;
  readonly optionalInputs?: Readonly<Record<string, Quantity>>;
  readonly measurands?: Readonly<Record<string, Quantity>>;
}

export const models = (): Catalogued[] =>
  registered.map((model) => {
    const { id, title, source = null } = model;
    if ("build" in model)
      return { id, title, equation: null, source, cautions: [], family: true, parameters: model.parameters };
    const { equation = null, cautions = [], inputs, optionalInputs, measurands } = model;
    const optional = optionalInputs === undefined ? {} : { optionalInputs };
    return { id, title, equation, source, cautions, family: false, inputs, ...optional, measurands };
  });
