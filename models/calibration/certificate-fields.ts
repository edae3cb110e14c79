import * as z from "zod";
import type { Immutable } from "../../engine/internal.ts";
import { daySchema } from "../evaluation/text/document.ts";

const text = z.string().trim().min(1).max(2000);
const line = z.string().trim().min(1).max(200);

const partySchema = z.strictObject({
  name: line.optional(),
  address: z.array(line).min(1).max(6).optional().describe("Lines of the address, as on a letter"),
  country: z
    .string()
    .regex(/^[A-Z]{2}$/, { message: "two capital letters of ISO 3166-1, such as GB or DE" })
    .optional(),
  email: z
    .string()
    .regex(/^[^\s@]+@[^\s@]+$/, { message: "an address with @" })
    .optional(),
  phone: line.optional(),
});

const conditionSchema = z
  .strictObject({
    quantity: z.enum(["temperature", "humidity", "pressure"]).describe("Of the room: in °C, % and hPa"),
    low: z.number(),
    high: z.number(),
  })
  .refine(({ low, high }) => low <= high, { message: "low no greater than high" });

/** What all certificates of a calibration state beside its results; a certificate is a draft while a required one lacks. */
export const certificateFieldsSchema = z.strictObject({
  language: z.enum(["en", "de"]).default("en").describe("Language that the texts stated here are written in"),
  laboratory: partySchema.extend({ code: line.optional().describe("Accreditation mark or code") }).optional(),
  customer: partySchema.optional(),
  location: z
    .strictObject({
      at: z.enum(["laboratory", "customer", "other"]),
      place: line.optional().describe("Where, if it is not the laboratory's address"),
    })
    .optional()
    .describe("Where the calibration was performed (ISO/IEC 17025, 7.8.2.1 c)"),
  performed: z
    .strictObject({ from: daySchema, to: daySchema })
    .refine(({ from, to }) => from <= to, { message: "from no later than to" })
    .optional()
    .describe("Days of the calibration; without them the day `calibrated`"),
  issued: daySchema.optional().describe("Day of issue"),
  method: z
    .strictObject({
      name: text,
      norms: z.array(line).max(10).default([]),
      deviations: text.optional().describe("Additions to the method, deviations from it, exclusions"),
    })
    .optional(),
  conditions: z.array(conditionSchema).max(10).optional().describe("Conditions of the room during the calibration"),
  traceability: text.optional().describe("How the results are metrologically traceable"),
  decisionRule: text.optional().describe("Decision rule; without it, the guard band of the document in words"),
  opinions: text.optional().describe("Opinions and interpretations (7.8.7)"),
  external: text.optional().describe("Which results come from external providers"),
  fromCustomer: text.optional().describe("Which information the customer gave, where it can affect the results"),
  sampling: text.optional().describe("Sampling plan and method, if the laboratory sampled"),
  nextCalibration: daySchema
    .optional()
    .describe(
      "Only if the customer agreed to have it stated: a certificate recommends no interval otherwise (7.8.4.3)",
    ),
  authorised: z.strictObject({ name: line, role: line.optional() }).optional().describe("Who authorises it"),
});

/** What the certificate of one instrument states of it. */
export const itemFieldsSchema = z.strictObject({
  number: line.optional().describe("Number of the certificate"),
  replaces: line.optional().describe("Number of the certificate that this one replaces (7.8.8)"),
  manufacturer: line.optional(),
  type: line.optional(),
  received: daySchema.optional(),
  condition: text.optional().describe("Condition of the instrument as received"),
  adjustment: text.optional().describe('Adjustment or repair; "none" if there was none'),
  before: z
    .array(
      z.strictObject({
        temperature: z.number().describe("°C"),
        error: z.number().describe("°C"),
        expandedUncertainty: z.number().gt(0).describe("°C, at the coverage probability of the calibration"),
      }),
    )
    .max(60)
    .default([])
    .describe("Results before the adjustment or repair, if available"),
});

export type CertificateFields = Immutable<z.output<typeof certificateFieldsSchema>>;
export type ItemFields = Immutable<z.output<typeof itemFieldsSchema>>;

/** Fields without which a certificate is a draft, by the name that every language words. */
export const REQUIRED = [
  "laboratoryName",
  "laboratoryAddress",
  "laboratoryCountry",
  "laboratoryEmail",
  "customerName",
  "customerAddress",
  "customerCountry",
  "customerEmail",
  "location",
  "performed",
  "issued",
  "method",
  "conditions",
  "traceability",
  "authorised",
  "number",
  "description",
  "manufacturer",
  "condition",
  "adjustment",
] as const;

export type RequiredField = (typeof REQUIRED)[number];

/** Which reference a certificate rests on, for its traceability. */
export interface CertificateReference {
  readonly thermometer: string;
  readonly certificate?: string | undefined;
  readonly laboratory?: string | undefined;
  readonly calibrated: string;
}

/** What a calibration states for the certificate of one instrument, with what it says elsewhere already filled in. */
export interface CertificateStatements {
  readonly fields: CertificateFields;
  readonly item: ItemFields;
  readonly performed: { readonly from: string; readonly to: string } | null;
  /** Required fields that nobody filled, with their places in the document. */
  readonly lacking: readonly { readonly field: RequiredField; readonly place: string }[];
}

/** The parts of a calibration that its certificates are made of. */
interface Stated {
  readonly laboratory?: string | undefined;
  readonly calibrated?: string | undefined;
  readonly certificate?: CertificateFields | undefined;
  readonly instruments: readonly {
    readonly id: string;
    readonly description?: string | undefined;
    readonly certificate?: ItemFields | undefined;
  }[];
}

/** @param id one of the calibration's instruments */
export function certificateFieldsOf(calibration: Stated, id: string): CertificateStatements {
  const { calibrated, laboratory } = calibration;
  const stated = calibration.certificate ?? certificateFieldsSchema.parse({});
  const i = calibration.instruments.findIndex((each) => each.id === id);
  const instrument = calibration.instruments[i]!;
  const item = instrument.certificate ?? itemFieldsSchema.parse({});
  const fields: CertificateFields = {
    ...stated,
    laboratory: { ...(laboratory === undefined ? {} : { name: laboratory }), ...stated.laboratory },
  };
  const performed = stated.performed ?? (calibrated === undefined ? null : { from: calibrated, to: calibrated });
  const common = "certificate";
  const own = `instruments.${i}.certificate`;
  const found: Readonly<Record<RequiredField, readonly [value: unknown, place: string]>> = {
    laboratoryName: [fields.laboratory?.name, `${common}.laboratory.name`],
    laboratoryAddress: [fields.laboratory?.address, `${common}.laboratory.address`],
    laboratoryCountry: [fields.laboratory?.country, `${common}.laboratory.country`],
    laboratoryEmail: [fields.laboratory?.email, `${common}.laboratory.email`],
    customerName: [fields.customer?.name, `${common}.customer.name`],
    customerAddress: [fields.customer?.address, `${common}.customer.address`],
    customerCountry: [fields.customer?.country, `${common}.customer.country`],
    customerEmail: [fields.customer?.email, `${common}.customer.email`],
    location: [fields.location, `${common}.location`],
    performed: [performed ?? undefined, `${common}.performed`],
    issued: [fields.issued, `${common}.issued`],
    method: [fields.method, `${common}.method`],
    conditions: [fields.conditions?.[0], `${common}.conditions`],
    traceability: [fields.traceability, `${common}.traceability`],
    authorised: [fields.authorised, `${common}.authorised`],
    number: [item.number, `${own}.number`],
    description: [instrument.description, `instruments.${i}.description`],
    manufacturer: [item.manufacturer, `${own}.manufacturer`],
    condition: [item.condition, `${own}.condition`],
    adjustment: [item.adjustment, `${own}.adjustment`],
  };
  return {
    fields,
    item,
    performed,
    lacking: REQUIRED.flatMap((field) => {
      const [value, place] = found[field];
      return value === undefined ? [{ field, place }] : [];
    }),
  };
}
