import type { InputRecord, RunRecord } from "../../../engine/index.ts";
import { unitsFor } from "../../present/units.ts";
import { HALF_WIDTHS, hasWidth, MOST_WIDTH, type Kind } from "./study-change.ts";

/** The figure by which the width of an input is stated. */
export interface WidthFigure {
  readonly name: "halfWidth" | "expanded" | "standard";
  /** As stated, in the input's own unit; greater than 0. */
  readonly value: number;
}

type Fields = Readonly<Record<string, unknown>>;

const isHalfWidth = (kind: unknown): kind is keyof typeof HALF_WIDTHS =>
  typeof kind === "string" && Object.hasOwn(HALF_WIDTHS, kind);

/** The figure of an input as it is stated, or of another distribution with its standard uncertainty. */
export function widthFigure({ inputs, study }: RunRecord, name: string, kind: Kind): WidthFigure {
  const { standardUncertainty: u } = inputs[name]!;
  const stated: Fields = study.inputs[name]!;
  const distribution = kind === "stated" ? stated.distribution : kind;
  if (kind === "stated" && typeof stated.expandedUncertainty === "number")
    return { name: "expanded", value: stated.expandedUncertainty };
  const { halfWidth, lower, upper, standardUncertainty } = kind === "stated" ? stated : {};
  if (isHalfWidth(distribution)) {
    if (typeof halfWidth === "number") return { name: "halfWidth", value: halfWidth };
    if (typeof lower === "number" && typeof upper === "number")
      return { name: "halfWidth", value: upper / 2 - lower / 2 };
    return { name: "halfWidth", value: HALF_WIDTHS[distribution] * u };
  }
  return { name: "standard", value: typeof standardUncertainty === "number" ? standardUncertainty : u };
}

const NUMBER = String.raw`(\d+(?:[.,]\d*)?(?:e[+-]?\d+)?|[.,]\d+)`;
const FACTOR = new RegExp(`^[×x*·]\\s*${NUMBER}$`, "iu");
const PERCENT = new RegExp(`^([+−–-]?)\\s*${NUMBER}\\s*%$`, "iu");
const VALUE = new RegExp(`^${NUMBER}\\s*(\\S*)$`, "iu");
const numberOf = (text: string): number => Number(text.replace(",", "."));

/** What was typed for a width: a factor of the stated one, or why it is none. */
export type ReadWidth =
  | { readonly width: number }
  | { readonly wrong: "nothing read" | "unit" | "too wide" | "no single width"; readonly units: readonly string[] };

/**
 * Reads a width: a figure with its unit or in the input's own ("4 mK", "0,004"), a factor ("×1.2") or a change in percent
 * ("+10 %"); nothing for the width as stated, 0 for an input that is exactly known.
 */
export function readWidth(text: string, record: RunRecord, name: string, kind: Kind): ReadWidth {
  const input = record.inputs[name]!;
  const offers = unitsOfWidth(input);
  const units = offers.map(({ unit }) => unit);
  const width = widthIn(text.trim().replaceAll(/[\u00a0\u202f]/g, " "), widthFigure(record, name, kind).value, offers);
  if (typeof width !== "number") return { wrong: width, units };
  if (!(width <= MOST_WIDTH)) return { wrong: "too wide", units };
  if (kind === "stated" && width !== 0 && width !== 1 && !hasWidth(record.study.inputs[name]!))
    return { wrong: "no single width", units };
  return { width };
}

function widthIn(
  text: string,
  stated: number,
  offers: readonly { readonly unit: string; readonly factor: number }[],
): number | "nothing read" | "unit" {
  if (text === "") return 1;
  const factor = FACTOR.exec(text);
  if (factor !== null) return numberOf(factor[1]!);
  const percent = PERCENT.exec(text);
  if (percent !== null) {
    const part = numberOf(percent[2]!) / 100;
    if (percent[1] === "") return part;
    return percent[1] === "+" ? 1 + part : part <= 1 ? 1 - part : "nothing read";
  }
  const value = VALUE.exec(text);
  if (value === null) return "nothing read";
  const offer = value[2] === "" ? offers[0]! : offers.find(({ unit }) => unit === value[2]!.replace("µ", "µ"));
  return offer === undefined ? "unit" : numberOf(value[1]!) / offer.factor / stated;
}

/** The units a width may be typed in, the input's own first: a width is a difference, which °C and K have alike. */
function unitsOfWidth(input: InputRecord): readonly { readonly unit: string; readonly factor: number }[] {
  const offers = unitsFor({ ...input, difference: true });
  const kelvin = offers.find(({ unit }) => unit === "K");
  return kelvin === undefined || offers.some(({ unit }) => unit === "°C")
    ? offers
    : [...offers, { ...kelvin, unit: "°C" }];
}
