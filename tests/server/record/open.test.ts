import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { defineModel, propagate } from "../../../engine/index.ts";
import { recordSchema, shownRecordSchema } from "../../../engine/record/index.ts";
import { Fault } from "../../../server/errors.ts";
import { openDocument, openRecord } from "../../../server/record/open.ts";

const faultOf = (content: Uint8Array | string): Fault => {
  try {
    openRecord(content, "r.json");
  } catch (error) {
    expect(error).toBeInstanceOf(Fault);
    return error as Fault;
  }
  throw new Error("it was opened");
};

// Names that every plain object has: a look-up by text from outside must not find them.
test.each(["constructor", "toString", "__proto__", "hasOwnProperty", "trialband-record/3"])(
  'a file with {"format":"%s"} is refused at once',
  (format) => {
    expect(faultOf(JSON.stringify({ format })).problems).toEqual([
      expect.objectContaining({ place: "format", value: JSON.stringify(format) }),
    ]);
  },
);

test("bytes that are no UTF-8 are refused, in the middle of a text too", () => {
  const bytes = new TextEncoder().encode('{"format":"trialband-record/2","title":"20 xC"}');
  bytes[bytes.indexOf(0x78)] = 0xb0; // the degree sign of Windows-1252
  expect(faultOf(bytes)).toMatchObject({
    code: "not-json",
    message: expect.stringContaining("expected text in UTF-8"),
  });
});

test("text that is no JSON is refused with line and column", () => {
  expect(faultOf('{\n  "format": trialband\n}').message).toBe(
    "r.json is not JSON (line 2, column 13): expected a value, got trialband",
  );
});

test("a record of the first format opens whole, without a seal", () => {
  const opened = openRecord(readFileSync(new URL("format-1.json", import.meta.url)), "old.json");
  expect(opened).toMatchObject({ from: "trialband-record/1", sealed: null, altered: [] });
  expect(shownRecordSchema.safeParse(opened.record).success).toBe(true);
  // Damaged parts of an older record reach the check, not a crash.
  for (const part of ["study", "inputs", "measurands"])
    for (const damage of [null, 3, "x", [], { a: null }])
      expect(() => openDocument({ ...opened.record, format: "trialband-record/1", [part]: damage }, "r.json")).toThrow(
        Fault,
      );
});

test("a record of today's format that was never sealed opens without a seal, and is no filed record", () => {
  const q = { symbol: "x", meaning: "x", unit: "1" };
  const record = propagate(
    defineModel({ id: "m", title: "m", measurands: { y: q }, inputs: { a: q }, evaluate: ({ a }) => a }),
    {
      title: "t",
      model: "m",
      inputs: { a: { distribution: "normal", estimate: 0, standardUncertainty: 1 } },
      trials: 10_000,
    },
  );
  expect(openDocument(JSON.parse(JSON.stringify(record)), "r.json")).toMatchObject({ sealed: null, altered: [] });
  expect(recordSchema.safeParse(record).success).toBe(false);
});
