// The record's types are those of its schema, and what a run makes has them. Checked by `npm run types`; nothing here runs.
import type * as z from "zod";
import type { studySchema } from "../../engine/internal.ts";
import type { shownRecordSchema } from "../../engine/record/index.ts";
import type { MeasurandRecord, RecordOf, ReportedRecord, RunRecord, Study } from "../../engine/index.ts";
import type { assembleRecord } from "../../engine/run/assemble.ts";

type Same<A, B> = (<T>() => T extends A ? 1 : 2) extends <T>() => T extends B ? 1 : 2 ? true : false;
const same = <T extends true>(): T => true as T;

same<Same<ReturnType<typeof assembleRecord>, RunRecord>>();
// A record with the names of its model is one.
export const named: RunRecord = {} as RecordOf<"mass", "density">;
same<Same<RunRecord["measurands"][string], MeasurandRecord>>();
same<Same<RunRecord["study"], Study>>();

// What the schemas give is what the types say, all of it read-only.
const shown: ReportedRecord = {} as z.output<typeof shownRecordSchema>;
const study: Study = {} as z.output<typeof studySchema>;

// @ts-expect-error a record is read-only
shown.trials.count = 1;
// @ts-expect-error in its lists too
shown.remarks.push("x");
// @ts-expect-error and so is a study
study.inputs["a"] = { distribution: "constant", value: 1 };
// @ts-expect-error no such figure
void shown.measurands["y"]!.monteCarlo.median;
