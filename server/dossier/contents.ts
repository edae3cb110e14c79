import type { Evidence, ReportedRecord } from "../../engine/index.ts";

/** Where the parts of a dossier lie, below `data/`. */
export const PLACES = {
  record: "record.json",
  signature: "record.json.sig",
  study: "study.json",
  reports: { en: "report-en.html", de: "report-de.html" },
  described: "dossier.json",
  verifying: "how-to-verify.txt",
  evidence: "evidence/",
} as const;

/** A file that a statement of the study rests on. */
export type EvidenceFile = Evidence["files"][number];

/** The files that a record's study names as its evidence, each digest once. */
export function evidenceOf({ study }: ReportedRecord): readonly EvidenceFile[] {
  const found = new Map<string, EvidenceFile>();
  const collect = (statement: unknown): void => {
    const { evidence } = (statement ?? {}) as { readonly evidence?: Evidence };
    for (const file of evidence?.files ?? []) if (!found.has(file.sha256)) found.set(file.sha256, file);
  };
  Object.values(study.inputs).forEach(collect);
  return [...found.values()];
}

/** Where a file of evidence lies: its digest names it, its own name is for people. */
export const placeOfEvidence = ({ name, sha256 }: EvidenceFile): string =>
  `${PLACES.evidence}${sha256}-${name.replace(/[^\p{L}\p{N}._-]+/gu, "_").slice(-80)}`;

/** What a dossier says of itself. */
export interface DossierDescription {
  readonly format: "trialband-dossier/1";
  readonly record: string;
  readonly title: string;
  readonly software: {
    readonly name: "Trialband";
    readonly version: string;
    readonly commit: string | null;
    readonly engineDigest: string;
    readonly modelsDigest: string;
  };
  readonly evidence: readonly {
    readonly name: string;
    readonly sha256: string;
    /** `null` for a file that was not at hand when the dossier was made. */
    readonly file: string | null;
  }[];
}
