import { join } from "node:path";
import { readCalibration, studyOf, type CertificateReference } from "../../models/index.ts";
import type { PreparedCalibration } from "../../viewer/api/calibrations.ts";
import { refused } from "../errors.ts";
import { loadCalibration, type LoadedCalibration } from "../intake/calibration.ts";
import { inFile } from "../intake/in-file.ts";
import { packageRoot } from "../package-root.ts";
import type { CalibrationContent, CalibrationHead } from "../store/calibrations.ts";
import { documentIn, withLaidFiles } from "./laid-files.ts";
import type { BroughtFile } from "./survey-uploads.ts";

/** The calibration among the examples, for who has none yet. */
export const exampleCalibration = async (): Promise<PreparedCalibration> =>
  preparedFrom(await loadCalibration(join(packageRoot(), "examples/calibration/two-probes.json")));

/**
 * Reads a calibration from its files: the document and those that it names, wherever they lay. Each is laid where the
 * document, or a description beside it, looks for it.
 *
 * @throws {Fault} no calibration among the files, or more than one; and as `loadCalibration`, by the files' own names
 */
export async function evaluateBroughtCalibration(files: readonly BroughtFile[]): Promise<PreparedCalibration> {
  const calibrations = files.filter((file) => {
    const document = documentIn(file);
    return document !== null && "points" in document && "instruments" in document;
  });
  if (calibrations.length !== 1)
    throw refused(
      "files",
      files.map(({ name }) => name).join(", "),
      "one calibration that ends in .json, with the surveys, logs and certificate that it names",
    );
  return withLaidFiles(files, calibrations[0]!, async (path) => preparedFrom(await loadCalibration(path)));
}

/**
 * A kept calibration, or one that is to be kept, with the studies of its instruments.
 *
 * @throws {Fault} `bad-input`: a document that is no calibration, with each place
 */
export const preparedAgain = async ({
  calibration,
  reference,
  overdue,
  files,
}: CalibrationContent): Promise<PreparedCalibration> =>
  preparedFrom({
    calibration: await inFile("", () => readCalibration(calibration)),
    reference: reference as CertificateReference | null,
    overdue,
    files,
  });

/** What a list shows of it. */
export const headOf = ({ title, laboratory, calibration, instruments }: PreparedCalibration): CalibrationHead => ({
  title,
  laboratory,
  points: (calibration["points"] as readonly unknown[]).length,
  instruments: instruments.map(({ id }) => id),
});

async function preparedFrom(loaded: Omit<LoadedCalibration, "document">): Promise<PreparedCalibration> {
  const { calibration, reference, overdue, files } = loaded;
  const studies = await inFile("", () => calibration.instruments.map(({ id }) => studyOf(calibration, id)));
  return {
    title: calibration.title,
    laboratory: calibration.laboratory ?? null,
    calibration: calibration as unknown as Readonly<Record<string, unknown>>,
    reference: reference === null ? null : { ...reference },
    overdue,
    files,
    instruments: calibration.instruments.map(({ id, description }, i) => ({
      id,
      description: description ?? null,
      study: studies[i] as unknown as Readonly<Record<string, unknown>>,
    })),
  };
}
