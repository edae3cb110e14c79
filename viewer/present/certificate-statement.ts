import type { RunRecord } from "../../engine/index.ts";
import { fillText } from "./fill.ts";
import { decimalsFor, plusMinus, withUnit } from "./numbers.ts";
import { labelOf } from "./pictures/label.ts";
import type { Label } from "./pictures/scene.ts";
import { placesOfResult, type Readable } from "./readable.ts";
import type { Speech } from "./statement.ts";
import { toReport, type ToReport } from "./to-report.ts";

/** Decimal places of a result with this expanded uncertainty: two significant digits, or those that the reader chose. */
const placesFor = (measurand: Readable, found: ToReport, digits: 1 | 2): number =>
  found.kind === "linear" && found.expandedUncertainty > 0
    ? decimalsFor(found.expandedUncertainty, digits)
    : placesOfResult(measurand, digits);

/** "(−9.1 ± 9.9) mK", or the interval: the result alone, as `toReport` decides it; `null` if none is to be stated yet. */
export function resultToReport(
  measurand: Readable,
  { coverage }: Pick<RunRecord, "coverage">,
  { numbers }: Speech,
  digits: 1 | 2 = 2,
): string | null {
  const found = toReport(measurand);
  const places = placesFor(measurand, found, digits);
  const { linear, monteCarlo, unit } = measurand;
  const at = (value: number): string => numbers.fixed(value, places);
  if (found.kind === "open") return null;
  if (found.kind === "linear") return plusMinus(at(linear.estimate), at(found.expandedUncertainty), unit);
  const [low, high] = monteCarlo.intervals[coverage.interval];
  return numbers.range(at(low), at(high), unit);
}

/**
 * What to write on a certificate, in the form of JCGM 100, 7.2.2 to 7.2.4: the result, U, k and the coverage probability; or,
 * if the trials' interval is to be stated, that interval with its probability.
 */
export function certificateStatement(
  measurand: Readable,
  record: Pick<RunRecord, "coverage">,
  speech: Speech,
  digits: 1 | 2 = 2,
): Label {
  const { messages, numbers } = speech;
  const words = messages.toReport;
  const { symbol, linear, monteCarlo, unit } = measurand;
  const found = toReport(measurand);
  const result = resultToReport(measurand, record, speech, digits);
  if (found.kind === "open" || result === null) return words.open;
  const y = { symbol };
  const p = numbers.probability(record.coverage.probability);
  if (found.kind === "monteCarlo") {
    const { standardUncertainty: u, estimate } = monteCarlo;
    const about =
      u === null || estimate === null
        ? ""
        : fillText(words.about, {
            estimate: withUnit(numbers.fixed(estimate, placesFor(measurand, found, digits)), unit),
            u: withUnit(numbers.fixed(u, decimalsFor(u, 2)), unit),
          });
    return labelOf(words.monteCarlo, { y, range: result, p, about });
  }
  const ν = linear.effectiveDegreesOfFreedom;
  const symbols = { y, U: { symbol: "U" }, k: { symbol: "k" }, u: { symbol: "u" } };
  const k = numbers.fixed(found.coverageFactor, 2);
  if (found.fitted) return labelOf(words.fitted, { ...symbols, result, p, kValue: k });
  const fixedFactor = record.coverage.custom === "factor";
  return labelOf(fixedFactor || ν === null ? words.linear : words.linearWithFreedom, {
    ...symbols,
    result,
    p,
    kValue: k,
    nu: numbers.freedom(ν),
  });
}
