import { refuse } from "../../../engine/index.ts";
import { readBySchema } from "../../../engine/internal.ts";
import { certificateSchema, type Certificate } from "../certificate/certificate.ts";
import type { DsiFile, DsiQuantity } from "./quantities.ts";

/** Which quantity of a file plays which part, by index. */
export interface DsiMapping {
  readonly temperature: number;
  /** Exactly one of the two. */
  readonly correction?: number | undefined;
  readonly error?: number | undefined;
}

/**
 * A certificate made of a digital one: the description (°C, K), and which quantity of the file was taken as which part,
 * by its index, with the reasons.
 */
export interface ImportedCertificate {
  readonly certificate: Certificate;
  readonly mapping: DsiMapping;
  /** How each part was assigned, to be shown before it is used. */
  readonly reasoning: readonly string[];
}

/**
 * Turns the result of a Digital Calibration Certificate into a certificate description.
 *
 * @param given parts named by the user; those not named are found by refType and name
 * @param about what the file does not state, or states differently
 * @throws {InputError} parts that cannot be distinguished, lists of unequal length, or units other than °C and K
 */
export function certificateFromDsi(
  file: DsiFile,
  given: Partial<DsiMapping> = {},
  about: { readonly thermometer?: string; readonly calibrated?: string } = {},
): ImportedCertificate {
  const { quantities } = file;
  const temperature =
    given.temperature ??
    partOf(quantities, "temperature", /referencevalue|nominal/i, /reference|set|nominal|bezugs|temperatur/i, true);
  const error =
    given.error ??
    (given.correction === undefined
      ? findPart(quantities, /measurementerror/i, /error|abweichung|deviation/i)
      : undefined);
  const correction =
    given.correction ??
    (error === undefined ? findPart(quantities, /correction/i, /correction|korrektur/i) : undefined);
  const part = error ?? correction;
  if (part === undefined)
    refuse("quantities", describe(quantities), "a quantity that is the error or the correction: name its index");
  const temperatures = celsiusForm(quantities[temperature], temperature);
  const parts = kelvinForm(quantities[part!], part!);
  if (temperatures.length !== parts.length) {
    refuse(
      "quantities",
      `${temperatures.length} temperatures, ${parts.length} ${error === undefined ? "corrections" : "errors"}`,
      "lists of equal length",
    );
  }
  const sign = error === undefined ? 1 : -1;
  const points = parts.map(({ value, uncertainty, scale }, i) => {
    if (uncertainty === null)
      return refuse(`quantities.${part}.${i}`, value, "a value with its measurement uncertainty");
    // 0 − 0 rather than −0, which would be printed with a sign.
    const at = { temperature: temperatures[i]!, correction: 0 + sign * value * scale };
    return uncertainty.kind === "expanded"
      ? Object.assign(at, {
          expandedUncertainty: uncertainty.expanded * scale,
          coverageFactor: uncertainty.coverageFactor,
        })
      : Object.assign(at, { standardUncertainty: uncertainty.standard * scale });
  });
  const certificate = readBySchema(certificateSchema, {
    thermometer: about.thermometer ?? file.identifications[0],
    ...(file.certificate === null ? {} : { certificate: file.certificate }),
    calibrated: about.calibrated ?? file.calibrated,
    points,
  });
  return {
    certificate,
    mapping: error === undefined ? { temperature, correction: part! } : { temperature, error },
    reasoning: [
      `temperature: ${nameOf(quantities[temperature]!)}`,
      error === undefined
        ? `correction: ${nameOf(quantities[part!]!)}`
        : `error: ${nameOf(quantities[part!]!)}, the correction is its negative`,
      ...file.notes,
    ],
  };
}

const nameOf = ({ names, refType }: DsiQuantity): string =>
  [names[0] ?? "without name", ...(refType === null ? [] : [`(${refType})`])].join(" ");
const describe = (quantities: readonly DsiQuantity[]): string =>
  quantities.map((quantity, i) => `${i}: ${nameOf(quantity)}`).join(", ");

/** The one quantity that a refType names, else the one that a name does. */
function findPart(
  quantities: readonly DsiQuantity[],
  refType: RegExp,
  name: RegExp,
  celsius = false,
): number | undefined {
  const usable = (i: number): boolean =>
    !celsius || quantities[i]!.forms.some((reals) => /^\\(degreecelsius|kelvin)$/.test(reals[0]?.unit ?? ""));
  const indices = quantities.map((_, i) => i).filter(usable);
  const typed = indices.filter((i) => refType.test(quantities[i]!.refType ?? ""));
  const named = indices.filter((i) => quantities[i]!.names.some((text) => name.test(text)));
  return typed.length === 1 ? typed[0] : typed.length === 0 && named.length === 1 ? named[0] : undefined;
}

function partOf(
  quantities: readonly DsiQuantity[],
  what: string,
  refType: RegExp,
  name: RegExp,
  celsius: boolean,
): number {
  return (
    findPart(quantities, refType, name, celsius) ??
    refuse("quantities", describe(quantities), `a single quantity that is the ${what}: name its index`)
  );
}

function celsiusForm(quantity: DsiQuantity | undefined, index: number): number[] {
  for (const [unit, shift] of [
    ["\\degreecelsius", 0],
    ["\\kelvin", -273.15],
  ] as const) {
    const form = quantity?.forms.find((reals) => reals.every((real) => real.unit === unit));
    if (form !== undefined) return form.map(({ value }) => value + shift);
  }
  return refuse(`quantities.${index}`, quantity?.forms[0]?.[0]?.unit, "temperatures in \\degreecelsius or \\kelvin");
}

const DIFFERENCES: ReadonlyMap<string, number> = new Map([
  ["\\kelvin", 1],
  ["\\degreecelsius", 1],
  ["\\milli\\kelvin", 1e-3],
  ["\\milli\\degreecelsius", 1e-3],
  ["\\micro\\kelvin", 1e-6],
]);

function kelvinForm(quantity: DsiQuantity | undefined, index: number) {
  const form = quantity?.forms.find((reals) => reals.every(({ unit }) => DIFFERENCES.has(unit)));
  if (form === undefined)
    return refuse(
      `quantities.${index}`,
      quantity?.forms[0]?.[0]?.unit,
      `differences in ${[...DIFFERENCES.keys()].join(", ")}`,
    );
  return form.map(({ value, uncertainty, unit }) => ({ value, uncertainty, scale: DIFFERENCES.get(unit)! }));
}
