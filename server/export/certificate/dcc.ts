import type { XMLBuilder } from "xmlbuilder2/lib/interfaces.js";
import type { CertificateFields, CertificateReference } from "../../../models/index.ts";
import type { Certificate } from "../../../viewer/present/certificate/certificate.ts";
import {
  decimalText,
  type StatedFigure,
  type StatedPoint,
  type StatedUncertainty,
} from "../../../viewer/present/certificate/stated-point.ts";
import { fillText } from "../../../viewer/present/fill.ts";
import { languages } from "../../../viewer/present/messages/index.ts";
import { Fault } from "../../errors.ts";
import { xmlDocument, xmlText } from "../xml.ts";

const DCC = "https://ptb.de/dcc";
const SI = "https://ptb.de/si";
/** Version of the open schema that the document is written for. */
export const DCC_VERSION = "3.1.2";

type Words = keyof (typeof languages)["en"]["calibrationCertificate"];

/**
 * A calibration certificate as a digital calibration certificate (schema 3.1.2) with its values in D-SI: the same rounded
 * figures that the printed certificate states, so that both are one.
 *
 * @throws {Fault} `bad-input`: a draft, with every field that it lacks; machines must not take a draft for a certificate
 */
export function dccOf(certificate: Certificate, reference: CertificateReference | null): string {
  refuseDraft(certificate);
  const root = xmlDocument().ele(DCC, "dcc:digitalCalibrationCertificate");
  root.att("schemaVersion", DCC_VERSION).att("http://www.w3.org/2000/xmlns/", "xmlns:si", SI);
  administrative(root, certificate);
  results(root, certificate, reference);
  return `${root.end({ prettyPrint: true })}\n`;
}

function refuseDraft({ draft, lacking }: Certificate): void {
  if (!draft) return;
  const words = languages.en.calibrationCertificate;
  throw new Fault("bad-input", "A draft has no digital calibration certificate: required fields are not filled.", [
    ...lacking.fields.map(({ field, place }) => ({ place, value: "nothing", accepted: words.lacks[field] })),
    ...lacking.points.map((number) => ({
      place: `points.${number - 1}`,
      value: "no result that can be stated",
      accepted: fillText(words.lacksPoint, { number: String(number) }),
    })),
  ]);
}

const at = (parent: XMLBuilder, name: string): XMLBuilder => parent.ele(DCC, `dcc:${name}`);
const put = (parent: XMLBuilder, name: string, text: string): void => void at(parent, name).txt(xmlText(text));
const si = (parent: XMLBuilder, name: string, text: string): void =>
  void parent.ele(SI, `si:${name}`).txt(xmlText(text));

/** A text that the laboratory stated, in the language it wrote. */
function own(parent: XMLBuilder, name: string, text: string, { language }: CertificateFields): void {
  at(at(parent, name), "content").att("lang", language).txt(xmlText(text));
}

/** A text of the program, in every language it has. */
function worded(parent: XMLBuilder, name: string, word: Words): XMLBuilder {
  const element = at(parent, name);
  for (const language of ["en", "de"] as const) {
    const text = languages[language].calibrationCertificate[word];
    at(element, "content")
      .att("lang", language)
      .txt(xmlText(String(text)));
  }
  return element;
}

function contact(parent: XMLBuilder, party: NonNullable<CertificateFields["customer"]>, fields: CertificateFields) {
  own(parent, "name", party.name!, fields);
  put(parent, "eMail", party.email!);
  if (party.phone !== undefined) put(parent, "phone", party.phone);
  const location = at(parent, "location");
  put(location, "countryCode", party.country!);
  const further = at(location, "further");
  for (const line of party.address!) at(further, "content").att("lang", fields.language).txt(xmlText(line));
}

function identification(parent: XMLBuilder, issuer: string, value: string): void {
  const one = at(parent, "identification");
  put(one, "issuer", issuer);
  put(one, "value", value);
}

function administrative(root: XMLBuilder, certificate: Certificate): void {
  const { stated, instrument, description, program, digest } = certificate;
  const { fields, item, performed } = stated;
  const data = at(root, "administrativeData");
  const [name, version] = program.split(" ");
  const software = at(at(data, "dccSoftware"), "software");
  at(at(software, "name"), "content").txt(xmlText(name!));
  put(software, "release", version!);

  const core = at(data, "coreData");
  put(core, "countryCodeISO3166_1", fields.laboratory!.country!);
  for (const language of ["en", "de"]) put(core, "usedLangCodeISO639_1", language);
  put(core, "mandatoryLangCodeISO639_1", fields.language);
  put(core, "uniqueIdentifier", item.number!);
  const numbers = at(core, "identifications");
  identification(numbers, "other", `SHA-256 ${digest}`);
  if (item.received !== undefined) put(core, "receiptDate", item.received);
  put(core, "beginPerformanceDate", performed!.from);
  put(core, "endPerformanceDate", performed!.to);
  put(core, "performanceLocation", fields.location!.at);

  const one = at(at(data, "items"), "item");
  own(one, "name", description!, fields);
  own(one, "description", `${item.condition!} ${item.adjustment!}`, fields);
  own(at(one, "manufacturer"), "name", item.manufacturer!, fields);
  if (item.type !== undefined) put(one, "model", item.type);
  identification(at(one, "identifications"), "owner", instrument);

  const laboratory = at(data, "calibrationLaboratory");
  if (fields.laboratory!.code !== undefined) put(laboratory, "calibrationLaboratoryCode", fields.laboratory!.code);
  contact(at(laboratory, "contact"), fields.laboratory!, fields);
  const person = at(at(data, "respPersons"), "respPerson");
  own(at(person, "person"), "name", fields.authorised!.name, fields);
  if (fields.authorised!.role !== undefined) put(person, "role", fields.authorised!.role);
  put(person, "mainSigner", "true");
  contact(at(data, "customer"), fields.customer!, fields);
  statements(at(data, "statements"), certificate);
}

function statements(parent: XMLBuilder, { stated: { fields, item } }: Certificate): void {
  const statement = (): XMLBuilder => at(parent, "statement");
  worded(statement(), "declaration", "onlyItem");
  worded(statement(), "declaration", "inFull");
  const issued = statement();
  worded(issued, "declaration", "issued");
  put(issued, "date", fields.issued!);
  const traceable = statement();
  put(traceable, "traceable", "true");
  own(traceable, "declaration", fields.traceability!, fields);
  for (const text of [fields.opinions, fields.external, fields.fromCustomer, fields.sampling]) {
    if (text !== undefined) own(statement(), "declaration", text, fields);
  }
  if (item.replaces !== undefined) {
    const replaced = statement();
    put(replaced, "reference", item.replaces);
    worded(replaced, "declaration", "replaces");
  }
}

const CONDITIONS = {
  temperature: ["\\degreecelsius", "basic_temperature"],
  humidity: ["\\percent", "basic_humidityRelative"],
  pressure: ["\\hecto\\pascal", "basic_pressure"],
} as const;

function results(root: XMLBuilder, certificate: Certificate, reference: CertificateReference | null): void {
  const { fields } = certificate.stated;
  const one = at(at(root, "measurementResults"), "measurementResult");
  worded(one, "name", "results");
  const method = at(at(one, "usedMethods"), "usedMethod");
  own(method, "name", fields.method!.name, fields);
  if (fields.method!.deviations !== undefined) own(method, "description", fields.method!.deviations, fields);
  for (const norm of [...fields.method!.norms, "JCGM 100:2008", "JCGM 101:2008"]) put(method, "norm", norm);
  if (reference !== null) {
    const equipment = at(at(one, "measuringEquipments"), "measuringEquipment");
    worded(equipment, "name", "reference");
    const { certificate: number, laboratory, calibrated } = reference;
    own(equipment, "description", [number, laboratory, calibrated].filter((x) => x !== undefined).join(", "), fields);
    identification(at(equipment, "identifications"), "calibrationLaboratory", reference.thermometer);
  }
  const conditions = at(one, "influenceConditions");
  for (const { quantity, low, high } of fields.conditions!) {
    const condition = at(conditions, "influenceCondition").att("refType", CONDITIONS[quantity][1]);
    worded(condition, "name", quantity);
    const list = at(at(condition, "data"), "quantity").ele(SI, "si:realListXMLList");
    si(list, "valueXMLList", `${low} ${high}`);
    si(list, "unitXMLList", CONDITIONS[quantity][0]);
  }
  const all = at(one, "results");
  errors(all, certificate);
  if (certificate.fit !== null) coefficients(all, certificate);
}

/** Temperatures, resistances and errors of the points, in the order of the printed table. */
function errors(parent: XMLBuilder, certificate: Certificate): void {
  const { points } = certificate;
  const result = at(parent, "result");
  worded(result, "name", "results");
  const list = at(at(result, "data"), "list");
  const plain = (refType: string, name: string, unit: string, figures: readonly string[]): void => {
    const values = named(list, name, refType).ele(SI, "si:realListXMLList");
    si(values, "valueXMLList", figures.join(" "));
    si(values, "unitXMLList", unit);
  };
  plain(
    "basic_setPoint",
    "Set point",
    "\\degreecelsius",
    points.map(({ point }) => String(point.nominal)),
  );
  plain(
    "basic_referenceValue",
    "Temperature of the bath",
    "\\degreecelsius",
    points.map(({ temperature }) => decimalText(temperature)),
  );
  plain(
    "basic_measuredValue",
    "Resistance of the thermometer",
    "\\ohm",
    points.map(({ resistance }) => decimalText(resistance)),
  );
  const error = named(list, "Error of the thermometer", "basic_measurementError");
  errorValues(error, certificate);
  if (certificate.guardBandMultiplier !== null) conformity(error, certificate);
}

function named(parent: XMLBuilder, name: string, refType: string): XMLBuilder {
  const quantity = at(parent, "quantity").att("refType", refType);
  at(at(quantity, "name"), "content").att("lang", "en").txt(xmlText(name));
  return quantity;
}

type Expanded = Extract<StatedUncertainty, { readonly kind: "expanded" }>;
const isExpanded = (point: StatedPoint): point is StatedPoint & { readonly uncertainty: Expanded } =>
  point.uncertainty.kind === "expanded";

function errorValues(quantity: XMLBuilder, { points, coverageProbability }: Certificate): void {
  const expanded = points.filter(isExpanded);
  const p = String(coverageProbability);
  if (expanded.length === points.length) {
    const list = quantity.ele(SI, "si:realListXMLList");
    si(list, "valueXMLList", points.map(({ error }) => decimalText(error)).join(" "));
    si(list, "unitXMLList", "\\kelvin");
    const stated = list.ele(SI, "si:measurementUncertaintyUnivariateXMLList").ele(SI, "si:expandedMUXMLList");
    const of = (figure: (one: Expanded) => StatedFigure): string =>
      expanded.map(({ uncertainty }) => decimalText(figure(uncertainty))).join(" ");
    si(
      stated,
      "valueExpandedMUXMLList",
      of(({ U }) => U),
    );
    si(
      stated,
      "coverageFactorXMLList",
      of(({ k }) => k),
    );
    si(stated, "coverageProbabilityXMLList", p);
    si(stated, "distributionXMLList", expanded.map(({ uncertainty }) => distributionOf(uncertainty)).join(" "));
    return;
  }
  // Different forms of uncertainty have no common list of numbers: one value after the other.
  const list = quantity.ele(SI, "si:list").ele(SI, "si:realList");
  for (const { error, uncertainty } of points) {
    const real = list.ele(SI, "si:real");
    si(real, "value", decimalText(error));
    si(real, "unit", "\\kelvin");
    const holder = real.ele(SI, "si:measurementUncertaintyUnivaraite");
    if (uncertainty.kind === "expanded") {
      const stated = holder.ele(SI, "si:expandedMU");
      si(stated, "valueExpandedMU", decimalText(uncertainty.U));
      si(stated, "coverageFactor", decimalText(uncertainty.k));
      si(stated, "coverageProbability", p);
      si(stated, "distribution", distributionOf(uncertainty));
    } else if (uncertainty.kind === "interval") {
      const stated = holder.ele(SI, "si:coverageIntervalMU");
      si(stated, "valueStandardMU", decimalText(uncertainty.u));
      si(stated, "intervalMin", decimalText(uncertainty.low));
      si(stated, "intervalMax", decimalText(uncertainty.high));
      si(stated, "coverageProbability", p);
      si(stated, "distribution", "propagated");
    }
  }
}

/** One word, since a list is separated by spaces. */
const distributionOf = ({ fitted, degreesOfFreedom }: Expanded): string =>
  fitted ? "propagated" : degreesOfFreedom === null ? "normal" : "t";

function conformity(quantity: XMLBuilder, { points, stated, guardBandMultiplier }: Certificate): void {
  const data = at(at(quantity, "measurementMetaData"), "metaData");
  const bases = new Set(points.flatMap(({ point }) => point.conformity?.basis ?? []));
  for (const basis of bases) put(data, "norm", basis);
  const rule = at(data, "declaration");
  if (stated.fields.decisionRule === undefined) {
    const r = guardBandMultiplier!;
    const word = r === 0 ? "simpleAcceptance" : r > 0 ? "guardedAcceptance" : "guardedRejection";
    for (const language of ["en", "de"] as const)
      at(rule, "content")
        .att("lang", language)
        .txt(xmlText(fillText(languages[language].calibrationCertificate[word], { r: String(Math.abs(r)) })));
  } else at(rule, "content").att("lang", stated.fields.language).txt(xmlText(stated.fields.decisionRule));
  put(
    data,
    "conformityXMLList",
    points.map(({ point }) => (point.conformity?.decision === "accepted" ? "pass" : "fail")).join(" "),
  );
}

const COEFFICIENT_UNITS: Readonly<Record<string, string>> = {
  R0: "\\ohm",
  A: "\\degreecelsius\\tothe{-1}",
  B: "\\degreecelsius\\tothe{-2}",
  C: "\\degreecelsius\\tothe{-4}",
  Rtp: "\\ohm",
};

/** Coefficients with their standard uncertainties at full precision, and their correlations: what a curve needs. */
function coefficients(parent: XMLBuilder, { fit, points }: Certificate): void {
  const result = at(parent, "result");
  worded(result, "name", "coefficients");
  const ends = points.map(({ point }) => point.nominal);
  const range = { low: `${Math.min(...ends)} °C`, high: `${Math.max(...ends)} °C` };
  const description = at(result, "description");
  for (const language of ["en", "de"] as const) {
    const { coefficientsSentence, deviationSentence } = languages[language].calibrationCertificate;
    const { deviation } = fit!;
    const words = deviation === null ? coefficientsSentence : deviationSentence;
    at(description, "content")
      .att("lang", language)
      .txt(xmlText(fillText(words, { ...deviation, ...range })));
  }
  const data = at(result, "data");
  const { coefficients: all, correlation } = fit!;
  for (const { name, estimate, standardUncertainty } of all) {
    const real = named(data, `Coefficient ${name}`, `trialband_coefficient_${name}`).ele(SI, "si:real");
    si(real, "value", String(estimate));
    si(real, "unit", COEFFICIENT_UNITS[name] ?? "\\one");
    const stated = real.ele(SI, "si:measurementUncertaintyUnivariate").ele(SI, "si:standardMU");
    si(stated, "valueStandardMU", String(standardUncertainty));
  }
  const names = all.map(({ name }) => name);
  const pairs = names.flatMap((_, i) => names.slice(i + 1).map((__, j) => [i, i + 1 + j] as const));
  const list = named(
    data,
    `Correlation coefficients of ${pairs.map(([i, j]) => `${names[i]} and ${names[j]}`).join(", ")}`,
    "trialband_correlation",
  ).ele(SI, "si:realListXMLList");
  si(list, "valueXMLList", pairs.map(([i, j]) => String(correlation[i]![j]!)).join(" "));
  si(list, "unitXMLList", "\\one");
}
