import type {
  CalibrationList,
  CalibrationNaming,
  ChangedCalibration,
  KeptCalibration,
  NewCalibration,
  RunOfInstrument,
} from "../../api/kept-calibrations.ts";
import { ask, sent } from "../api.ts";

const at = (id: string): string => `api/kept-calibrations/${encodeURIComponent(id)}`;

/** @param seen the revision that the reader has before them; what was written meanwhile is not written over */
const over = (body: unknown, seen: number): RequestInit => {
  const { headers, ...request } = sent("PUT", body);
  return { ...request, headers: { ...headers, "if-match": `"${seen}"` } };
};

export const listCalibrations = (): Promise<CalibrationList> => ask("api/kept-calibrations");
export const listRemovedCalibrations = (): Promise<CalibrationList> => ask("api/removed-calibrations");
export const keepCalibration = (calibration: NewCalibration): Promise<KeptCalibration> =>
  ask("api/kept-calibrations", sent("POST", calibration));
export const readKeptCalibration = (id: string): Promise<KeptCalibration> => ask(at(id));
export const changeCalibration = (
  id: string,
  calibration: ChangedCalibration["calibration"],
  seen: number,
): Promise<KeptCalibration> => ask(at(id), over({ calibration } satisfies ChangedCalibration, seen));
export const setRunOf = (id: string, instrument: string, run: string): Promise<KeptCalibration> =>
  ask(`${at(id)}/runs/${encodeURIComponent(instrument)}`, sent("PUT", { run } satisfies RunOfInstrument));
export const nameCalibration = (id: string, naming: CalibrationNaming, seen: number): Promise<KeptCalibration> =>
  ask(`${at(id)}/name`, over(naming, seen));
export const removeCalibration = (id: string): Promise<unknown> => ask(at(id), { method: "DELETE" });
export const bringBackCalibration = (id: string): Promise<KeptCalibration> =>
  ask(`${at(id)}/undo-removal`, { method: "POST" });
