import type { MeasurandRecord, ReportedRecord } from "../../engine/index.ts";
import { dsiUnit } from "../../models/index.ts";
import { symbolText } from "../../viewer/present/symbol.ts";
import { toReport } from "../../viewer/present/to-report.ts";
import type { XMLBuilder } from "xmlbuilder2/lib/interfaces.js";
import { Fault } from "../errors.ts";
import { recordDigest } from "../record/open.ts";
import { xmlDocument, xmlText } from "./xml.ts";

export const DSI_TYPE = "application/xml";
const NAMESPACE = "https://ptb.de/si";

/**
 * The results of a record in D-SI (version 2.2), the open data model of quantities for digital certificates: a `si:list`
 * with a `si:realList` for each measurand, which has the linear budget with its expanded uncertainty, k, p and
 * distribution, and the coverage intervals of the trials. Labels name the method and which of them is to be reported, and
 * that of the list the study and the record's digest.
 *
 * @throws {Fault} `bad-input`: a measurand whose unit D-SI does not have
 */
export function dsiOf(record: ReportedRecord): string {
  const units = Object.entries(record.measurands).map(([name, { unit }]) => ({ name, unit, notation: dsiUnit(unit) }));
  const foreign = units.filter(({ notation }) => notation === null);
  if (foreign.length > 0)
    throw new Fault(
      "bad-input",
      "D-SI has no notation for the unit of a measurand.",
      foreign.map(({ name, unit }) => ({
        place: `measurands.${name}.unit`,
        value: unit,
        accepted: "a unit of the SI or one accepted with it, such as °C, mK or Ω (SI brochure, 9th edition)",
      })),
    );
  const root = xmlDocument().ele(NAMESPACE, "si:list");
  const { study, engine, environment } = record;
  element(root, "label", `${study.title}; record of ${engine.name} ${engine.version}, SHA-256 ${recordDigest(record)}`);
  if (environment !== undefined) element(root, "dateTime", environment.startedAt);
  units.forEach(({ name, notation }) => measurandList(root, record, record.measurands[name]!, notation!));
  return `${root.end({ prettyPrint: true })}\n`;
}

const element = (parent: XMLBuilder, name: string, content: string): void =>
  void parent.ele(NAMESPACE, `si:${name}`).txt(xmlText(content));

function measurandList(root: XMLBuilder, record: ReportedRecord, measurand: MeasurandRecord, unit: string): void {
  const { linear, monteCarlo, symbol, meaning } = measurand;
  const list = root.ele(NAMESPACE, "si:realList");
  element(list, "label", `${symbolText(symbol)}, ${meaning}`);
  const reported = toReport(measurand);
  const mark = (kind: boolean): string => (kind ? "; the result to be reported" : "");
  const own = reported.kind === "linear" && !reported.fitted;
  const p = monteCarlo.probability;

  /** A value with an uncertainty; the schema of a list spells its element in this way. */
  const real = (label: string, value: number, uncertainty: ((holder: XMLBuilder) => void) | null): void => {
    const one = list.ele(NAMESPACE, "si:real");
    element(one, "label", label);
    element(one, "value", decimal(value));
    element(one, "unit", unit);
    if (uncertainty !== null) uncertainty(one.ele(NAMESPACE, "si:measurementUncertaintyUnivaraite"));
  };
  const expanded = (k: number, U: number, distribution: string) => (holder: XMLBuilder) => {
    const text = plainDecimal(k);
    // A coverage factor below 1 cannot be stated (kValueType): the standard uncertainty is, which needs none.
    if (k < 1) return standard(linear.standardUncertainty, distribution)(holder);
    const statement = holder.ele(NAMESPACE, "si:expandedMU");
    element(statement, "valueExpandedMU", decimal(U));
    element(statement, "coverageFactor", text);
    element(statement, "coverageProbability", plainDecimal(p));
    element(statement, "distribution", distribution);
  };
  const standard = (u: number, distribution: string) => (holder: XMLBuilder) => {
    const statement = holder.ele(NAMESPACE, "si:standardMU");
    element(statement, "valueStandardMU", decimal(u));
    element(statement, "distribution", distribution);
  };

  const ν = linear.effectiveDegreesOfFreedom;
  const shape =
    ν === null || record.coverage.custom === "factor" ? "normal" : `Student t, ${String(ν)} degrees of freedom`;
  const budget = linear.standardUncertainty > 0;
  real(
    `linear budget (JCGM 100)${mark(own)}`,
    linear.estimate,
    budget ? expanded(linear.coverageFactor, linear.expandedUncertainty, shape) : null,
  );
  if (reported.kind === "linear" && reported.fitted && budget)
    real(
      `linear budget (JCGM 100) with the coverage factor of the result's own distribution${mark(true)}`,
      linear.estimate,
      expanded(reported.coverageFactor, reported.expandedUncertainty, "that of the Monte Carlo trials"),
    );
  const { estimate, standardUncertainty: u } = monteCarlo;
  if (estimate === null || u === null || u === 0) {
    list.com(" The trials have no mean or standard deviation, without which D-SI states no coverage interval. ");
    return;
  }
  for (const [kind, words] of [
    ["symmetric", "probabilistically symmetric interval"],
    ["shortest", "shortest interval"],
  ] as const) {
    const [low, high] = monteCarlo.intervals[kind];
    const isReported = reported.kind === "monteCarlo" && record.coverage.interval === kind;
    real(`Monte Carlo (JCGM 101), ${words}${mark(isReported)}`, estimate, (holder) => {
      const statement = holder.ele(NAMESPACE, "si:coverageIntervalMU");
      element(statement, "valueStandardMU", decimal(u));
      element(statement, "intervalMin", decimal(low));
      element(statement, "intervalMax", decimal(high));
      element(statement, "coverageProbability", plainDecimal(p));
      element(statement, "distribution", `empirical, ${monteCarlo.trials} Monte Carlo trials`);
    });
  }
}

/** The shortest decimal that reads back to the same number; an exponent is allowed (decimalType). */
const decimal = String;

/** The same without an exponent (probabilityValueType, kValueType). */
function plainDecimal(value: number): string {
  const text = String(value);
  const [, digits, fraction = "", exponent] = /^(\d+)(?:\.(\d+))?e([-+]\d+)$/.exec(text) ?? [];
  if (digits === undefined) return text;
  const power = Number(exponent);
  return power < 0
    ? `0.${"0".repeat(-power - digits.length)}${digits}${fraction}`
    : `${digits}${fraction}${"0".repeat(power - fraction.length)}`;
}
