import { z } from "zod";
import type { Quantity } from "../../engine/index.ts";

/** A registered model as a list shows it. The inputs of a family are known only once a study states its parameters. */
export interface ListedModel {
  readonly id: string;
  readonly title: string;
  readonly equation: string | null;
  readonly source: string | null;
  readonly cautions: readonly string[];
  readonly family: boolean;
  /** One sentence a parameter. */
  readonly parameters?: Readonly<Record<string, string>>;
  readonly inputs?: Readonly<Record<string, Quantity>>;
  readonly optionalInputs?: Readonly<Record<string, Quantity>>;
  readonly measurands?: Readonly<Record<string, Quantity>>;
}

/** `GET /api/models` */
export type ModelList = readonly ListedModel[];

/** `POST /api/models/:id` */
export const modelRequest = z.object(
  { parameters: z.record(z.string(), z.unknown(), "an object with a field for each parameter").default({}) },
  "a JSON object with parameters",
);
export type ModelRequest = z.input<typeof modelRequest>;

/** What a model asks for and gives, once its parameters are known. */
export interface ModelDescription {
  readonly id: string;
  readonly equation: string | null;
  readonly cautions: readonly string[];
  readonly inputs: Readonly<Record<string, Quantity>>;
  readonly optionalInputs: Readonly<Record<string, Quantity>>;
  readonly measurands: Readonly<Record<string, Quantity>>;
}
