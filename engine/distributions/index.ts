import * as z from "zod";
import { arcsine } from "./arcsine.ts";
import { constant } from "./constant.ts";
import { normal } from "./normal.ts";
import { readings } from "./readings.ts";
import { rectangular } from "./rectangular.ts";
import { studentT } from "./student-t.ts";
import { trapezoidal } from "./trapezoidal.ts";
import { triangular } from "./triangular.ts";
import type { DistributionKind, InputKnowledge } from "./distribution.ts";

/** Every way to state an input quantity: one line a kind. */
const kinds = [normal, rectangular, triangular, trapezoidal, arcsine, studentT, readings, constant] as const;

type StatementSchema = (typeof kinds)[number]["statement"];

/** The statement of an input quantity, as a study gives it. */
export const statementSchema = z.discriminatedUnion(
  "distribution",
  kinds.map((kind) => kind.statement) as unknown as readonly [StatementSchema, ...StatementSchema[]],
);

/** How a laboratory states what it knows of an input quantity. */
export type Statement = z.output<StatementSchema>;

export const distributionKinds: ReadonlyMap<string, DistributionKind> = new Map(
  kinds.map((kind) => [kind.kind, kind as unknown as DistributionKind]),
);

/** What a statement means to both methods. @throws {InputError} */
export const readStatement = (statement: Statement, place: string): InputKnowledge =>
  distributionKinds.get(statement.distribution)!.read(statement, place);
