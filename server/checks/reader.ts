import type { OutlookKind } from "../../viewer/api/outlooks.ts";
import type { EvidenceUse, FormKind } from "../../viewer/api/evidence-evaluation.ts";
import { refused } from "../errors.ts";
import { openOneThread } from "../one-thread.ts";
import type { KeptFiles } from "../shelves/own-evidence.ts";
import type { BroughtFile } from "../shelves/survey-uploads.ts";
import type { SurveyPaths } from "../shelves/surveys.ts";
import type { CalibrationContent } from "../store/calibrations.ts";
import type { EvidenceContent } from "../store/evidence.ts";
import type { BytesOf, ReadResults, ReadTask } from "./messages.ts";

type Described = Pick<EvidenceContent, "document" | "files">;

/**
 * Reads files that requests bring or name, in a thread of their own: a log of 20 MB takes seconds. Each throws what cannot be
 * used of them, and as a checker.
 */
export interface Reader {
  /** A budget table, as `loadBudgetStudy`. */
  budget(
    file: BroughtFile,
    options: Extract<ReadTask, { readonly kind: "budget" }>["options"],
    signal: AbortSignal,
  ): Promise<ReadResults["budget"]>;
  /** A survey from its description and its logs. */
  survey(files: readonly BroughtFile[], signal: AbortSignal): Promise<ReadResults["survey"]>;
  listedSurvey(id: string, paths: SurveyPaths, signal: AbortSignal): Promise<ReadResults["listedSurvey"]>;
  /** As `evaluateOwn`. */
  ownSurvey(
    content: EvidenceContent,
    own: string,
    store: KeptFiles,
    signal: AbortSignal,
  ): Promise<ReadResults["ownSurvey"]>;
  /** As `evaluateEvidence`. */
  evidence(
    form: FormKind,
    content: Described,
    use: EvidenceUse,
    store: KeptFiles,
    signal: AbortSignal,
  ): Promise<ReadResults["evidence"]>;
  /** As `openEvidence`. */
  evidenceFile(file: BroughtFile, signal: AbortSignal): Promise<ReadResults["evidenceFile"]>;
  /** A calibration from its files, or the one among the examples. */
  calibration(files: readonly BroughtFile[] | null, signal: AbortSignal): Promise<ReadResults["calibration"]>;
  /** As `preparedAgain`. */
  keptCalibration(content: CalibrationContent, signal: AbortSignal): Promise<ReadResults["keptCalibration"]>;
  /** A plan, a history or a comparison from its files, or the one of a kind among the examples. */
  outlook(of: readonly BroughtFile[] | OutlookKind, signal: AbortSignal): Promise<ReadResults["outlook"]>;
  /** As `lookAt`. */
  looks(files: EvidenceContent["files"], store: KeptFiles, signal: AbortSignal): Promise<ReadResults["looks"]>;
  /** As `seriesOf`. */
  series(content: Described, store: KeptFiles, signal: AbortSignal): Promise<ReadResults["series"]>;
  close(): Promise<void>;
}

/** Seconds that a reading may take: many times what a log of 20 MB does. */
const MOST_SECONDS = 60;

/** The thread starts with the first file. */
export function openReader(seconds = MOST_SECONDS): Reader {
  const thread = openOneThread<ReadTask, ReadResults[ReadTask["kind"]]>({
    file: "read.cjs",
    what: "readings of files",
    limit: {
      seconds,
      late: () =>
        refused(
          "file",
          `a file whose reading takes more than ${seconds} s`,
          "a smaller one; the command line takes it",
        ),
    },
  });
  const run = async <K extends ReadTask["kind"]>(
    task: Extract<ReadTask, { readonly kind: K }>,
    signal: AbortSignal,
  ): Promise<ReadResults[K]> => (await thread.run(task, signal)) as ReadResults[K];
  return {
    budget: (file, options, signal) => run<"budget">({ kind: "budget", file, options }, signal),
    survey: (files, signal) => run<"survey">({ kind: "survey", files }, signal),
    listedSurvey: (id, paths, signal) => run<"listedSurvey">({ kind: "listedSurvey", id, paths }, signal),
    ownSurvey: (content, own, store, signal) =>
      run<"ownSurvey">({ kind: "ownSurvey", content, own, bytes: bytesOf(content.files, store) }, signal),
    evidence: (form, { document, files }, use, store, signal) =>
      run<"evidence">(
        { kind: "evidence", form, content: { document, files }, use, bytes: bytesOf(files, store) },
        signal,
      ),
    evidenceFile: (file, signal) => run<"evidenceFile">({ kind: "evidenceFile", file }, signal),
    calibration: (files, signal) => run<"calibration">({ kind: "calibration", files }, signal),
    keptCalibration: (content, signal) => run<"keptCalibration">({ kind: "keptCalibration", content }, signal),
    outlook: (of, signal) => run<"outlook">({ kind: "outlook", of }, signal),
    looks: (files, store, signal) => run<"looks">({ kind: "looks", files, bytes: bytesOf(files, store) }, signal),
    series: ({ document, files }, store, signal) =>
      run<"series">({ kind: "series", content: { document, files }, bytes: bytesOf(files, store) }, signal),
    close: () => thread.close(),
  };
}

/** What the store has of files; the thread says which one is missing. */
function bytesOf(files: EvidenceContent["files"], store: KeptFiles): BytesOf {
  const found = new Map<string, Uint8Array>();
  for (const { sha256 } of files) {
    const bytes = store.file(sha256);
    if (bytes !== null) found.set(sha256, bytes);
  }
  return found;
}
