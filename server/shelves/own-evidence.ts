import { createHash } from "node:crypto";
import { refuse } from "../../engine/index.ts";
import {
  allRows,
  fileRequests,
  logSchema,
  loggedThermometerSchema,
  outlineOf,
  plateaus,
  proposeLog,
  readDocument,
  readPlanTable,
} from "../../models/index.ts";
import * as z from "zod";
import type { EvidenceKind, LogLook, LogSeries } from "../../viewer/api/evidence.ts";
import { inFile } from "../intake/in-file.ts";
import { readLogFiles } from "../intake/load.ts";
import { openLog } from "../intake/table.ts";
import type { WatchedFile } from "../intake/watched-file.ts";
import type { EvidenceContent, EvidenceStore } from "../store/evidence.ts";
import { digestId, evaluateFiles, watchBytes, type EvaluatedFiles } from "./surveys.ts";

/** Rows of a file that a person is shown. */
const SHOWN_ROWS = 14;

/** A description as the file it would be: what its digest is taken of. */
export const descriptionFile = (document: EvidenceContent["document"]): Buffer =>
  Buffer.from(`${JSON.stringify(document, null, 2)}\n`);

/** Name of the evaluation of a description with its files. */
export const digestsOf = ({ document, files }: EvidenceContent): string =>
  digestId([
    { name: "description", sha256: createHash("sha256").update(descriptionFile(document)).digest("hex") },
    ...files,
  ]);

/** What a description is called in a list. */
export function titleOf(document: EvidenceContent["document"], kind: EvidenceKind): string {
  const stated = document["title"] ?? document["thermometer"];
  return typeof stated === "string" && stated.trim() !== "" ? stated.trim().slice(0, 200) : UNNAMED[kind];
}

const UNNAMED: Readonly<Record<EvidenceKind, string>> = {
  survey: "Survey without a name",
  readings: "Readings without a name",
  immersion: "Immersion check without a name",
  certificate: "Certificate without a thermometer",
};

/** The file that a description would be. */
export const watchDescription = ({ title, document }: EvidenceContent): WatchedFile =>
  watchBytes(`${title.replaceAll(/[^\p{L}\p{N} .-]/gu, "").trim() || "description"}.json`, descriptionFile(document));

/** Where the bytes of files are. */
export type KeptFiles = Pick<EvidenceStore, "file">;

/** Opens a kept file by the name that a description gives it. */
export function opener(
  { files }: Pick<EvidenceContent, "files">,
  store: KeptFiles,
): (file: string | undefined) => WatchedFile {
  return (wanted) => {
    const file = wanted === undefined ? files[0] : files.find(({ name }) => name === wanted);
    const bytes = file === undefined ? null : store.file(file.sha256);
    if (bytes === null)
      return refuse(
        "log.file",
        wanted,
        files.length === 0 ? "a log: drop its file or choose it" : `one of ${files.map(({ name }) => name).join(", ")}`,
      );
    return watchBytes(file!.name, bytes);
  };
}

/** Evaluates a survey of one's own. @throws {Fault} `bad-input`, with every problem by its field */
export async function evaluateOwn(content: EvidenceContent, own: string, store: KeptFiles): Promise<EvaluatedFiles> {
  const evaluated = await evaluateFiles(null, watchDescription(content), opener(content, store));
  return { ...evaluated, shown: { ...evaluated.shown, opened: false, own } };
}

/** How files of a log look. @throws {Fault} `bad-input`: a file that is no table */
export async function lookAt(files: EvidenceContent["files"], store: KeptFiles): Promise<LogLook[]> {
  const open = opener({ files }, store);
  const looks: LogLook[] = [];
  for (const { name } of files)
    looks.push(
      await inFile(name, async () => {
        const table = openLog(open(name).source);
        const rows = await allRows(table);
        if (rows.length === 0) return refuse(name, "an empty file", "a log: rows of time and readings");
        const proposal = proposeLog(rows);
        const first = Math.max(
          0,
          rows.findIndex(({ row }) => row >= Math.min(proposal.headingRow || 1, proposal.firstRow)),
        );
        return {
          name,
          proposal,
          rows: rows
            .slice(first, first + SHOWN_ROWS)
            .map(({ row, cells }) => ({ row, cells: cells.map((cell) => (cell === null ? "" : String(cell))) })),
          notes: table.notes,
          plan: readPlanTable(rows),
        };
      }),
    );
  return looks;
}

const loggedSchema = z.object({
  log: logSchema.optional(),
  thermometers: z.record(z.string(), loggedThermometerSchema),
});

/** Reads a log as its description says, and draws it small. @throws {Fault} `bad-input`, by field or by file, row and column */
export async function seriesOf(
  { document, files }: Pick<EvidenceContent, "document" | "files">,
  store: KeptFiles,
): Promise<LogSeries> {
  return inFile("the log", async () => {
    const { log, thermometers } = readDocument(loggedSchema, {
      log: document["log"],
      thermometers: document["thermometers"] ?? document["channels"] ?? {},
    });
    const open = opener({ files }, store);
    const { logs, rows, notes } = await readLogFiles(fileRequests(log, thermometers), (file) => open(file).source);
    return { outlines: logs.map((one) => outlineOf(one)), plateaus: plateaus(logs), rows, notes };
  });
}
