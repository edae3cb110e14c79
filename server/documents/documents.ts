import { refused } from "../errors.ts";
import { openOneThread } from "../one-thread.ts";
import type { DocumentResults, DocumentTask } from "./messages.ts";

type Rest<Kind extends DocumentTask["kind"]> = Omit<Extract<DocumentTask, { readonly kind: Kind }>, "kind">;
type Makes<Kind extends DocumentTask["kind"]> = (of: Rest<Kind>, signal: AbortSignal) => Promise<DocumentResults[Kind]>;

/**
 * Makes documents of records in a thread of their own: of a record of megabytes each takes a good part of a second. Each throws
 * `bad-input` (no record, or one that was altered), and as a checker.
 */
export interface Documents {
  /** A record's file, brought to today's format, as JSON. */
  shown(file: Uint8Array, signal: AbortSignal): Promise<Uint8Array>;
  readonly report: Makes<"report">;
  readonly workbook: Makes<"workbook">;
  readonly dsi: Makes<"dsi">;
  /** What a calibration found of one instrument, and its certificate. */
  readonly calibrated: Makes<"calibrated">;
  readonly certificate: Makes<"certificate">;
  /** Files of evidence that a record names. */
  readonly evidence: Makes<"evidence">;
  readonly dossier: Makes<"dossier">;
  close(): Promise<void>;
}

/** Seconds that a document may take. */
const MOST_SECONDS = 60;

/** The thread starts with the first document. */
export function openDocuments(seconds = MOST_SECONDS): Documents {
  const thread = openOneThread<DocumentTask, DocumentResults[DocumentTask["kind"]]>({
    file: "make.cjs",
    what: "documents",
    limit: {
      seconds,
      late: () =>
        refused(
          "record",
          `a record of which a document takes more than ${seconds} s`,
          "a smaller one; the command line takes it",
        ),
    },
  });
  const makes =
    <Kind extends DocumentTask["kind"]>(kind: Kind): Makes<Kind> =>
    async (of, signal) =>
      (await thread.run({ kind, ...of } as unknown as DocumentTask, signal)) as DocumentResults[Kind];
  return {
    shown: (file, signal) => makes("shown")({ file }, signal),
    report: makes("report"),
    workbook: makes("workbook"),
    dsi: makes("dsi"),
    calibrated: makes("calibrated"),
    certificate: makes("certificate"),
    evidence: makes("evidence"),
    dossier: makes("dossier"),
    close: () => thread.close(),
  };
}
