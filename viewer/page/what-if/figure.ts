import type { InputRecord, RunRecord } from "../../../engine/index.ts";
import { unitsFor } from "../../present/units.ts";
import {
  canMove,
  FEWEST_FREEDOM,
  HALF_WIDTHS,
  hasWidth,
  MOST_WIDTH,
  ownUnit,
  statedFreedom,
  takesFreedom,
  type Kind,
} from "./study-change.ts";

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
  const { standardUncertainty: u, unit } = inputs[name]!;
  const stated: Fields = study.inputs[name]!;
  // Figures of a statement in a unit of its own are told by what they are in the input's.
  if (kind === "stated" && ownUnit(stated, unit)) {
    const { distribution, expandedUncertainty, coverageFactor: k } = stated;
    if (typeof expandedUncertainty === "number" && typeof k === "number") return { name: "expanded", value: k * u };
    if (isHalfWidth(distribution)) return { name: "halfWidth", value: HALF_WIDTHS[distribution] * u };
    return { name: "standard", value: u };
  }
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
const spaced = (text: string): string => text.trim().replaceAll(/[\u00a0\u202f]/g, " ");
const unitIn = (text: string): string => text.replace("µ", "μ");

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
  const width = widthIn(spaced(text), widthFigure(record, name, kind).value, offers);
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
  const offer = value[2] === "" ? offers[0]! : offers.find(({ unit }) => unitIn(unit) === unitIn(value[2]!));
  return offer === undefined ? "unit" : numberOf(value[1]!) / offer.factor / stated;
}

/** What was typed for an estimate (`null` as stated), or why it is none. */
export type ReadEstimate =
  | { readonly estimate: number | null }
  | {
      readonly wrong: "nothing read" | "unit" | "not finite" | "no single estimate";
      readonly units: readonly string[];
    };

const CHANGE = new RegExp(`^([+−–-])\\s*${NUMBER}\\s*(\\S*)$`, "iu");
const FIGURE = new RegExp(`^=?\\s*([−–-]?)\\s*${NUMBER}\\s*(\\S*)$`, "iu");

/**
 * Reads an estimate: a figure with its unit or in the input's own ("100.02", "373.17 K"), a factor ("×1.2"), or what is
 * added to it, with its sign ("+0.5 mK", "−10 %"). A figure below zero begins with an equals sign ("=−0.5 mK"), since a
 * sign alone changes; nothing for the estimate as stated.
 */
export function readEstimate(text: string, record: RunRecord, name: string, kind: Kind): ReadEstimate {
  const input = record.inputs[name]!;
  const [places, steps] = [unitsFor(input), unitsOfWidth(input)];
  const wrong = (
    why: Extract<ReadEstimate, { readonly wrong: string }>["wrong"],
    offers: readonly { readonly unit: string }[] = places,
  ): ReadEstimate => ({
    wrong: why,
    units: offers.map(({ unit }) => unit),
  });
  const typed = spaced(text);
  if (typed === "") return { estimate: null };
  if (!canMove(record.study.inputs[name]!, kind, input)) return wrong("no single estimate");
  const taken = (estimate: number): ReadEstimate => (Number.isFinite(estimate) ? { estimate } : wrong("not finite"));
  const factor = FACTOR.exec(typed);
  if (factor !== null) return taken(tidy(input.estimate * numberOf(factor[1]!)));
  const change = CHANGE.exec(typed);
  if (change !== null) {
    const [, sign, figure, unit] = change as unknown as [string, string, string, string];
    const by = (sign === "+" ? 1 : -1) * numberOf(figure);
    if (unit === "%") return taken(tidy(input.estimate * (1 + by / 100)));
    const offer = unit === "" ? steps[0]! : steps.find((one) => unitIn(one.unit) === unitIn(unit));
    return offer === undefined ? wrong("unit", steps) : taken(tidy(input.estimate + by / offer.factor));
  }
  const figure = FIGURE.exec(typed);
  if (figure === null) return wrong("nothing read");
  const unit = figure[3]!;
  const offer = unit === "" ? places[0]! : places.find((one) => unitIn(one.unit) === unitIn(unit));
  if (offer === undefined) return wrong("unit");
  const value = (figure[1] === "" ? 1 : -1) * numberOf(figure[2]!);
  return taken(offer === places[0] ? value : tidy((value - offer.offset) / offer.factor));
}

/** Without the last bits that a sum of decimals leaves: fifteen digits, which every double keeps. */
const tidy = (value: number): number => Number(value.toPrecision(15));

/** What was typed for degrees of freedom (`null` as stated), or why it is none. */
export type ReadFreedom =
  | { readonly freedom: number | null }
  | { readonly wrong: "nothing read" | "infinite" | "none" };

/** Reads degrees of freedom: a number, "∞", a factor, or nothing for those stated. */
export function readFreedom(text: string, record: RunRecord, name: string, kind: Kind): ReadFreedom {
  const typed = spaced(text);
  if (typed === "") return { freedom: null };
  const statement = record.study.inputs[name]!;
  const stated = statedFreedom(statement, kind);
  if (stated === null) return { wrong: "none" };
  const factor = FACTOR.exec(typed);
  const freedom = /^(∞|inf(inity)?)$/i.test(typed)
    ? Infinity
    : factor !== null
      ? stated * numberOf(factor[1]!)
      : new RegExp(`^${NUMBER}$`, "iu").test(typed)
        ? numberOf(typed)
        : Number.NaN;
  if (!(freedom >= FEWEST_FREEDOM)) return { wrong: "nothing read" };
  return takesFreedom(statement, kind, freedom) ? { freedom } : { wrong: "infinite" };
}

/** The units a width may be typed in, the input's own first: a width is a difference, which °C and K have alike. */
function unitsOfWidth(input: InputRecord): readonly { readonly unit: string; readonly factor: number }[] {
  const offers = unitsFor({ ...input, difference: true });
  const kelvin = offers.find(({ unit }) => unit === "K");
  return kelvin === undefined || offers.some(({ unit }) => unit === "°C")
    ? offers
    : [...offers, { ...kelvin, unit: "°C" }];
}
