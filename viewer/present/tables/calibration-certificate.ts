import type { CalibrationFit, CalibrationResult, ItemFields } from "../../../models/index.ts";
import type { Certificate } from "../certificate/certificate.ts";
import type { StatedFigure, StatedPoint } from "../certificate/stated-point.ts";
import { chanceText, leastOfTrials } from "../chance.ts";
import { fillText } from "../fill.ts";
import { decimalsFor, overUnit, type Numbers } from "../numbers.ts";
import { labelOf } from "../pictures/label.ts";
import type { Speech } from "../statement.ts";
import { statedLimit } from "./conformity.ts";
import type { Column, Table } from "./table.ts";

const CELSIUS = { unit: overUnit("", "°C") };
const text = ({ value, places }: StatedFigure, numbers: Numbers): string => numbers.fixed(value, places);

const numberColumn = (label: string, symbol: string, unit = CELSIUS.unit): Column => ({
  head: labelOf(label, { [symbol]: { symbol }, unit }),
  kind: "number",
});

/** The points with what a certificate states at each (ISO/IEC 17025:2017, 7.8.2.1 m and 7.8.4.1 a). */
export function statedPointsTable(
  { points, coverageProbability }: Pick<Certificate, "points" | "coverageProbability">,
  speech: Speech,
): Table {
  const { messages, numbers } = speech;
  const words = messages.calibration;
  const own = messages.calibrationCertificate;
  const uncertaintyOf = ({ uncertainty }: StatedPoint): readonly [U: string, k: string] => {
    if (uncertainty.kind === "expanded") return [text(uncertainty.U, numbers), text(uncertainty.k, numbers)];
    if (uncertainty.kind === "open") return [own.openPoint, messages.none];
    return [numbers.interval([text(uncertainty.low, numbers), text(uncertainty.high, numbers)]), messages.none];
  };
  const whereOf = ({ bath, direction, exchanged }: StatedPoint["point"]): string => {
    const place = direction === null ? bath : fillText(words[direction], { bath });
    return exchanged ? fillText(words.exchanged, { place }) : place;
  };
  return {
    caption: fillText(own.resultsTable, { p: numbers.probability(coverageProbability) }),
    columns: [
      { head: words.number, kind: "head" },
      numberColumn(words.nominal, "t"),
      numberColumn(words.temperature, "t"),
      numberColumn(words.resistance, "R", overUnit("", "Ω")),
      numberColumn(own.error, "e"),
      numberColumn(own.uncertainty, "U"),
      { head: labelOf(words.factor, { k: { symbol: "k" } }), kind: "number" },
      { head: words.where, kind: "text" },
    ],
    rows: points.map((stated) => ({
      head: numbers.whole(stated.point.number),
      cells: [
        numbers.plain(stated.point.nominal),
        text(stated.temperature, numbers),
        text(stated.resistance, numbers),
        stated.uncertainty.kind === "open" ? messages.none : text(stated.error, numbers),
        ...uncertaintyOf(stated),
        whereOf(stated.point),
      ],
    })),
  };
}

/** Results before an adjustment or a repair (7.8.4.1 d); no rows without any. */
export function beforeTable(before: ItemFields["before"], coverageProbability: number, speech: Speech): Table {
  const { messages, numbers } = speech;
  const own = messages.calibrationCertificate;
  return {
    caption: fillText(own.before, { p: numbers.probability(coverageProbability) }),
    columns: [
      { head: labelOf(messages.calibration.at, { t: { symbol: "t" }, ...CELSIUS }), kind: "head" },
      numberColumn(own.error, "e"),
      numberColumn(own.uncertainty, "U"),
    ],
    rows: before.map(({ temperature, error, expandedUncertainty }) => {
      const places = Math.max(0, decimalsFor(expandedUncertainty, 2));
      return {
        head: numbers.plain(temperature),
        cells: [numbers.fixed(error, places), numbers.fixed(expandedUncertainty, places)],
      };
    }),
  };
}

/** Decision at each point with its tolerance and the probability of conformity (7.8.4.1 e, 7.8.6). */
export function statedConformityTable({ points, result }: Certificate, speech: Speech): Table {
  const { messages, numbers, translate } = speech;
  const words = messages.calibration;
  const own = messages.calibrationCertificate;
  return {
    caption: own.conformity,
    columns: [
      { head: words.number, kind: "head" },
      numberColumn(words.nominal, "t"),
      { head: own.specification, kind: "text" },
      { head: fillText(words.limits, CELSIUS), kind: "text" },
      { head: own.probability, kind: "number" },
      { head: words.decision, kind: "text" },
    ],
    rows: points.flatMap(({ point: { number, nominal, conformity } }) => {
      if (conformity === null) return [];
      const { lower, upper, basis, probability, decision } = conformity;
      const least = leastOfTrials(result.trials);
      return [
        {
          head: numbers.whole(number),
          cells: [
            numbers.plain(nominal),
            basis === null ? messages.none : translate(basis),
            numbers.interval([
              lower === null ? "−∞" : statedLimit(lower, numbers),
              upper === null ? "∞" : statedLimit(upper, numbers),
            ]),
            chanceText({ value: probability, rest: 1 - probability, least }, numbers),
            own[decision],
          ],
        },
      ];
    }),
  };
}

/** Steps of the table between the points: eleven rows whatever the range. */
const ROWS = 10;

/** The curve by the coefficients with its half-width, at even steps between the points. */
export function betweenTable(
  { band }: CalibrationFit,
  { coverageProbability }: CalibrationResult,
  speech: Speech,
): Table {
  const { messages, numbers } = speech;
  const words = messages.calibration;
  const places = Math.max(0, decimalsFor(Math.min(...band.map(({ halfWidth }) => halfWidth)), 2));
  const step = Math.max(1, Math.round((band.length - 1) / ROWS));
  return {
    caption: fillText(words.band, { p: numbers.probability(coverageProbability) }),
    columns: [
      { head: labelOf(words.at, { t: { symbol: "t" }, ...CELSIUS }), kind: "head" },
      numberColumn(words.error, "e"),
      { head: fillText(words.halfWidth, CELSIUS), kind: "number" },
    ],
    rows: band
      .filter((_, i) => i % step === 0)
      .map(({ at, error, interval }) => ({
        head: numbers.fixed(at, 1),
        cells: [
          numbers.fixed(error, places),
          numbers.fixed(Math.max(interval[1] - error, error - interval[0]), places),
        ],
      })),
  };
}
