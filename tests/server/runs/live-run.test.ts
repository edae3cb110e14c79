import { expect, test, vi } from "vitest";
import { finishedEvent, jsonOf, lastEvent } from "../../../server/runs/live-run.ts";
import { writtenRecord } from "../../../server/record/written.ts";
import { aRecord } from "../store/sample.ts";

test("an event is written out once, however many follow", () => {
  const event = lastEvent({ state: "cancelled", trials: 10_000, notKept: null, record: null, error: null });
  const stringify = vi.spyOn(JSON, "stringify");
  try {
    expect(jsonOf(event)).toBe('{"type":"cancelled","trials":10000,"notKept":null}');
    for (let i = 0; i < 200; i++) jsonOf(event);
    expect(stringify).toHaveBeenCalledTimes(1);
  } finally {
    stringify.mockRestore();
  }
});

test("that of a finished run has its record's JSON as it is, and the record itself for who asks", () => {
  const record = aRecord();
  const written = writtenRecord(record);
  const parse = vi.spyOn(JSON, "parse");
  try {
    const event = finishedEvent(written, 'the disk is "full"');
    const text = jsonOf(event);
    expect(parse).not.toHaveBeenCalled();
    expect(text).toContain(Buffer.from(written.json).toString("utf8"));
    expect(JSON.parse(text)).toEqual({ type: "finished", record, notKept: 'the disk is "full"' });
    expect(event).toEqual({ type: "finished", record, notKept: 'the disk is "full"' });
  } finally {
    parse.mockRestore();
  }
});
