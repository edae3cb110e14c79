import type { Capability, CapabilityRange, Envelope } from "../../../models/index.ts";
import { fillText } from "../fill.ts";
import { decimalsFor, overUnit } from "../numbers.ts";
import { labelOf } from "../pictures/label.ts";
import { linesScene, type DrawnLine } from "../pictures/lines.ts";
import type { Label, Scene } from "../pictures/scene.ts";
import type { Speech } from "../statement.ts";
import { figureCell, type Table } from "./table.ts";

const U = { symbol: "U" };

/** Two digits of the smallest uncertainty of all parts. */
const placesOf = ({ ranges }: Capability): number =>
  Math.max(0, decimalsFor(Math.min(...ranges.flatMap(({ points }) => points.map(({ linear }) => linear))), 2));

/** "0.0098 + 0.000021 t", or one number. */
function envelopeText({ constant, slope, places }: Envelope, speech: Speech): string {
  const { numbers } = speech;
  const first = numbers.fixed(constant, places[0]);
  if (slope === 0) return first;
  return `${first} ${slope < 0 ? "−" : "+"} ${numbers.fixed(Math.abs(slope), places[1])} t`;
}

/** The claim of a laboratory by part of its range. */
export function capabilityTable(capability: Capability, speech: Speech): Table {
  const { messages, numbers } = speech;
  const words = messages.capability;
  const { ranges, unit, measurandUnit, probability } = capability;
  const places = placesOf(capability);
  const over = overUnit("", unit);
  return {
    caption: fillText(words.caption, { p: numbers.probability(probability), unit: measurandUnit }),
    columns: [
      { head: words.part, kind: "head" },
      { head: fillText(words.from, { unit: over }), kind: "number" },
      { head: fillText(words.to, { unit: over }), kind: "number" },
      { head: labelOf(words.linear, { U }), kind: "number" },
      { head: words.distribution, kind: "number" },
      { head: words.worst, kind: "text" },
      { head: words.step, kind: "number" },
      { head: labelOf(words.line, { t: { symbol: "t" } }), kind: "text" },
    ],
    rows: ranges.map(({ name, from, to, largestLinear, largestDistribution, worst, step, line }) => ({
      head: name,
      cells: [
        numbers.plain(from),
        numbers.plain(to),
        figureCell(numbers.fixed(largestLinear, places), largestLinear),
        figureCell(numbers.fixed(largestDistribution, places), largestDistribution),
        words[worst],
        figureCell(envelopeText(step, speech), step.constant),
        line.slope === 0 ? words.noLine : envelopeText(line, speech),
      ],
    })),
  };
}

/** Both methods at every point of a part, beside the claim there. */
export function capabilityPointsTable(capability: Capability, range: CapabilityRange, speech: Speech): Table {
  const { messages, numbers } = speech;
  const words = messages.capability;
  const places = placesOf(capability) + 1;
  const { constant, slope } = range.line;
  return {
    caption: labelOf(words.points, { U, part: range.name, unit: capability.measurandUnit }),
    columns: [
      { head: labelOf(words.at, { t: { symbol: "t" }, unit: overUnit("", capability.unit) }), kind: "head" },
      { head: labelOf(words.pointLinear, { U }), kind: "number" },
      { head: labelOf(words.pointDistribution, { U }), kind: "number" },
      { head: words.envelope, kind: "number" },
      { head: words.verdict, kind: "text" },
    ],
    rows: range.points.map(({ at, linear, distribution, standing }) => ({
      head: numbers.plain(at),
      cells: [
        figureCell(numbers.fixed(linear, places), linear),
        figureCell(numbers.fixed(distribution, places), distribution),
        figureCell(numbers.fixed(constant + slope * at, places), constant + slope * at),
        words[standing],
      ],
    })),
  };
}

/** Fluids with what bounds them: the usable range, and the flash point less its margin. */
export function fluidsTable({ ranges }: Capability, { messages, numbers, translate }: Speech): Table {
  const words = messages.capability;
  const stated = (value: number | null): string => (value === null ? words.notStated : numbers.plain(value));
  return {
    caption: words.safety,
    columns: [
      { head: words.part, kind: "head" },
      { head: words.fluid, kind: "text" },
      { head: words.usable, kind: "text" },
      { head: words.flash, kind: "number" },
      { head: words.limit, kind: "number" },
      { head: words.cutOut, kind: "number" },
      { head: words.viscosity, kind: "text" },
    ],
    rows: ranges.map(({ name, safety: { fluid, usable, flashPoint, margin, cutOut, viscosity } }) => ({
      head: name,
      cells: [
        fluid === null ? words.notStated : translate(fluid.title),
        usable === null ? words.notStated : numbers.interval([numbers.plain(usable[0]), numbers.plain(usable[1])]),
        stated(flashPoint),
        stated(flashPoint === null ? null : flashPoint - margin!),
        stated(cutOut),
        viscosity === null && fluid !== null && fluid.viscosity !== null
          ? fillText(words.byName, { value: numbers.plain(fluid.viscosity) })
          : stated(viscosity),
      ],
    })),
  };
}

/** Points and claims over the whole range. */
export function capabilityScene(
  { ranges, quantity, unit, measurandUnit }: Capability,
  size: { readonly width: number; readonly height: number },
  { messages, numbers }: Speech,
): Scene {
  const along = ({ constant, slope }: Envelope, { from, to }: CapabilityRange): (readonly [number, number])[] =>
    [from, to].map((t) => [t, constant + slope * t] as const);
  const left: Label = [U, overUnit("", measurandUnit)];
  return linesScene(
    {
      name: fillText(messages.capability.picture, { quantity }),
      titles: [overUnit(quantity, unit), left],
      lines: ranges.flatMap((range): DrawnLine[] => [
        { label: null, points: along(range.step, range), look: "limit", marked: false },
        { label: null, points: along(range.line, range), look: "linear-line", marked: false },
        {
          label: null,
          points: range.points.map(({ at, linear, distribution }) => [at, Math.max(linear, distribution)] as const),
          look: "trials-line",
          marked: true,
          apart: true,
        },
      ]),
      ...size,
      from: 0,
    },
    numbers,
  );
}
