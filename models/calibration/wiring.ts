import { InputError, show, type Problem, type Quantity, type Statement } from "../../engine/index.ts";
import type { CalibratedInstrument, Calibration } from "./document.ts";

/** Which input of the study is which input of a point, and what is stated of it. */
export interface Wiring {
  /** For each point, in order: input of the study by input of the point's model. */
  readonly points: readonly Readonly<Record<string, string>>[];
  readonly inputs: Readonly<Record<string, Statement>>;
  /** Where the document states each of them. */
  readonly places: Readonly<Record<string, string>>;
}

/** A place where an input of one point may be stated, and the name it then has in the study. */
interface Level {
  readonly place: string;
  readonly stated: Readonly<Record<string, Statement>>;
  readonly name: (field: string) => string;
}

/** Letters and digits of a designation, as part of a name: a name has 64 characters at most, and p1 names a point. */
function part(text: string): string {
  const plain = text.replace(/[^A-Za-z0-9]/g, "").slice(0, LONGEST_PART);
  return plain === "" || /^p\d+$/.test(plain) ? `x${plain}` : plain;
}

const LONGEST_PART = 24;

/** Parts of names for some designations, different from one another. */
export function nameParts(texts: readonly string[]): readonly string[] {
  const parts = texts.map(part);
  return parts.map((own, i) => (parts.indexOf(own) === i ? own : `${own}_${i + 1}`));
}

export const pointName = (i: number): string => `p${i + 1}`;

/** Input quantities that a bath's survey gives. */
const OF_A_SURVEY: ReadonlySet<string> = new Set(["bathAxial", "bathRadial", "bathStability"]);
/** Input quantities that a certificate of the reference gives. */
const OF_A_CERTIFICATE: ReadonlySet<string> = new Set([
  "referenceCertificate",
  "referenceDrift",
  "referenceInterpolation",
]);

/**
 * Ties the statements of a calibration to the inputs of one instrument's points. A quantity that points share has one
 * name, so that it is drawn once; what differs by instrument has the instrument in its name, so that the same draws
 * stand under the runs of all instruments, trial by trial.
 *
 * @param needed inputs of the point's model
 * @param optional its optional ones
 * @param independent every point has inputs of its own, as if it shared nothing: to show what that would claim
 * @throws {InputError} what is stated nowhere, twice, or of no use
 */
export function wire(
  calibration: Calibration,
  instrument: CalibratedInstrument,
  needed: Readonly<Record<string, Quantity>>,
  optional: Readonly<Record<string, Quantity>>,
  independent: boolean,
): Wiring {
  const problems: Problem[] = [];
  const baths = Object.keys(calibration.baths);
  const instruments = calibration.instruments.map(({ id }) => id);
  // Together, so that a bath named like an instrument has another part.
  const parts = nameParts([...instruments, ...baths]);
  const bathParts = parts.slice(instruments.length);
  const own = parts[instruments.indexOf(instrument.id)]!;
  const inputs: Record<string, Statement> = {};
  const places: Record<string, string> = {};
  const fields = [...Object.keys(needed), ...Object.keys(optional)];
  const points = calibration.points.map((point, i) => {
    const p = pointName(i);
    const bath = calibration.baths[point.bath];
    if (bath === undefined) {
      problems.push({
        place: `points.${i}.bath`,
        value: show(point.bath),
        accepted: `one of the baths ${baths.join(", ")}`,
      });
      return {};
    }
    for (const id of Object.keys(point.instruments)) {
      if (!instruments.includes(id))
        problems.push({
          place: `points.${i}.instruments.${id}`,
          value: show(id),
          accepted: `one of the instruments ${instruments.join(", ")}`,
        });
    }
    const at = calibration.instruments.indexOf(instrument);
    const levels: readonly Level[] = [
      {
        place: `points.${i}.instruments.${instrument.id}`,
        stated: point.instruments[instrument.id] ?? {},
        name: (field) => `${field}_${own}_${p}`,
      },
      { place: `points.${i}.inputs`, stated: point.inputs, name: (field) => `${field}_${p}` },
      { place: `baths.${point.bath}.each`, stated: bath.each, name: (field) => `${field}_${p}` },
      {
        place: `baths.${point.bath}.common`,
        stated: bath.common,
        name: (field) => `${field}_${bathParts[baths.indexOf(point.bath)]!}`,
      },
      { place: `instruments.${at}.each`, stated: instrument.each, name: (field) => `${field}_${own}_${p}` },
      { place: `instruments.${at}.common`, stated: instrument.common, name: (field) => `${field}_${own}` },
      { place: "each", stated: calibration.each, name: (field) => `${field}_${p}` },
      { place: "common", stated: calibration.common, name: (field) => field },
    ];
    for (const { place, stated } of levels) problems.push(...unknownFields(place, stated, fields));
    const wired: Record<string, string> = {};
    for (const field of fields) {
      const found = levels.filter(({ stated }) => Object.hasOwn(stated, field));
      if (found.length === 0) {
        if (Object.hasOwn(needed, field)) problems.push(missing(calibration, i, instrument, field, needed[field]!));
        continue;
      }
      if (found.length > 1) {
        problems.push({
          place: `${found[0]!.place}.${field}`,
          value: show(found[0]!.stated[field]!.distribution),
          accepted: `nothing: ${found[1]!.place} states it for this point too, and one of the two must go`,
        });
        continue;
      }
      const level = found[0]!;
      const name = independent ? `${field}_${own}_${p}` : level.name(field);
      inputs[name] = level.stated[field]!;
      places[name] = `${level.place}.${field}`;
      wired[field] = name;
    }
    return wired;
  });
  if (problems.length > 0) throw new InputError(withoutRepetition(problems));
  return { points, inputs, places };
}

function unknownFields(
  place: string,
  stated: Readonly<Record<string, Statement>>,
  fields: readonly string[],
): readonly Problem[] {
  return Object.keys(stated)
    .filter((field) => !fields.includes(field))
    .map((field) => ({
      place: `${place}.${field}`,
      value: show(stated[field]!.distribution),
      accepted: `nothing: the model of a point has only ${fields.join(", ")}`,
    }));
}

/** What is stated nowhere: at which point, and where it may be stated. */
function missing(
  { points, reference }: Calibration,
  i: number,
  { id }: CalibratedInstrument,
  field: string,
  { symbol, meaning, unit }: Quantity,
): Problem {
  const { bath, nominal } = points[i]!;
  const file = OF_A_SURVEY.has(field)
    ? `a survey of the bath (baths.${bath}.survey), `
    : OF_A_CERTIFICATE.has(field) && reference === undefined
      ? "the certificate of the reference (reference.certificate), "
      : "";
  return {
    place: `points.${i}.${field}`,
    value: "nothing",
    accepted:
      `at ${nominal} °C ${symbol}, ${meaning}, in ${unit}: ${file}or a statement under points.${i}.instruments.${id}, ` +
      `points.${i}.inputs, baths.${bath}, the instrument, each or common`,
  };
}

/** A problem of a level that many points read is one problem. */
const withoutRepetition = (problems: readonly Problem[]): Problem[] => [
  ...new Map(problems.map((problem) => [`${problem.place} ${problem.accepted}`, problem])).values(),
];
