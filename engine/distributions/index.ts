import * as z from "zod";
import { arcsine } from "./arcsine.ts";
import { asymmetricRectangular } from "./asymmetric-rectangular.ts";
import { asymmetricTriangular } from "./asymmetric-triangular.ts";
import { beta } from "./beta.ts";
import { constant } from "./constant.ts";
import { curvilinearTrapezoid } from "./curvilinear-trapezoid.ts";
import { discrete } from "./discrete.ts";
import { exponential } from "./exponential.ts";
import { gamma } from "./gamma.ts";
import { logNormal } from "./log-normal.ts";
import { mixtureOf, type NestedStatement } from "./mixture.ts";
import { normal } from "./normal.ts";
import { poisson } from "./poisson.ts";
import { readings } from "./readings.ts";
import { rectangular } from "./rectangular.ts";
import { sample } from "./sample.ts";
import { studentT } from "./student-t.ts";
import { tabulatedDensity } from "./tabulated-density.ts";
import { tabulatedDistribution } from "./tabulated-distribution.ts";
import { trapezoidal } from "./trapezoidal.ts";
import { triangular } from "./triangular.ts";
import { truncatedNormal } from "./truncated-normal.ts";
import { atAnyScale } from "./any-scale.ts";
import type { Immutable } from "../immutable.ts";
import type { DistributionKind, InputKnowledge, StatedQuantity } from "./distribution.ts";
import { declaredUnits, type FieldUnits } from "./field-unit.ts";
import { refuse } from "../errors.ts";
import { inUnitOf } from "./converted.ts";

/** Every way to state an input quantity: one line per kind. */
const kinds = [
  normal,
  rectangular,
  triangular,
  trapezoidal,
  curvilinearTrapezoid,
  arcsine,
  studentT,
  readings,
  exponential,
  gamma,
  beta,
  logNormal,
  truncatedNormal,
  asymmetricTriangular,
  asymmetricRectangular,
  poisson,
  discrete,
  sample,
  tabulatedDensity,
  tabulatedDistribution,
  mixtureOf(nestedSchema, readNested),
  constant,
] as const;

// Named functions with stated types: a statement that contains statements refers to the list in which it is.
function nestedSchema(): z.ZodType<NestedStatement> {
  return statementSchema as unknown as z.ZodType<NestedStatement>;
}
function readNested(nested: NestedStatement, place: string, quantity: StatedQuantity | undefined): InputKnowledge {
  const statement = nested as unknown as Statement;
  // A component has the unit of its mixture, unless it states another that goes with it.
  if (quantity !== undefined) return knowledgeOfInput(quantity, statement, place);
  if (statement.unit !== undefined)
    refuse(`${place}.unit`, statement.unit, "nothing: the unit of its mixture is not known here");
  return readStatement(statement, place);
}

type StatementSchema = (typeof kinds)[number]["statement"];

/** The statement of an input quantity, as a study gives it. */
export const statementSchema = z
  .discriminatedUnion(
    "distribution",
    kinds.map((kind) => kind.statement) as unknown as readonly [StatementSchema, ...StatementSchema[]],
  )
  .meta({ id: "statement" });

/** The form in which a laboratory states its knowledge of an input quantity. */
export type Statement = Immutable<z.output<StatementSchema>>;

export const distributionKinds: ReadonlyMap<string, DistributionKind> = new Map(
  kinds.map((kind) => [kind.kind, kind as unknown as DistributionKind]),
);

const unitsByKind: ReadonlyMap<string, FieldUnits> = new Map(
  kinds.map(({ kind, statement }) => [kind, declaredUnits(statement)]),
);

/** The unit of each figure of a statement, as its kind of distribution declares it; none for an unknown kind. */
export const fieldUnits = ({ distribution }: { readonly distribution?: unknown }): FieldUnits =>
  unitsByKind.get(String(distribution)) ?? {};

/** A statement of a quantity as both methods use it, in the quantity's unit. @throws {InputError} */
export const knowledgeOfInput = (quantity: StatedQuantity, statement: Statement, place: string): InputKnowledge => {
  const read = readStatement(statement, place, { ...quantity, unit: statement.unit ?? quantity.unit });
  return inUnitOf(quantity, statement.unit, read, place);
};

/** A statement as both methods use it, in its own unit. @throws {InputError} */
export const readStatement = (statement: Statement, place: string, quantity?: StatedQuantity): InputKnowledge =>
  atAnyScale(statement, fieldUnits, (scaled) =>
    distributionKinds.get(statement.distribution)!.read(scaled, place, quantity),
  );
