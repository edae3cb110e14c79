import type { StabilityWindow, SurveyEvaluation } from "../../../models/index.ts";
import { fillText } from "../fill.ts";
import type { Messages } from "../messages/messages.ts";
import { overUnit, type Numbers } from "../numbers.ts";
import { labelOf } from "../pictures/label.ts";
import type { Speech } from "../statement.ts";
import { duration, inMilli, millimetres, moment } from "../survey-figures.ts";
import type { Column, Row, Table } from "./table.ts";

/** Three digits behind the decimal sign of a mK still show what a good bath does. */
const PLACES = 3;
const mK = (kelvin: number, numbers: Numbers): string => inMilli(kelvin, PLACES, numbers);

type Found = SurveyEvaluation["map"];
/** Infinite degrees of freedom arrive as `null` where an evaluation was sent. */
type Sent<T> = Omit<T, "degreesOfFreedom"> & { readonly degreesOfFreedom: number | null };
type Comparison = Sent<Found["comparisons"][number]>;

interface Mapped {
  readonly map: {
    readonly reference: Pick<Found["reference"], "position" | "depth" | "radius">;
    readonly points: readonly Sent<Found["points"][number]>[];
    readonly comparisons: readonly Comparison[];
  };
}

type AxisEvaluation = Pick<NonNullable<SurveyEvaluation["axial"]>, "axis" | "zone" | "limits" | "quantity" | "smaller">;

interface Axes {
  readonly axial: AxisEvaluation | null;
  readonly radial: AxisEvaluation | null;
}

const number = (head: Column["head"]): Column => ({ head, kind: "number" });
const text = (head: Column["head"]): Column => ({ head, kind: "text" });

/** The worst and the quietest window, and the whole stay. */
export function windowsTable({ stability, stay }: Pick<SurveyEvaluation, "stability" | "stay">, speech: Speech): Table {
  const { messages, numbers } = speech;
  const words = messages.survey;
  const s = { s: { symbol: "s" } };
  const { window, windows, worst, best, whole } = stability;
  const row = (head: string, found: StabilityWindow): Row => ({
    head,
    cells: [
      moment(found.from, numbers),
      numbers.whole(found.samples),
      mK(found.halfRange, numbers),
      mK(found.standardDeviation, numbers),
      mK(3600 * found.slope, numbers),
      mK(found.fluctuation, numbers),
    ],
  });
  return {
    caption: labelOf(words.windows, {
      thermometer: stay.thermometer,
      position: stay.position,
      time: duration(stay.to - stay.from, numbers),
    }),
    columns: [
      { head: words.window, kind: "head" },
      text(words.begins),
      number(words.readings),
      number(words.halfRange),
      number(labelOf(words.deviation, s)),
      number(words.drift),
      number(labelOf(words.aboutDrift, s)),
    ],
    rows: [
      row(fillText(words.worst, { time: duration(window, numbers), count: numbers.whole(windows) }), worst),
      row(fillText(words.quietest, { time: duration(window, numbers) }), best),
      row(words.whole, whole),
    ],
  };
}

/** How much means over a time differ from one to the next. */
export function allanTable({ stability }: Pick<SurveyEvaluation, "stability">, { messages, numbers }: Speech): Table {
  const words = messages.survey;
  return {
    caption: words.allan,
    columns: [
      { head: words.averagedOver, kind: "head" },
      number(words.readings),
      number(words.allanDeviation),
      number(words.differences),
    ],
    rows: stability.allan.map(({ time, averaged, deviation, differences }): Row => ({
      head: duration(time, numbers),
      cells: [numbers.whole(averaged), inMilli(deviation, PLACES + 1, numbers), numbers.whole(differences)],
    })),
  };
}

/** How a comparison was made: which thermometers, and in which steps. */
const methodText = ({ method, pair, steps }: Comparison, { survey: words, and }: Messages): string =>
  fillText(method === "swapped" ? words.swapping : words.moving, {
    pair: pair.join(and),
    steps: steps.map((step) => step + 1).join(and),
  });

/** Every position against the reference position, and how its difference was found. */
export function pointsTable({ map }: Mapped, { messages, numbers }: Speech): Table {
  const words = messages.survey;
  const { reference } = map;
  return {
    caption: fillText(words.points, {
      reference: reference.position,
      depth: millimetres(reference.depth, numbers),
      radius: millimetres(reference.radius, numbers),
    }),
    columns: [
      { head: words.position, kind: "head" },
      number(overUnit(words.depth, "mm")),
      number(overUnit(words.radius, "mm")),
      { ...text(words.direction), fine: true },
      number(words.difference),
      number(labelOf(words.uncertainty, { u: { symbol: "u" } })),
      number(labelOf(words.freedom, { nu: { symbol: "ν" } })),
      text(words.foundBy),
    ],
    rows: map.points
      .filter(({ position }) => position !== reference.position)
      .map((point): Row => ({
        head: point.position,
        cells: [
          numbers.plain(point.depth),
          numbers.plain(point.radius),
          point.direction === null ? messages.notApplicable : String(point.direction),
          mK(point.difference, numbers),
          mK(point.standardUncertainty, numbers),
          numbers.freedom(point.degreesOfFreedom),
          map.comparisons
            .filter(({ position }) => position === point.position)
            .map((comparison) => methodText(comparison, messages))
            .join("; "),
        ],
      })),
  };
}

/** Every comparison by itself. */
export function comparisonsTable({ map }: Mapped, { messages, numbers }: Speech): Table {
  const words = messages.survey;
  return {
    caption: words.comparisons,
    columns: [
      { head: words.position, kind: "head" },
      number(words.difference),
      number(words.offset),
      number(labelOf(words.uncertaintyOfEither, { u: { symbol: "u" } })),
      number(labelOf(words.freedom, { nu: { symbol: "ν" } })),
      text(words.foundBy),
    ],
    rows: map.comparisons.map((comparison): Row => ({
      head: comparison.position,
      cells: [
        mK(comparison.difference, numbers),
        mK(comparison.offset, numbers),
        mK(comparison.standardUncertainty, numbers),
        numbers.freedom(comparison.degreesOfFreedom),
        methodText(comparison, messages),
      ],
    })),
  };
}

/** The offset of each pair of thermometers by each determination. */
export function offsetsTable({ map }: Pick<SurveyEvaluation, "map">, { messages, numbers }: Speech): Table {
  const words = messages.survey;
  return {
    caption: words.offsets,
    columns: [
      { head: words.pair, kind: "head" },
      number(words.offset),
      number(labelOf(words.uncertainty, { u: { symbol: "u" } })),
      text(words.from),
    ],
    rows: map.offsets.map(({ pair, offset, standardUncertainty, from }): Row => ({
      head: pair.join(" − "),
      cells: [mK(offset, numbers), mK(standardUncertainty, numbers), from],
    })),
  };
}

const axesOf = ({ axial, radial }: Axes): readonly AxisEvaluation[] => [axial, radial].filter((axis) => axis !== null);

/** "depths 50 mm to 300 mm". */
export const zoneText = (
  axis: AxisEvaluation["axis"],
  [from, to]: readonly [number, number],
  { messages: { survey: words }, numbers }: Pick<Speech, "messages" | "numbers">,
): string =>
  fillText(axis === "axial" ? words.depths : words.radii, {
    from: millimetres(from, numbers),
    to: millimetres(to, numbers),
  });

/** The differences over the zone chosen, and the half-width that follows. */
export function zonesTable(evaluation: Axes, speech: Speech): Table {
  const { messages, numbers } = speech;
  const words = messages.survey;
  return {
    caption: words.zones,
    columns: [
      { head: words.direct, kind: "head" },
      text(words.zoneHead),
      number(words.lowest),
      number(words.highest),
      number(words.halfWidth),
      number(words.about),
      number(labelOf(words.largestUncertainty, { u: { symbol: "u" } })),
    ],
    rows: axesOf(evaluation).map(({ axis, zone, limits, quantity }): Row => ({
      head: words[axis],
      cells: [
        zoneText(axis, zone, speech),
        mK(limits.lowest, numbers),
        mK(limits.highest, numbers),
        mK(quantity.halfWidth, numbers),
        mK(quantity.estimate, numbers),
        mK(limits.noise, numbers),
      ],
    })),
  };
}

/** The zone chosen and smaller ones: what is left of each half-width, and what is gained. */
export function smallerTable(evaluation: Axes, speech: Speech): Table {
  const { messages, numbers } = speech;
  const words = messages.survey;
  return {
    caption: words.smaller,
    columns: [{ head: words.zoneHead, kind: "head" }, number(words.halfWidth), number(words.gain)],
    rows: axesOf(evaluation).flatMap(({ axis, zone, quantity, smaller }): Row[] => [
      { head: zoneText(axis, zone, speech), asked: true, cells: [mK(quantity.halfWidth, numbers), words.chosen] },
      ...smaller.map(({ from, to, halfWidth, gain }): Row => ({
        head: zoneText(axis, [from, to], speech),
        cells: [mK(halfWidth, numbers), mK(gain, numbers)],
      })),
    ]),
  };
}
