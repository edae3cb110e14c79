import { elementary, refuse, type ReportedRecord } from "../../engine/index.ts";
import { decimalsFor } from "../../engine/internal.ts";
import { judgeBath } from "../safety/cautions.ts";
import { fluidOf, type BathFluid } from "../safety/fluids.ts";
import type { SweepDocument, SweepRange } from "./document.ts";

/** What a laboratory can claim at one point. */
export interface CapabilityPoint {
  readonly at: number;
  /** Expanded uncertainty by the linear budget. */
  readonly linear: number;
  /** Greatest distance of the distribution's interval from the estimate of the budget. */
  readonly distribution: number;
  readonly standing: "validated" | "notValidated" | "undecided";
}

/** U = a + b·t, or one step: never below a point. `slope` 0 for a step. */
export interface Envelope {
  readonly constant: number;
  readonly slope: number;
  /** Decimal places of both as they are stated. */
  readonly places: readonly [constant: number, slope: number];
}

export interface CapabilityRange {
  readonly name: string;
  readonly from: number;
  readonly to: number;
  readonly points: readonly CapabilityPoint[];
  readonly largestLinear: number;
  readonly largestDistribution: number;
  readonly worst: CapabilityPoint["standing"];
  readonly line: Envelope;
  readonly step: Envelope;
  readonly safety: {
    readonly fluid: Pick<BathFluid, "kind" | "title" | "viscosity"> | null;
    /** Usable range of the fluid, stated or usual, °C. */
    readonly usable: readonly [number, number] | null;
    /** Stated closed-cup flash point and the margin kept below it, °C. */
    readonly flashPoint: number | null;
    readonly margin: number | null;
    readonly cutOut: number | null;
    /** Stated kinematic viscosity at the coldest set temperature, mm²/s. */
    readonly viscosity: number | null;
    readonly warnings: readonly string[];
    readonly cautions: readonly string[];
  };
}

export interface Capability {
  readonly quantity: string;
  readonly unit: string;
  readonly measurand: string;
  readonly measurandUnit: string;
  readonly probability: number;
  readonly ranges: readonly CapabilityRange[];
}

/**
 * The laboratory's capability over the parts of a range, from the record of its sweep.
 *
 * @throws {InputError} a sweep without parts, or over two quantities
 */
export function capabilityOf(sweep: SweepDocument, record: ReportedRecord): Capability {
  if (sweep.ranges.length === 0)
    return refuse("ranges", "none", "the parts of the range: a bath or a fluid each, with from and to");
  if (sweep.over.length > 1) return refuse("over", "two quantities", "one: the temperature of the baths");
  const [name, { unit }] = Object.entries(record.measurands)[0]!;
  return {
    quantity: record.sweep!.quantity,
    unit: record.sweep!.unit,
    measurand: name,
    measurandUnit: unit,
    probability: record.coverage.probability,
    ranges: sweep.ranges.map((range, i) => rangeOf(range, i, name, record)),
  };
}

function rangeOf(range: SweepRange, i: number, measurand: string, record: ReportedRecord): CapabilityRange {
  const points = record
    .sweep!.points.filter(({ part }) => part === range.name)
    .map(({ at, measurands }): CapabilityPoint => {
      const { linear, monteCarlo, validated, firm } = measurands[measurand]!;
      const [low, high] = monteCarlo.interval;
      return {
        at,
        linear: linear.expandedUncertainty,
        distribution: Math.max(high - linear.estimate, linear.estimate - low),
        standing: firm === false ? "undecided" : validated ? "validated" : "notValidated",
      };
    });
  const claimed = points.map(({ at, linear, distribution }) => [at, Math.max(linear, distribution)] as const);
  return {
    name: range.name,
    from: range.from,
    to: range.to,
    points,
    largestLinear: Math.max(...points.map(({ linear }) => linear)),
    largestDistribution: Math.max(...points.map(({ distribution }) => distribution)),
    worst:
      (["notValidated", "undecided"] as const).find((standing) =>
        points.some((point) => point.standing === standing),
      ) ?? "validated",
    line: lineAbove(claimed),
    step: stepAbove(claimed),
    safety: safetyOf(range, i),
  };
}

/** A number rounded up to decimal places, never below what was given. */
export function roundedUp(value: number, places: number): number {
  const unit = Number(`1e${-places}`);
  const at = (figure: number): number =>
    places >= 0 ? Number(figure.toFixed(places)) : Math.round(figure / unit) * unit;
  const near = at(value);
  return near >= value ? near : at(near + unit);
}

type Point = readonly [at: number, U: number];

/** The largest U, rounded up to two digits. */
export function stepAbove(points: readonly Point[]): Envelope {
  const most = Math.max(...points.map(([, U]) => U));
  const places = decimalsFor(most, 2);
  return { constant: roundedUp(most, places), slope: 0, places: [places, 0] };
}

/**
 * The straight line above all points that claims least: of those through two points, the one with the least sum over the
 * points. Slope and constant are rounded to two digits of the smallest U, the constant up until no point lies above.
 */
export function lineAbove(points: readonly Point[]): Envelope {
  const least = Math.min(...points.map(([, U]) => U));
  const reach = Math.max(...points.map(([at]) => Math.abs(at)), 1);
  const places = decimalsFor(least, 2);
  // So fine that the rounded slope moves the line by less than a tenth of its last place over the whole range.
  const slopePlaces = Math.max(0, places + Math.ceil(elementary.log10(reach)) + 1);
  let best: { readonly slope: number; readonly cost: number } = { slope: 0, cost: Infinity };
  const slopes = [0, ...points.flatMap(([x, y], i) => points.slice(i + 1).map(([u, v]) => (v - y) / (u - x)))];
  for (const slope of slopes.filter(Number.isFinite)) {
    const constant = Math.max(...points.map(([at, U]) => U - slope * at));
    const cost = points.reduce((sum, [at, U]) => sum + constant + slope * at - U, 0);
    if (cost < best.cost - 1e-15) best = { slope, cost };
  }
  // 0 − 0 rather than −0, which would be printed with a sign.
  const slope = 0 + Number(best.slope.toFixed(slopePlaces));
  let constant = roundedUp(Math.max(...points.map(([at, U]) => U - slope * at)), places);
  // What a reader computes from the rounded figures decides, not the figures before rounding.
  while (points.some(([at, U]) => constant + slope * at < U))
    constant = roundedUp(constant + Number(`1e${-places - 3}`), places);
  return { constant, slope, places: [places, slopePlaces] };
}

/** The envelope at a point. */
export const envelopeAt = ({ constant, slope }: Envelope, at: number): number => constant + slope * at;

/** Warnings and cautions of all baths of a range, each once. @throws {InputError} a bath that cannot be used */
export function safetyOfRanges({ ranges }: SweepDocument): {
  readonly warnings: readonly string[];
  readonly cautions: readonly string[];
} {
  const each = ranges.map(safetyOf);
  return {
    warnings: [...new Set(each.flatMap(({ warnings }) => warnings))],
    cautions: [...new Set(each.flatMap(({ cautions }) => cautions))],
  };
}

function safetyOf({ bath, from, to }: SweepRange, i: number): CapabilityRange["safety"] {
  const stated = (bath ?? {}) as Readonly<Record<string, unknown>>;
  const judged = [from, to].map((setTemperature) => judgeBath({ ...stated, setTemperature }, `ranges.${i}.bath`));
  const fluid = typeof stated["fluid"] === "string" ? (fluidOf(stated["fluid"]) ?? null) : null;
  const number = (field: string): number | null => (typeof stated[field] === "number" ? stated[field] : null);
  return {
    fluid: fluid === null ? null : { kind: fluid.kind, title: fluid.title, viscosity: fluid.viscosity },
    usable: (stated["usableRange"] as readonly [number, number] | undefined) ?? fluid?.usable ?? null,
    flashPoint: number("flashPoint"),
    margin: number("flashPoint") === null ? null : (number("flashPointMargin") ?? USUAL_MARGIN),
    cutOut: number("overTemperatureCutOut"),
    viscosity: number("viscosity"),
    warnings: [...new Set(judged.flatMap(({ warnings }) => warnings))],
    cautions: [...new Set(judged.flatMap(({ cautions }) => cautions))],
  };
}

/** Least distance from cut-out to flash point where none is stated, K (that of the safety judgement). */
const USUAL_MARGIN = 10;
