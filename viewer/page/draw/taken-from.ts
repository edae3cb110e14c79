import type { ReportedRecord, RunRecord } from "../../../engine/index.ts";

/** What is on the sheet, as a file that leaves the page states it. */
export interface TakenFrom {
  readonly title: string;
  /** The moment of the run, if there was one. */
  readonly startedAt: string | null;
  /** Digest of the record, or of what a survey was evaluated from; `null` where there is none yet. */
  readonly digest: string | null;
  /** The measurand shown, if there are several. */
  readonly measurand: string | null;
}

/** Hexadecimal digits of a digest by which people know a record. */
const SHORT = 16;

let shown: TakenFrom = { title: "", startedAt: null, digest: null, measurand: null };

/** One thing is on the sheet at a time: who draws it names it here. */
export const nameShown = (now: TakenFrom): void => void (shown = now);
export const shownNow = (): TakenFrom => shown;

export const shortDigest = ({ digest }: TakenFrom): string | null => digest?.slice(0, SHORT) ?? null;

/** A record as it stands on the sheet. */
export const ofRecord = (
  {
    study,
    environment,
    seal,
    measurands,
  }: Pick<RunRecord, "study" | "environment" | "measurands"> & Pick<ReportedRecord, "seal">,
  measurand: string,
): TakenFrom => ({
  title: study.title,
  startedAt: environment?.startedAt ?? null,
  digest: seal?.record ?? null,
  measurand: Object.keys(measurands).length > 1 ? measurand : null,
});
