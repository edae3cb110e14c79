import { fileOf } from "../api.ts";
import { fileNameOf } from "../../present/file-name.ts";
import { saveFile } from "../draw/save.ts";
import { messages, words } from "../language.ts";
import { shownRun } from "../shown.ts";
import type { State } from "../state.ts";
import type { OtherFile } from "./other-file.ts";

/** In which panel's downloads each file of a whole run stands. */
const PLACES = { budget: "workbook", figures: "results", distributions: "trials" } as const;

/** The files of a finished run, or of a record from a file, that belong to a panel. */
export function runFiles(panel: string, state: State | null): readonly OtherFile[] {
  const run = state === null ? null : shownRun(state.shown);
  if (run?.record == null || run.state !== "finished" || !Object.hasOwn(PLACES, panel)) return [];
  const kind = PLACES[panel as keyof typeof PLACES];
  const what = words.takeAway[kind];
  const { record } = run;
  const address = (path: string): string => `api/runs/${encodeURIComponent(run.id)}/${path}`;
  /** Of a record that the server does not keep, the file is made from what the page has. */
  const made = (path: string, name: string, ending: string) => async (): Promise<void> =>
    saveFile(
      fileNameOf(record.study.title, record.environment?.startedAt ?? null, name, ending),
      await fileOf(`api/records/${path}`, record),
    );
  const kept = run.file === undefined;
  switch (kind) {
    case "workbook": {
      const path = `workbook?language=${messages.language}`;
      return [{ what, forms: [{ label: "XLSX", from: kept ? address(path) : made(path, "budget", "xlsx") }] }];
    }
    case "results":
      return [{ what, forms: [{ label: "XML", from: kept ? address("d-si") : made("d-si", "d-si", "xml") }] }];
    case "trials":
      return kept
        ? [
            {
              what,
              forms: [
                { label: "Parquet", from: address("trials?format=parquet") },
                { label: "NPY", from: address("trials?format=npy") },
              ],
            },
          ]
        : [];
  }
}
