import type { ReportedRecord } from "../../engine/index.ts";
import { Fault } from "../errors.ts";
import { placeModule } from "./bundle.ts";
import { loadModel, type ModelReference } from "./model.ts";
import { loadStudyDocument, type LoadedStudy } from "./study.ts";

/**
 * The study of a record with its model: a registered one, or the one that the record carries, which is code.
 *
 * @throws {Fault} a model of the record's own that was not allowed, or whose source is not that of its digest
 */
export async function studyOfRecord({ study, provenance }: ReportedRecord, trustModel: boolean): Promise<LoadedStudy> {
  const source = provenance?.modelSource ?? null;
  if (source === null) return loadStudyDocument(study, null);
  if (!trustModel) {
    throw new Fault(
      "model-does-not-load",
      "The record carries a model of its author's own, which is code: read it (provenance.modelSource), and allow it with --trust-model.",
    );
  }
  const placed = await placeModule(source);
  if (placed.digest !== provenance!.modelDigest)
    throw new Fault("bad-input", "The model's source in the record does not match its digest.");
  const reference: ModelReference = { kind: "module", parameters: study.parameters ?? {}, ...placed };
  return { study, reference, model: await loadModel(reference) };
}
