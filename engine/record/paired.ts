import * as z from "zod";
import type { Immutable } from "../immutable.ts";
import { figure, names, pair } from "./parts.ts";

const figuresSchema = z.strictObject({
  kind: z.literal("figures"),
  estimate: figure,
  /** `null` if its standard error does not exist. */
  standardUncertainty: figure.nullable(),
  /** Probabilistically symmetric. */
  interval: pair,
  /** With the error of the linearised distribution. */
  standardErrors: z.strictObject({ estimate: figure, standardUncertainty: figure.nullable(), interval: pair }),
  /** Distances of the linear endpoints from these. */
  dLow: figure,
  dHigh: figure,
  /** What these distances say of the linear budget: d ≤ δ at both endpoints, d > δ at one, or neither for certain. */
  decision: z.enum(["validated", "notValidated", "undecided"]),
  /** Plain trials that would decide as well; `null` if these figures do not decide. */
  trialsNeeded: figure.nullable(),
});

const unavailableSchema = z.strictObject({
  kind: z.literal("unavailable"),
  because: z.enum([
    /** The study's interval is the shortest one. */
    "shortest",
    /** Trials for which the model is undefined are left out. */
    "leftOut",
    /** The linear budget has no u(y). */
    "noLinearUncertainty",
    "nothingVaries",
    /** Inputs without a standard deviation. */
    "noStandardDeviation",
    /** Inputs that depend on one another by a Gaussian copula of other shapes. */
    "copula",
    /** The endpoints of the linearised model are not known to δ/1000. */
    "accuracy",
    /** Too few trials about an endpoint, or values there that repeat. */
    "fewAtEndpoint",
  ]),
  /** The inputs it is about. */
  inputs: names,
});

const spoken = { sentence: z.string() };

export const pairedSchema = z.discriminatedUnion("kind", [
  figuresSchema.extend(spoken),
  unavailableSchema.extend(spoken),
]);

/**
 * What the trials say together with those of the linearised model, drawn alike, whose distribution is known without trials;
 * or why they do not. The Monte Carlo result of JCGM 101 is the plain one; this says how firm the verdict on it is.
 */
export type PairedRecord = Immutable<z.output<typeof pairedSchema>>;
export type PairedFigures = Immutable<z.output<typeof figuresSchema> | z.output<typeof unavailableSchema>>;
