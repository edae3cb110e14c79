import { bag, figure, list, text, whole, type Bag } from "../evidence/text.ts";
import { filledRows } from "./readings-draft.ts";
import { inKelvin, typedFrom, type SmallUnit } from "./units.ts";

/** How a certificate states the uncertainty of its points. */
export type StatedAs = "k" | "p" | "u";

/** Fields of a certificate that are text. */
export const HEAD = ["thermometer", "certificate", "laboratory", "calibrated", "due", "notes"] as const;

/** A reference's certificate as it is typed. */
export interface CertificateDraft extends Record<(typeof HEAD)[number], string> {
  intervalMonths: string;
  /** Whether the certificate prints corrections, to be added, or errors, to be subtracted. */
  sign: 1 | -1;
  statedAs: StatedAs;
  /** k, or p, of every point that states none of its own. */
  factor: string;
  /** `temperature`, `correction`, `uncertainty`, `factor`, `freedom`. */
  points: Record<string, string>[];
  /** Earlier calibrations, a row a point: `calibrated`, `certificate`, `temperature`, `correction`. */
  history: Record<string, string>[];
  unit: SmallUnit;
  others: Record<string, unknown>;
}

export const emptyCertificate = (unit: SmallUnit): CertificateDraft => ({
  thermometer: "",
  certificate: "",
  laboratory: "",
  calibrated: "",
  due: "",
  notes: "",
  intervalMonths: "",
  sign: 1,
  statedAs: "k",
  factor: "",
  points: [],
  history: [],
  unit,
  others: {},
});

/** A coverage probability, typed as 0.95, 95 or 95 %. */
function probability(typed: string): number | string | undefined {
  const value = figure(typed.replace("%", ""));
  return typeof value === "number" && (typed.includes("%") || value > 1)
    ? Number((value / 100).toPrecision(12))
    : value;
}

/** The description that the form makes, finished or not. */
export function certificateDocument(draft: CertificateDraft): Record<string, unknown> {
  const { unit, sign, statedAs, points } = draft;
  return {
    ...draft.others,
    thermometer: draft.thermometer.trim(),
    ...whole({
      certificate: draft.certificate.trim(),
      laboratory: draft.laboratory.trim(),
      calibrated: draft.calibrated.trim(),
      due: draft.due.trim(),
      intervalMonths: figure(draft.intervalMonths),
    }),
    points: filledRows(points).map((i) => {
      const { temperature = "", correction = "", uncertainty = "", factor = "", freedom = "" } = points[i]!;
      const own = factor.trim() === "" ? draft.factor : factor;
      return (
        whole({
          temperature: figure(temperature),
          correction: inKelvin(correction, unit, sign),
          [statedAs === "u" ? "standardUncertainty" : "expandedUncertainty"]: inKelvin(uncertainty, unit),
          coverageFactor: statedAs === "k" ? figure(own) : undefined,
          coverageProbability: statedAs === "p" ? probability(own) : undefined,
          effectiveDegreesOfFreedom: figure(freedom),
        }) ?? {}
      );
    }),
    ...whole({ history: earlierOf(draft), notes: draft.notes.trim() }),
  };
}

/** Rows of the same day are one calibration. */
function earlierOf({ history, unit, sign }: CertificateDraft): Record<string, unknown>[] | undefined {
  const days = new Map<string, { certificate?: string; points: unknown[] }>();
  for (const i of filledRows(history)) {
    const { calibrated = "", certificate = "", temperature = "", correction = "" } = history[i]!;
    const day = days.get(calibrated.trim()) ?? { points: [] };
    days.set(calibrated.trim(), day);
    if (certificate.trim() !== "") day.certificate = certificate.trim();
    day.points.push(whole({ temperature: figure(temperature), correction: inKelvin(correction, unit, sign) }) ?? {});
  }
  return days.size === 0 ? undefined : [...days].map(([calibrated, day]) => ({ calibrated, ...day }));
}

/** The row of the table that a place of the description's history is of. */
export function historyRow({ history }: CertificateDraft, day: number, point: number): number {
  const rows = filledRows(history);
  const days = [...new Set(rows.map((i) => (history[i]!["calibrated"] ?? "").trim()))];
  return rows.filter((i) => (history[i]!["calibrated"] ?? "").trim() === days[day])[point] ?? rows[0] ?? 0;
}

const KNOWN: ReadonlySet<string> = new Set([...HEAD, "intervalMonths", "points", "history"]);

/** The form that makes a description: what it has no field for stays. */
export function certificateFrom(document: Bag, unit: SmallUnit, sign: 1 | -1 = 1): CertificateDraft {
  const points = list(document["points"]).map(bag);
  const statedAs: StatedAs = points.some((point) => point["standardUncertainty"] !== undefined)
    ? "u"
    : points.some((point) => point["coverageProbability"] !== undefined)
      ? "p"
      : "k";
  const factors = points.map((point) => text(point[statedAs === "p" ? "coverageProbability" : "coverageFactor"]));
  const common = factors.every((one) => one === factors[0]) ? (factors[0] ?? "") : "";
  return {
    ...emptyCertificate(unit),
    ...Object.fromEntries(HEAD.map((name) => [name, text(document[name])])),
    intervalMonths: text(document["intervalMonths"]),
    sign,
    statedAs,
    factor: common,
    points: points.map((point, i) => ({
      temperature: text(point["temperature"]),
      correction: typedFrom(point["correction"], unit, sign),
      uncertainty: typedFrom(point[statedAs === "u" ? "standardUncertainty" : "expandedUncertainty"], unit),
      factor: common === "" ? factors[i]! : "",
      freedom: text(point["effectiveDegreesOfFreedom"]),
    })),
    history: list(document["history"]).flatMap((one) => {
      const { calibrated, certificate, points: earlier } = bag(one);
      return list(earlier).map((point) => ({
        calibrated: text(calibrated),
        certificate: text(certificate),
        temperature: text(bag(point)["temperature"]),
        correction: typedFrom(bag(point)["correction"], unit, sign),
      }));
    }),
    others: Object.fromEntries(Object.entries(document).filter(([name]) => !KNOWN.has(name))),
  };
}
