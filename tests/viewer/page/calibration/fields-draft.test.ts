// The fields of a certificate as they are typed: what is written is read back, and what is emptied is gone.
import { describe, expect, test } from "vitest";
import { certificateFieldsSchema, itemFieldsSchema } from "../../../../models/calibration/certificate-fields.ts";
import {
  ITEM_FIELDS,
  SHARED_FIELDS,
  textOf,
  withText,
  type CertificateField,
} from "../../../../viewer/page/calibration/fields-draft.ts";

/** Something that may stand in each kind of field. */
const EXAMPLES: Readonly<Record<CertificateField["kind"], string>> = {
  line: "Harrowfen Dairy",
  lines: "Dock 4\nHarrowfen",
  text: "none",
  day: "2026-03-02",
  country: "GB",
  email: "a@harrowfen.example",
  at: "laboratory",
  number: "22.5",
};
const filled = (fields: readonly CertificateField[], of: unknown = undefined): unknown =>
  fields.reduce<unknown>((all, field) => withText(all, field, EXAMPLES[field.kind]), of);

describe.each([
  ["all certificates", SHARED_FIELDS],
  ["one instrument", ITEM_FIELDS],
] as const)("%s", (_, fields) => {
  test.each(fields)("$name is read back, and leaves nothing behind when it is emptied", (field) => {
    const text = EXAMPLES[field.kind];
    const written = withText(undefined, field, `  ${text} `);
    expect(textOf(written, field)).toBe(text);
    expect(withText(written, field, " ")).toEqual({});
  });
});

test("filled in, they are what the document of a calibration takes", () => {
  expect(certificateFieldsSchema.parse(filled(SHARED_FIELDS))).toMatchObject({
    laboratory: { name: "Harrowfen Dairy", address: ["Dock 4", "Harrowfen"], country: "GB" },
    conditions: [{ quantity: "temperature", low: 22.5, high: 22.5 }],
    performed: { from: "2026-03-02", to: "2026-03-02" },
  });
  const { certificate, description } = filled(ITEM_FIELDS) as { certificate: unknown; description: string };
  expect(description).toBe("Harrowfen Dairy");
  expect(itemFieldsSchema.parse(certificate)).toMatchObject({ received: "2026-03-02", adjustment: "none" });
});

test("what the form does not ask for stays", () => {
  const stated = {
    method: { name: "old", norms: ["IEC 60751:2022"] },
    conditions: [
      { quantity: "humidity", low: 40, high: 50 },
      { quantity: "temperature", low: 20, high: 21 },
    ],
    opinions: "none",
  };
  expect(filled(SHARED_FIELDS, stated)).toMatchObject({
    method: { name: "none", norms: ["IEC 60751:2022"] },
    conditions: [
      { quantity: "temperature", low: 22.5, high: 22.5 },
      { quantity: "humidity", low: 40, high: 50 },
    ],
    opinions: "none",
  });
});
