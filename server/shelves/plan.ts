import type { Evidence, Safety } from "../../engine/index.ts";
import { planOf, readPlan, safetyOfRanges, type Plan } from "../../models/index.ts";
import { beside, readJson } from "../intake/document.ts";
import { inFile } from "../intake/in-file.ts";
import { loadSweep } from "../intake/sweep.ts";
import { watchFile, type OnRead } from "../intake/watched-file.ts";
import { loadStudyDocument, type LoadedStudy, type Overrides } from "./study.ts";

/** A plan, and the study that would carry it out. */
export interface LoadedPlan {
  readonly title: string;
  readonly plan: Plan;
  readonly proposed: LoadedStudy;
  /** Of the baths of the range; of the study where it has no parts. */
  readonly safety: Safety;
  readonly files: Evidence["files"];
}

export interface PlanOptions {
  readonly onRead?: OnRead;
  /** Whether the study may bring a model of its own, which is code. */
  readonly ownModels: boolean;
}

/**
 * Reads a plan and the sweep that it names, with all its files, and finds the proposal.
 *
 * @throws {InputError | Fault} every problem with its place; a file's own problems name the file
 */
export async function loadPlan(
  path: string,
  overrides: Overrides,
  { onRead, ownModels }: PlanOptions,
): Promise<LoadedPlan> {
  const watched = await watchFile(path);
  const json = await readJson(watched.source);
  const document = await inFile(path, () => readPlan(json));
  const sweepPath = beside(path, document.sweep);
  const loaded = await loadSweep(sweepPath, onRead);
  const present = await inFile(sweepPath, () =>
    loadStudyDocument(loaded.study, ownModels ? loaded.studyPath : null, overrides),
  );
  const { plan, proposed } = await inFile(path, () => planOf(document, present.model, present.study));
  const ofRanges = await inFile(sweepPath, () => safetyOfRanges(loaded.sweep));
  return {
    title: document.title,
    plan,
    proposed: { ...present, study: proposed },
    safety: ofRanges.cautions.length > 0 ? ofRanges : { warnings: [], cautions: present.model.cautions ?? [] },
    files: [watched.trace(), ...loaded.files],
  };
}
