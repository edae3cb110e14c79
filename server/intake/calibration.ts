import { InputError, refuse, type Evidence, type Problem, type Statement } from "../../engine/index.ts";
import {
  evaluateCertificate,
  evaluateReadings,
  readCalibration,
  readDocument,
  readingsSchema,
  validityOf,
  type Calibration,
  type CalibrationPoint,
  type CertificateReference,
} from "../../models/index.ts";
import { certificateStatements, openCertificate, today } from "./certificate-at.ts";
import { beside, readJson } from "./document.ts";
import { inFile } from "./in-file.ts";
import { readIndications } from "./load.ts";
import { citedReadings } from "./readings-evidence.ts";
import { citedStatements } from "./survey-evidence.ts";
import { surveyedBath } from "./surveyed.ts";
import { watchFile, type OnRead } from "./watched-file.ts";
import { watchLog } from "./watched-log.ts";

type File = Evidence["files"][number];

/** A calibration with the statements of its files in it. */
export interface LoadedCalibration {
  /** As it was written. */
  readonly document: unknown;
  readonly calibration: Calibration;
  /** Name and digest of every file read, its own among them. */
  readonly files: readonly File[];
  /** Warning of the reference's certificate, or `null`. */
  readonly overdue: string | null;
  /** The reference that its certificate describes; `null` if the document states its quantities itself. */
  readonly reference: CertificateReference | null;
}

/**
 * Reads a calibration and evaluates the files it names: surveys of its baths, the certificate of its reference at every
 * point, readings of a point. A survey's differences between places are one quantity for all points in the bath, its
 * stability is drawn anew at each; what the certificate leaves unknown is shared by the points as the document states.
 *
 * @throws {InputError | Fault} every problem with its place; a file's own problems name the file
 */
export async function loadCalibration(path: string, onRead?: OnRead): Promise<LoadedCalibration> {
  const watched = await watchFile(path);
  const document = await readJson(watched.source);
  const files: File[] = [watched.trace()];
  let calibration = await inFile(path, () => readCalibration(document));
  calibration = await withSurveys(calibration, path, files, onRead);
  const referred = await withCertificate(calibration, path, files);
  calibration = await withReadings(referred.calibration, path, files, onRead);
  return { document, calibration, files, overdue: referred.overdue, reference: referred.reference };
}

async function withSurveys(
  calibration: Calibration,
  path: string,
  files: File[],
  onRead: OnRead | undefined,
): Promise<Calibration> {
  const baths: Record<string, Calibration["baths"][string]> = {};
  for (const [name, bath] of Object.entries(calibration.baths)) {
    if (bath.survey === undefined) {
      baths[name] = bath;
      continue;
    }
    const file = beside(path, bath.survey);
    baths[name] = await inFile(file, async () => {
      const { evaluation, description, files: read, bath: stated } = await surveyedBath(file, onRead);
      files.push(...read);
      const { bathStability, ...places } = citedStatements(evaluation, description, read, {});
      return {
        ...bath,
        ...(bath.bath === undefined && stated !== undefined ? { bath: stated as NonNullable<typeof bath.bath> } : {}),
        common: { ...places, ...bath.common },
        each: { ...(bathStability === undefined ? {} : { bathStability }), ...bath.each },
      };
    });
  }
  return { ...calibration, baths };
}

async function withCertificate(
  calibration: Calibration,
  path: string,
  files: File[],
): Promise<Pick<LoadedCalibration, "calibration" | "overdue" | "reference">> {
  const { reference, calibrated: on = today() } = calibration;
  if (reference === undefined) return { calibration, overdue: null, reference: null };
  const file = beside(path, reference.certificate);
  const opened = await inFile(file, async () => openCertificate(await watchFile(file), file, {}));
  files.push(opened.file);
  const problems: Problem[] = [];
  const points = calibration.points.map((point, i): CalibrationPoint => {
    try {
      const evaluation = evaluateCertificate(opened.certificate, point.nominal, on, reference.drift);
      return {
        ...point,
        inputs: { ...certificateStatements(opened.certificate, evaluation, opened.file), ...point.inputs },
      };
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      problems.push(
        ...error.problems.map((problem) => ({
          ...problem,
          place: problem.place === "temperature" ? `points.${i}.nominal` : `reference.certificate, ${problem.place}`,
        })),
      );
      return point;
    }
  });
  if (problems.length > 0) await inFile(path, () => Promise.reject(new InputError(problems)));
  const shared = ["referenceCertificate", "referenceDrift"].filter((input) => {
    const stating = points.filter(({ inputs }) => Object.hasOwn(inputs, input)).length;
    return stating > 1 && calibration.together.every((stated) => stated.input !== input);
  });
  return {
    overdue: validityOf(opened.certificate, on).warning,
    reference: opened.certificate,
    calibration: {
      ...calibration,
      points,
      together: [
        ...calibration.together,
        ...(reference.correlation === 0
          ? []
          : shared.map((input) => ({
              input,
              coefficient: reference.correlation,
              source: `one reference at all points, ${opened.certificate.thermometer}`,
            }))),
      ],
    },
  };
}

async function withReadings(
  calibration: Calibration,
  path: string,
  files: File[],
  onRead: OnRead | undefined,
): Promise<Calibration> {
  const points: CalibrationPoint[] = [];
  for (const [i, point] of calibration.points.entries()) {
    if (point.readings === undefined) {
      points.push(point);
      continue;
    }
    const file = beside(path, point.readings);
    const found = await inFile(file, () => statementsByInstrument(file, calibration, files, onRead));
    const ids = Object.keys(found);
    if (ids.length === 0)
      await inFile(path, () =>
        refuse(
          `points.${i}.readings`,
          point.readings,
          `readings of one of the instruments ${calibration.instruments.map(({ id }) => id).join(", ")}`,
        ),
      );
    const instruments: Record<string, Readonly<Record<string, Statement>>> = { ...point.instruments };
    for (const id of ids) instruments[id] = { ...found[id], ...instruments[id] };
    points.push({ ...point, instruments });
  }
  return { ...calibration, points };
}

/** What a log of readings states of each instrument of the calibration. @throws {InputError} */
async function statementsByInstrument(
  file: string,
  { instruments }: Calibration,
  files: File[],
  onRead: OnRead | undefined,
): Promise<Record<string, Record<string, Statement>>> {
  const described = await watchFile(file);
  const description = readDocument(readingsSchema, await readJson(described.source));
  if (description.log === undefined)
    return refuse("log.file", undefined, "the CSV or XLSX file of the readings, beside the description");
  const logged = await watchLog(file, description.log, onRead);
  const { indications } = await readIndications(description, logged.open);
  const read = [described.trace(), ...logged.traces()];
  files.push(...read);
  const found: Record<string, Record<string, Statement>> = {};
  for (const probe of evaluateReadings(description, indications)) {
    const instrument = instruments.find(({ id }) => id === probe.probe);
    if (instrument === undefined) continue;
    if (probe.nominalResistance !== instrument.nominalResistance)
      refuse(
        `channels.${probe.probe}.nominalResistance`,
        probe.nominalResistance,
        `${instrument.nominalResistance} Ω, the nominal resistance of ${probe.probe} in the calibration`,
      );
    // R_0 is the instrument's, one for all points.
    const { nominalResistance: _, ...statements } = citedReadings(probe, read);
    found[probe.probe] = statements;
  }
  return found;
}
