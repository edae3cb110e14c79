import { z } from "zod";
import { evidenceSchema, type Immutable } from "../../engine/internal.ts";
import type { CertificateEvaluation, ImmersionEvaluation, ProbeEvaluation } from "../../models/index.ts";
import { evidenceContent, evidenceDescription, evidenceKind } from "./evidence.ts";
import type { Sent } from "./sent.ts";
import { statementShown, studyOrId, studyShown } from "./study-document.ts";
import { checkFound, typeA } from "./survey-evaluation.ts";

/** Evidence that a form takes; a survey has its own interface. */
export const formKind = evidenceKind.exclude(["survey"]);
export type FormKind = z.output<typeof formKind>;

/** How evidence is used in a study: what the description itself does not say. */
const use = z
  .object({
    temperature: z.number("a temperature in °C").exactOptional().describe("Where a certificate is used, °C"),
    on: z.string("a day as YYYY-MM-DD").exactOptional().describe("Day a certificate is used on; default: today"),
    drift: z
      .enum(["bounds", "rate"], "bounds or rate")
      .exactOptional()
      .describe("How a reference's drift is evaluated; default: bounds, if there is a history"),
    probe: z.string("the name of a channel").exactOptional().describe("Which of several probes"),
    distribution: z
      .enum(["rectangular", "triangular", "arcsine"], "rectangular, triangular or arcsine")
      .exactOptional()
      .describe("How the limits of an immersion error are stated; default: rectangular"),
  })
  .default({})
  .meta({ id: "EvidenceUse" });
export type EvidenceUse = Immutable<z.output<typeof use>>;

/** `POST /api/evidence-evaluations`: evaluates without keeping anything. */
export const evidenceEvaluationRequest = z
  .object({ kind: formKind, ...evidenceContent, use }, "an object with kind, document and files")
  .meta({ id: "EvidenceEvaluationRequest" });
export type EvidenceEvaluationRequest = Immutable<z.input<typeof evidenceEvaluationRequest>>;

const checks = z.array(checkFound);
const reasoning = z.array(z.string());

const probe = z
  .strictObject({
    probe: z.string(),
    reference: z.string(),
    nominalResistance: z.number().nullable().describe("R₀ in Ω of a probe read as a resistance"),
    together: z.boolean().describe("Whether probe and reference were read together, else in turn"),
    timed: z.boolean().describe("Whether the moments are known, else only the order"),
    sequence: z.strictObject({
      probe: z.string(),
      cycles: z.array(
        z.strictObject({
          from: z.number(),
          to: z.number(),
          difference: z.number().describe("Probe minus reference, K"),
          reference: z.number().describe("°C"),
          drift: z.number().describe("Of the reference through the cycle, K/s"),
          probeReadings: z.int(),
          referenceReadings: z.int(),
        }),
      ),
      shared: z.boolean(),
      sharedCorrelation: z.number(),
      unbracketed: z.int(),
    }),
    referenceMean: z.number(),
    typeA,
    uncorrectedShift: z.number(),
    checks,
    reasoning,
  })
  .meta({ id: "ProbeEvaluation" }) satisfies z.ZodType<Sent<ProbeEvaluation>>;

const immersion = z
  .strictObject({
    title: z.string(),
    withdrawal: z
      .strictObject({
        change: z.number(),
        error: z.number(),
        conductionLength: z.number(),
        lengthFrom: z.enum(["stated", "second withdrawal", "longest usual"]),
        standardUncertainty: z.number().nullable(),
        passed: z.boolean(),
        halfWidth: z.number(),
        checks,
        reasoning,
      })
      .nullable(),
    fit: z
      .strictObject({
        conductionLength: z.number(),
        limiting: z.number(),
        amplitude: z.number(),
        meanDepth: z.number(),
        residualDeviation: z.number().nullable(),
        degreesOfFreedom: z.number().nullable(),
        errors: z.array(z.number()),
        plannedDepth: z.number(),
        plannedError: z.number(),
        plannedStandardUncertainty: z.number().nullable(),
        sufficientDepth: z.number(),
        enough: z.boolean(),
        checks,
        reasoning,
      })
      .nullable(),
  })
  .meta({ id: "ImmersionEvaluation" }) satisfies z.ZodType<Sent<ImmersionEvaluation>>;

const history = z.array(z.strictObject({ calibrated: z.string(), correction: z.number() }));
const ofDrift = { history, days: z.number(), reasoning };
const certificate = z
  .strictObject({
    value: z.strictObject({
      temperature: z.number(),
      correction: z.number(),
      standardUncertainty: z.number(),
      degreesOfFreedom: z.number().nullable().describe("null: infinitely many"),
      expandedUncertainty: z.number().nullable(),
      coverageFactor: z.number().nullable(),
      between: z.array(z.number()),
      interpolation: z.number().nullable(),
      reasoning,
    }),
    drift: z
      .union([
        z.strictObject({ ...ofDrift, method: z.literal("bounds"), halfWidth: z.number(), oneWay: z.boolean() }),
        z.strictObject({
          ...ofDrift,
          method: z.literal("rate"),
          rate: z.number(),
          change: z.number(),
          rateStandardUncertainty: z.number(),
          standardUncertainty: z.number(),
          degreesOfFreedom: z.number().nullable(),
        }),
      ])
      .nullable(),
    noDrift: z.string().nullable(),
    validity: z.strictObject({
      on: z.string(),
      days: z.number(),
      due: z.string().nullable(),
      overdueDays: z.number(),
      warning: z.string().nullable(),
    }),
  })
  .meta({ id: "CertificateEvaluation" }) satisfies z.ZodType<Sent<CertificateEvaluation>>;

/** Evidence, evaluated. Differences in K, temperatures in °C, lengths in mm. */
export const evaluatedEvidence = z
  .strictObject({
    kind: formKind,
    files: evidenceSchema.shape.files.describe("Description and log, with their digests"),
    notes: z.array(z.string()).describe("What was noticed while the log was read"),
    probes: z.array(probe).exactOptional().describe("Of readings"),
    immersion: immersion.exactOptional(),
    certificate: certificate.nullable().exactOptional().describe("null as long as no temperature is named"),
    statements: z
      .record(z.string(), z.strictObject({ statement: statementShown(), unit: z.string() }))
      .describe(
        "What a study may state, by quantity, each in its unit; none if several probes were read and none is named",
      ),
    notStated: z.string().nullable().describe("Why nothing can be stated, if nothing can"),
  })
  .meta({ id: "EvaluatedEvidence" });
export type EvaluatedEvidence = Immutable<z.output<typeof evaluatedEvidence>>;

/** An input of a study that evidence may go into. */
const studyInput = z.strictObject({
  name: z.string(),
  symbol: z.string(),
  meaning: z.string(),
  unit: z.string(),
  stated: z.boolean().describe("Whether the study states it already"),
});

/** The query of `GET /api/evidence-inputs`. */
export const evidenceInputsQuery = z.object({
  study: z.string("the id of a study").describe("Id of a listed study, or own: and the id of one of one's own"),
});

/** `GET /api/evidence-inputs`: what evidence may go into. */
export const evidenceInputs = z
  .strictObject({
    title: z.string(),
    temperature: z.number().nullable().describe("Set temperature of its bath, °C, if it states one"),
    inputs: z.array(studyInput),
  })
  .meta({ id: "EvidenceInputs" });
export type EvidenceInputs = Immutable<z.output<typeof evidenceInputs>>;

/** `POST /api/evidence/:id/study`: the draft's quantities in the place of a study's own. */
export const evidenceStudyRequest = z
  .object(
    {
      study: studyOrId,
      into: z.record(z.string(), z.string(), "an object with the input for each quantity that goes in"),
      use,
    },
    "an object with study, into and use",
  )
  .meta({ id: "EvidenceStudyRequest" });
export type EvidenceStudyRequest = z.input<typeof evidenceStudyRequest>;

export const evidenceStudy = z.strictObject({ study: studyShown() }).meta({ id: "EvidenceStudy" });
export type EvidenceStudy = Immutable<z.output<typeof evidenceStudy>>;

/** The query of `POST /api/evidence-openings`. */
export const evidenceOpeningQuery = z.object({ name: z.string().describe("The file's name, without a folder") });

/** `POST /api/evidence-openings`: a file as the command line takes it, as a draft. */
export const openedEvidence = z
  .strictObject({
    kind: evidenceKind,
    document: evidenceDescription,
    reasoning: z.array(z.string()).describe("How an XML certificate was read"),
  })
  .meta({ id: "OpenedEvidence" });
export type OpenedEvidence = Immutable<z.output<typeof openedEvidence>>;
