import type { CalibratedPoint, CalibrationFit, CalibrationResult } from "../../../models/index.ts";
import { chanceText, leastOfTrials } from "../chance.ts";
import { fillText } from "../fill.ts";
import { decimalsFor, overUnit } from "../numbers.ts";
import { labelOf } from "../pictures/label.ts";
import type { Label } from "../pictures/scene.ts";
import type { Speech } from "../statement.ts";
import { statedLimit } from "./conformity.ts";
import type { Column, Row, Table } from "./table.ts";

/** Two significant digits of the smallest uncertainty of the points. */
const placesOf = ({ points }: CalibrationResult): number =>
  Math.max(0, decimalsFor(Math.min(...points.map(({ expandedUncertainty }) => expandedUncertainty)), 2));

/** Decimal places of a resistance: a tenth of what a temperature's last place moves it by, near 0.4 Ω/°C for a Pt100. */
const placesOfResistance = (result: CalibrationResult): number =>
  Math.max(0, placesOf(result) + 1 - Math.round(Math.log10(result.nominalResistance / 100)));

const unit = (of: string): string => overUnit("", of);

/** Where a point was measured: its bath, the direction it was reached from, exchanged places. */
function placeOf({ bath, direction, exchanged }: CalibratedPoint, { messages }: Speech): string {
  const words = messages.calibration;
  const place = direction === null ? bath : fillText(words[direction], { bath });
  return exchanged ? fillText(words.exchanged, { place }) : place;
}

/** Numbers of a record's own interval, at the places of the points. */
const intervalOf = (ends: readonly [number, number], places: number, { numbers }: Speech): string =>
  numbers.interval([numbers.fixed(ends[0], places), numbers.fixed(ends[1], places)]);

/** The points of a calibration: the table that its certificate prints. */
export function calibrationPointsTable(result: CalibrationResult, speech: Speech): Table {
  const { messages, numbers } = speech;
  const words = messages.calibration;
  const places = placesOf(result);
  const celsius = { t: { symbol: "t" }, unit: unit("°C") };
  return {
    caption: fillText(words.points, { p: numbers.probability(result.coverageProbability) }),
    columns: [
      { head: words.number, kind: "head" },
      { head: labelOf(words.nominal, celsius), kind: "number" },
      { head: labelOf(words.temperature, celsius), kind: "number" },
      { head: labelOf(words.resistance, { R: { symbol: "R" }, unit: unit("Ω") }), kind: "number" },
      { head: labelOf(words.error, { e: { symbol: "e" }, unit: unit("°C") }), kind: "number" },
      { head: labelOf(words.uncertainty, { U: { symbol: "U" }, unit: unit("°C") }), kind: "number" },
      { head: labelOf(words.factor, { k: { symbol: "k" } }), kind: "number" },
      { head: fillText(words.trials, { unit: unit("°C") }), kind: "text" },
      { head: words.verdict, kind: "text" },
      { head: words.where, kind: "text" },
    ],
    rows: result.points.map((point): Row => ({
      head: numbers.whole(point.number),
      cells: [
        numbers.plain(point.nominal),
        numbers.fixed(point.temperature, places),
        numbers.fixed(point.resistance, placesOfResistance(result)),
        numbers.fixed(point.error, places),
        numbers.fixed(point.expandedUncertainty, places),
        numbers.fixed(point.coverageFactor, 2),
        intervalOf(point.distributionInterval, places, speech),
        point.firm ? (point.validated ? words.validated : words.notValidated) : words.undecided,
        placeOf(point, speech),
      ],
    })),
  };
}

/** Tolerance, probability and decision at each point that has a tolerance. */
export function calibrationConformityTable(result: CalibrationResult, speech: Speech): Table {
  const { messages, numbers, translate } = speech;
  const words = messages.calibration;
  const places = placesOf(result);
  const least = leastOfTrials(result.trials);
  return {
    caption: words.conformity,
    columns: [
      { head: words.number, kind: "head" },
      { head: labelOf(words.error, { e: { symbol: "e" }, unit: unit("°C") }), kind: "number" },
      { head: fillText(words.limits, { unit: unit("°C") }), kind: "text" },
      { head: words.probability, kind: "number" },
      { head: words.decision, kind: "text" },
    ],
    rows: result.points.flatMap((point): Row[] => {
      const { conformity } = point;
      if (conformity === null) return [];
      const end = (value: number | null, sign: string): string =>
        value === null ? `${sign}∞` : statedLimit(value, numbers);
      return [
        {
          head: numbers.whole(point.number),
          ...(conformity.basis === null ? {} : { note: translate(conformity.basis) }),
          cells: [
            numbers.fixed(point.error, places),
            numbers.interval([end(conformity.lower, "−"), end(conformity.upper, "")]),
            chanceText({ value: conformity.probability, rest: 1 - conformity.probability, least }, numbers),
            words[conformity.decision],
          ],
        },
      ];
    }),
  };
}

/** Whether all points conform at once, as a sentence; `null` if that was not judged. */
export function wholeConformity({ conformity }: CalibrationResult, { messages, numbers }: Speech): string | null {
  if (conformity === null) return null;
  const { measurands, probability, standardError, ifIndependent, trials } = conformity;
  const chance = (value: number): string =>
    chanceText({ value, rest: 1 - value, least: leastOfTrials(trials) }, numbers);
  return fillText(messages.calibration.whole, {
    count: numbers.whole(measurands.length),
    probability: chance(probability),
    error: chance(standardError),
    product: chance(ifIndependent),
  });
}

/** A square of correlation coefficients; no rows for a single quantity. */
function squareTable(
  caption: string,
  heads: readonly Label[],
  matrix: readonly (readonly number[])[],
  { numbers }: Speech,
): Table {
  return {
    caption,
    columns: [{ head: "", kind: "head" }, ...heads.map((head): Column => ({ head, kind: "number" }))],
    rows: heads.length < 2 ? [] : heads.map((head, i) => ({ head, cells: matrix[i]!.map((r) => numbers.fixed(r, 3)) })),
  };
}

export const calibrationCorrelationTable = (result: CalibrationResult, speech: Speech): Table =>
  squareTable(
    speech.messages.calibration.correlation,
    result.points.map(({ number }) => [{ symbol: `e_${number}` }]),
    result.correlation,
    speech,
  );

const COEFFICIENTS: Readonly<Record<string, { readonly symbol: string; readonly unit: string }>> = {
  R0: { symbol: "R_0", unit: "Ω" },
  A: { symbol: "A", unit: "1/°C" },
  B: { symbol: "B", unit: "1/°C²" },
  C: { symbol: "C", unit: "1/°C⁴" },
  Rtp: { symbol: "R_tp", unit: "Ω" },
};

/** Those of ITS-90, a, b, c1, …, are numbers. */
const coefficientOf = (name: string): { readonly symbol: string; readonly unit: string } =>
  COEFFICIENTS[name] ?? { symbol: name.length === 1 ? name : `${name[0]!}_${name.slice(1)}`, unit: "1" };

const symbolOfCoefficient = (name: string): Label => [{ symbol: coefficientOf(name).symbol }];

/** Which scale the errors refer to, as a sentence. */
export function scaleSentence(
  { fit, nominalResistance }: CalibrationResult,
  { messages, numbers }: Speech,
  R0: string,
): string {
  const words = messages.calibration;
  const value = `${numbers.plain(nominalResistance)} Ω`;
  return (fit?.deviation ?? null) === null
    ? fillText(words.reference, { R0, value })
    : fillText(words.standardReference, { value });
}

/** The fitted coefficients with both standard uncertainties. */
export function coefficientTable({ coefficients, deviation }: CalibrationFit, speech: Speech): Table {
  const { messages, numbers } = speech;
  const words = messages.calibration;
  return {
    caption: labelOf(deviation === null ? words.coefficients : fillText(words.deviation, deviation), {}),
    columns: [
      { head: words.coefficient, kind: "head" },
      { head: words.value, kind: "text" },
      { head: labelOf(words.byBudget, { u: { symbol: "u" } }), kind: "text" },
      { head: labelOf(words.byTrials, { u: { symbol: "u" } }), kind: "text" },
      { head: words.unit, kind: "text" },
    ],
    rows: coefficients.map(({ name, estimate, standardUncertainty, distributionUncertainty }) => ({
      head: symbolOfCoefficient(name),
      cells: [
        numbers.significant(estimate, 8),
        numbers.significant(standardUncertainty, 3),
        distributionUncertainty === null ? messages.none : numbers.significant(distributionUncertainty, 3),
        coefficientOf(name).unit,
      ],
    })),
  };
}

export const coefficientCorrelationTable = (fit: CalibrationFit, speech: Speech): Table =>
  squareTable(
    speech.messages.calibration.covariance,
    fit.coefficients.map(({ name }) => symbolOfCoefficient(name)),
    fit.correlation,
    speech,
  );

/** Every how many of the band's arguments stand in the table. */
const STEP = 5;

/** The curve between the points with its half-width, and the one that independent points would claim. */
export function bandTable(result: CalibrationResult, { band }: CalibrationFit, speech: Speech): Table {
  const { messages, numbers } = speech;
  const words = messages.calibration;
  const places = placesOf(result);
  const over = { unit: unit("°C") };
  return {
    caption: fillText(words.band, { p: numbers.probability(result.coverageProbability) }),
    columns: [
      { head: labelOf(words.at, { t: { symbol: "t" }, ...over }), kind: "head" },
      { head: labelOf(words.error, { e: { symbol: "e" }, ...over }), kind: "number" },
      { head: fillText(words.halfWidth, over), kind: "number" },
      { head: fillText(words.trials, over), kind: "text" },
      { head: fillText(words.independent, over), kind: "number" },
    ],
    rows: band
      .filter((_, i) => i % STEP === 0)
      .map(({ at, error, halfWidth, interval, halfWidthIfIndependent }) => ({
        head: numbers.fixed(at, 1),
        cells: [
          numbers.fixed(error, places),
          numbers.fixed(halfWidth, places),
          intervalOf(interval, places, speech),
          numbers.fixed(halfWidthIfIndependent, places),
        ],
      })),
  };
}

/** How far the curve fits, and what independence would claim, as sentences. */
export function fitSentences(result: CalibrationResult, fit: CalibrationFit, { messages, numbers }: Speech): string[] {
  const words = messages.calibration;
  const largest = fit.residuals.reduce((most, r, i) => (Math.abs(r) > Math.abs(fit.residuals[most]!) ? i : most), 0);
  const [least, greatest] = fit.tooNarrow;
  const at = result.points.find(({ number }) => number === largest + 1);
  return [
    fit.probability === null
      ? words.noFreedom
      : fillText(words.lackOfFit, {
          chi: numbers.significant(fit.chiSquare, 3),
          freedom: numbers.whole(fit.degreesOfFreedom),
          p: numbers.significant(fit.probability, 2),
        }),
    ...(fit.probability !== null && fit.probability < POOR ? [words.poorFit] : []),
    ...(at === undefined || fit.probability === null
      ? []
      : [
          fillText(words.residuals, {
            value: `${numbers.fixed(fit.residuals[largest]!, placesOf(result))} °C`,
            t: `${numbers.plain(at.nominal)} °C`,
          }),
        ]),
    fillText(least >= 0 ? words.tooNarrow : greatest <= 0 ? words.tooWide : words.narrowAndWide, {
      least: numbers.percent(Math.abs(least), 0),
      greatest: numbers.percent(Math.abs(greatest), 0),
    }),
  ];
}

/** Below this probability of a greater χ² the points contradict the curve (5 %: the usual level of such a test). */
const POOR = 0.05;

/** Differences between points at one temperature; no rows if there are none. */
export function repeatTable(result: CalibrationResult, speech: Speech): Table {
  const { messages, numbers } = speech;
  const words = messages.calibration;
  const places = placesOf(result) + 1;
  const kinds = {
    directions: words.directions,
    exchanged: words.places,
    baths: words.betweenBaths,
    repeated: words.repeated,
  };
  return {
    caption: words.repeats,
    columns: [
      { head: words.between, kind: "head" },
      { head: labelOf(words.nominal, { t: { symbol: "t" }, unit: unit("°C") }), kind: "number" },
      { head: words.kindOf, kind: "text" },
      { head: fillText(words.difference, { unit: unit("°C") }), kind: "number" },
      { head: labelOf(words.differenceUncertainty, { u: { symbol: "u" }, unit: unit("°C") }), kind: "number" },
      { head: words.differs, kind: "text" },
    ],
    rows: result.repeats.map(({ between, nominal, kind, difference, standardUncertainty, differs }) => ({
      head: between.map((number) => numbers.whole(number)).join(", "),
      cells: [
        numbers.plain(nominal),
        kinds[kind],
        numbers.fixed(difference, places),
        numbers.fixed(standardUncertainty, places),
        differs ? words.yes : words.no,
      ],
    })),
  };
}

/** What a reader must know before the figures: two baths at one temperature, an error beyond belief. */
export function calibrationRemarks({ points }: CalibrationResult, { messages, numbers }: Speech): string[] {
  const words = messages.calibration;
  const celsius = (t: number): string => `${numbers.plain(Number(t.toPrecision(4)))} °C`;
  return [
    ...points.slice(1).flatMap((second, i) => {
      const first = points[i]!;
      return first.nominal !== second.nominal || first.bath === second.bath
        ? []
        : [
            fillText(words.twoBaths, {
              a: numbers.whole(first.number),
              b: numbers.whole(second.number),
              t: celsius(first.nominal),
              first: first.bath,
              second: second.bath,
            }),
          ];
    }),
    ...points
      .filter(({ error }) => Math.abs(error) > FAR)
      .map(({ number, error }) => fillText(words.farOff, { number: numbers.whole(number), error: celsius(error) })),
  ];
}

/** An error greater than that of class C at any temperature below 200 °C is a mistake rather than an error, °C. */
const FAR = 2.6;
