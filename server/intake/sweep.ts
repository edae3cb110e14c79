import type { Evidence, Statement, StudyDocument } from "../../engine/index.ts";
import {
  evaluateCertificate,
  loadEquationReader,
  readSweep,
  sweepStudyOf,
  type OpenedCertificate,
  type PlannedPoint,
  type SweepDocument,
} from "../../models/index.ts";
import { certificateStatements, openCertificate, today } from "./certificate-at.ts";
import { beside, readJson } from "./document.ts";
import { inFile } from "./in-file.ts";
import { citedStatements } from "./survey-evidence.ts";
import { surveyedBath } from "./surveyed.ts";
import { watchFile, type OnRead } from "./watched-file.ts";

/** A sweep with the statements of its files in it. */
export interface LoadedSweep {
  readonly sweep: SweepDocument;
  /** The study with its points written out. */
  readonly study: StudyDocument;
  /** Where the study that the sweep names lies, for paths in it; `null` if it is stated in the sweep. */
  readonly studyPath: string | null;
  readonly files: Evidence["files"];
}

/**
 * Reads a sweep and evaluates the files it names: the study, the certificate at every point, the survey of each bath.
 *
 * @throws {InputError | Fault} every problem with its place; a file's own problems name the file
 */
export async function loadSweep(path: string, onRead?: OnRead): Promise<LoadedSweep> {
  await loadEquationReader();
  const watched = await watchFile(path);
  const document = await readJson(watched.source);
  const files: Evidence["files"][number][] = [watched.trace()];
  const sweep = await inFile(path, () => readSweep(document));
  const studyPath = typeof sweep.study === "string" ? beside(path, sweep.study) : null;
  let study: unknown = sweep.study;
  if (studyPath !== null) {
    const named = await watchFile(studyPath);
    study = await readJson(named.source);
    files.push(named.trace());
  }
  const surveys = new Map<string, Readonly<Record<string, Statement>>>();
  for (const { name, survey } of sweep.ranges) {
    if (survey === undefined) continue;
    const file = beside(path, survey);
    await inFile(file, async () => {
      const { evaluation, description, files: read } = await surveyedBath(file, onRead);
      files.push(...read);
      surveys.set(name, citedStatements(evaluation, description, read, {}));
    });
  }
  const certificate = await openedCertificate(sweep, path, files);
  return {
    sweep,
    studyPath,
    files,
    study: await inFile(path, () =>
      sweepStudyOf(sweep, study as StudyDocument, (point) => ({
        ...(certificate === null ? {} : certificateAtPoint(sweep, certificate, point)),
        ...(point.range === null ? {} : surveys.get(point.range.name)),
      })),
    ),
  };
}

async function openedCertificate(
  { certificate }: SweepDocument,
  path: string,
  files: Evidence["files"][number][],
): Promise<OpenedCertificate | null> {
  if (certificate === undefined) return null;
  const file = beside(path, certificate.file);
  const opened = await inFile(file, async () => openCertificate(await watchFile(file), file, {}));
  files.push(opened.file);
  return opened;
}

function certificateAtPoint(
  { certificate: stated }: SweepDocument,
  { certificate, file }: OpenedCertificate,
  { t }: PlannedPoint,
): Record<string, Statement> {
  const evaluation = evaluateCertificate(certificate, t, stated!.on ?? today(), stated!.drift);
  return certificateStatements(certificate, evaluation, file);
}
