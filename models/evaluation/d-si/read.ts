import { refuse } from "../../../engine/index.ts";
import { decimalsWritten, parseDecimal } from "../text/decimal.ts";
import { parseInstant } from "../text/instant.ts";
import type { DsiFile, DsiQuantity, DsiReal, DsiUncertainty } from "./quantities.ts";

/** An element: its attributes start with `@`, its text is `#text`. */
export type XmlElement = Readonly<Record<string, unknown>>;

/**
 * The quantities of a Digital Calibration Certificate (DCC 2 and 3) or of any XML with D-SI quantities (1 and 2):
 * `si:real`, `si:hybrid`, `si:list`, `si:realList` and `si:realListXMLList`, with the uncertainty as standardMU, expandedMU,
 * coverageIntervalMU or in the deprecated forms expandedUnc and coverageInterval.
 *
 * Conditions of the measurement are not read as results.
 *
 * @param name of the file, for messages
 * @param root the parsed file, its element names without their prefixes
 * @throws {InputError} no quantity, or one that is not whole, by its number and name
 */
export function dsiFile(name: string, root: XmlElement): DsiFile {
  const notes: string[] = [];
  const found: XmlElement[] = [];
  collect(root, found);
  const quantities = found.map((element, i) => quantityOf(element, `${name}, quantity ${i}`, notes));
  if (quantities.length === 0)
    refuse(name, "no quantity", "a si:real, si:hybrid, si:list, si:realList or si:realListXMLList with a result");
  return { quantities, ...aboutOf(root), notes };
}

const FORMS = ["real", "hybrid", "list", "realList", "realListXMLList"] as const;
/** Parts of a certificate whose quantities describe the conditions, not the result. */
const NOT_RESULTS = new Set([
  "influenceConditions",
  "usedMethods",
  "measuringEquipments",
  "items",
  "administrativeData",
  "measurementMetaData",
]);

const many = (value: unknown): unknown[] => (value === undefined ? [] : Array.isArray(value) ? value : [value]);
const isElement = (value: unknown): value is XmlElement =>
  typeof value === "object" && value !== null && !Array.isArray(value);

/** Every element that holds a D-SI quantity directly, in the order of the file. */
function collect(outer: XmlElement, into: XmlElement[]): void {
  const element = ofNamedList(outer);
  if (FORMS.some((form) => many(element[form]).some((part) => holds(part, form)))) {
    // Several bare quantities under one parent are one each; a dcc:quantity holds one.
    const rest = Object.fromEntries(
      Object.entries(element).filter(([key]) => !(FORMS as readonly string[]).includes(key)),
    );
    for (const form of FORMS) for (const part of many(element[form])) into.push(Object.assign({ [form]: part }, rest));
    return;
  }
  for (const [key, value] of Object.entries(element)) {
    if (NOT_RESULTS.has(key)) continue;
    for (const child of many(value)) if (isElement(child)) collect(child, into);
  }
}

/** A quantity whose reals stand in the `si:realList` of a `si:list`: the quantity's own name and type are those of the reals. */
function ofNamedList(element: XmlElement): XmlElement {
  const { list, ...rest } = element;
  const named = "name" in element || "@refType" in element;
  return named && isElement(list) && "realList" in list ? { ...rest, realList: list["realList"] } : element;
}

/** `dcc:list` shares its name with `si:list`, but holds quantities instead of reals. */
const holds = (part: unknown, form: (typeof FORMS)[number]): boolean =>
  form !== "list" || (isElement(part) && "real" in part);

function quantityOf(element: XmlElement, place: string, notes: string[]): DsiQuantity {
  const names = many(isElement(element["name"]) ? element["name"]["content"] : undefined).map(textOf);
  const labelled = [element["real"], element["realList"]].find(isElement);
  const label = labelled === undefined ? "" : textOf(labelled["label"]);
  const named = `${place}${names[0] === undefined ? "" : ` (${names[0]})`}`;
  const forms: DsiReal[][] = [];
  const hybrid = element["hybrid"];
  const holder = isElement(hybrid) ? hybrid : element;
  for (const real of many(holder["real"])) forms.push([realOf(real, named, notes)]);
  for (const list of many(holder["realListXMLList"])) forms.push(listOf(list, named, notes));
  for (const list of many(holder["realList"])) {
    if (!isElement(list)) return refuse(named, list, "a si:realList with reals");
    forms.push(many(list["real"]).map((real, i) => realOf(withShared(real, list), `${named}, real ${i}`, notes)));
  }
  for (const list of many(holder["list"])) {
    if (isElement(list)) forms.push(many(list["real"]).map((real, i) => realOf(real, `${named}, real ${i}`, notes)));
  }
  const refType = typeof element["@refType"] === "string" ? element["@refType"] : null;
  return { names: label === "" ? names : [...names, label], refType, forms };
}

const UNCERTAINTIES = [
  "measurementUncertaintyUnivaraite",
  "measurementUncertaintyUnivariate",
  "expandedUnc",
  "coverageInterval",
];

/** A real of a `si:realList` with the unit and the uncertainty that the list states for all, unless it has its own. */
function withShared(
  real: unknown,
  { listUnit, listMeasurementUncertaintyUnivariate: uncertainty }: XmlElement,
): unknown {
  if (!isElement(real)) return real;
  return {
    ...(listUnit === undefined ? {} : { unit: listUnit }),
    ...(uncertainty === undefined || UNCERTAINTIES.some((name) => name in real)
      ? {}
      : { measurementUncertaintyUnivariate: uncertainty }),
    ...real,
  };
}

function realOf(value: unknown, place: string, notes: string[]): DsiReal {
  if (!isElement(value)) return refuse(place, value, "a si:real with value and unit");
  const text = textOf(value["value"]);
  return {
    value: numberOf(text, `${place}, value`),
    text,
    decimals: decimalsWritten(text),
    unit: unitOf(textOf(value["unit"]), place),
    uncertainty: uncertaintyOf(value, place, notes),
    label: textOf(value["label"]) || null,
  };
}

function uncertaintyOf(real: XmlElement, place: string, notes: string[]): DsiUncertainty | null {
  // The schema of si:list misspells the wrapper; files follow it.
  const wrapper = real["measurementUncertaintyUnivaraite"] ?? real["measurementUncertaintyUnivariate"];
  const holder = isElement(wrapper) ? wrapper : real;
  const part = (name: string): XmlElement | null => (isElement(holder[name]) ? holder[name] : null);
  const expanded = part("expandedMU") ?? part("expandedUnc");
  const standard = part("standardMU");
  const interval = part("coverageIntervalMU") ?? part("coverageInterval");
  const given = [expanded, standard, interval].filter((form) => form !== null);
  if (given.length > 1)
    refuse(place, "several uncertainties", "exactly one of standardMU, expandedMU and coverageIntervalMU");
  if (part("expandedUnc") !== null || part("coverageInterval") !== null)
    once(notes, "uncertainty in a deprecated D-SI form");
  if (given.length === 0) return null;
  const figure = (form: XmlElement, ...keys: readonly string[]): number => {
    const key = keys.find((candidate) => form[candidate] !== undefined) ?? keys[0]!;
    return numberOf(textOf(form[key]), `${place}, ${key}`);
  };
  const distribution = textOf(given[0]!["distribution"]) || null;
  if (expanded !== null) {
    const probability = expanded["coverageProbability"] === undefined ? null : figure(expanded, "coverageProbability");
    return positive(place, {
      kind: "expanded",
      distribution,
      expanded: figure(expanded, "valueExpandedMU", "uncertainty"),
      coverageFactor: figure(expanded, "coverageFactor"),
      coverageProbability: probability,
    });
  }
  if (standard !== null)
    return positive(place, { kind: "standard", distribution, standard: figure(standard, "valueStandardMU") });
  return positive(place, {
    kind: "interval",
    distribution,
    standard: figure(interval!, "valueStandardMU", "standardUnc"),
    lower: figure(interval!, "intervalMin"),
    upper: figure(interval!, "intervalMax"),
    coverageProbability: figure(interval!, "coverageProbability"),
  });
}

function positive(place: string, uncertainty: DsiUncertainty): DsiUncertainty {
  const size = uncertainty.kind === "expanded" ? uncertainty.expanded : uncertainty.standard;
  if (!(size > 0)) refuse(`${place}, uncertainty`, size, "an uncertainty greater than 0");
  if (uncertainty.kind === "expanded" && !(uncertainty.coverageFactor > 0))
    refuse(`${place}, coverageFactor`, uncertainty.coverageFactor, "a coverage factor greater than 0");
  return uncertainty;
}

/** Lists hold one entry for each value, or one for all. */
function listOf(value: unknown, place: string, notes: string[]): DsiReal[] {
  if (!isElement(value)) return refuse(place, value, "a si:realListXMLList with values and units");
  const texts = split(value["valueXMLList"]);
  if (texts.length === 0) refuse(place, "no values", "a valueXMLList with numbers");
  const entry = (list: unknown, i: number, what: string): string | undefined => {
    const parts = split(list);
    if (parts.length > 1 && parts.length !== texts.length)
      refuse(`${place}, ${what}`, `${parts.length} entries`, `${texts.length} entries, or one for all`);
    return parts.length === 1 ? parts[0] : parts[i];
  };
  const wrapper = value["measurementUncertaintyUnivariateXMLList"];
  const holder = isElement(wrapper) ? wrapper : value;
  return texts.map((text, i) =>
    realOf(
      {
        value: text,
        unit: entry(value["unitXMLList"], i, "unitXMLList"),
        ...Object.fromEntries(
          ["expandedMU", "standardMU", "coverageIntervalMU", "expandedUnc", "coverageInterval"].flatMap((form) => {
            const lists = holder[`${form}XMLList`];
            if (!isElement(lists)) return [];
            const parts = Object.entries(lists).flatMap(([key, list]) => {
              const one = entry(list, i, key);
              return one === undefined ? [] : [[key.replace(/XMLList$/, ""), one]];
            });
            return [[form, Object.fromEntries(parts)]];
          }),
        ),
      },
      `${place}, value ${i}`,
      notes,
    ),
  );
}

function aboutOf(root: XmlElement): Pick<DsiFile, "identifications" | "certificate" | "calibrated"> {
  const certificate = Object.entries(root).find(([key, value]) => !key.startsWith("?") && isElement(value))?.[1] as
    | XmlElement
    | undefined;
  const data = certificate?.["administrativeData"];
  const core = isElement(data) && isElement(data["coreData"]) ? data["coreData"] : {};
  const items = isElement(data) && isElement(data["items"]) ? many(data["items"]["item"]) : [];
  const identifications = items
    .filter(isElement)
    .flatMap((item) => (isElement(item["identifications"]) ? many(item["identifications"]["identification"]) : []))
    .flatMap((identification) => (isElement(identification) ? [textOf(identification["value"])] : []))
    .filter((text) => text !== "");
  const day = textOf(core["endPerformanceDate"]) || textOf(core["issueDate"]);
  return {
    identifications,
    certificate: textOf(core["uniqueIdentifier"]) || null,
    calibrated: parseInstant(day.slice(0, 10)) === null ? null : day.slice(0, 10),
  };
}

/** Text of an element, with the five entities XML itself defines put back. */
function textOf(value: unknown): string {
  const text = isElement(value) ? value["#text"] : value;
  if (typeof text !== "string") return "";
  return text
    .trim()
    .replaceAll("&lt;", "<")
    .replaceAll("&gt;", ">")
    .replaceAll("&quot;", '"')
    .replaceAll("&apos;", "'")
    .replaceAll("&amp;", "&");
}

const split = (value: unknown): string[] =>
  textOf(value)
    .split(/\s+/)
    .filter((part) => part !== "");

function numberOf(text: string, place: string): number {
  const number = parseDecimal(text);
  if (number === null || number.mark === ",") return refuse(place, text, "a decimal number with a point");
  return number.value;
}

function unitOf(text: string, place: string): string {
  if (!/^\\[a-z]/.test(text))
    refuse(`${place}, unit`, text, "a unit in D-SI notation, such as \\degreecelsius or \\milli\\kelvin");
  return text;
}

function once(notes: string[], note: string): void {
  if (!notes.includes(note)) notes.push(note);
}
