import { describe, expect, it } from "vitest";
import { readStatement } from "../../../../engine/internal.ts";
import { certificateAt, certificateFromDsi, dsiStatement } from "../../../../models/index.ts";
import { loadCertificate, readDsi } from "../../../../server/intake/index.ts";
import { fileOf } from "../../../server/intake/source.ts";

const wrap = (inner: string): string =>
  `<?xml version="1.0"?><dcc:data xmlns:dcc="https://ptb.de/dcc" xmlns:si="https://ptb.de/si">${inner}</dcc:data>`;
const quantity = (inner: string, attributes = ""): string =>
  `<dcc:quantity ${attributes}><dcc:name><dcc:content lang="en">error &amp; more</dcc:content></dcc:name>${inner}</dcc:quantity>`;
const real = (uncertainty: string, value = "0.100", unit = "\\kelvin"): string =>
  `<si:real><si:value>${value}</si:value><si:unit>${unit}</si:unit>${uncertainty}</si:real>`;
const read = (inner: string) => readDsi(fileOf("c.xml", wrap(inner)));
const univariate = (inner: string): string =>
  `<si:measurementUncertaintyUnivariate>${inner}</si:measurementUncertaintyUnivariate>`;

const EXPANDED =
  "<si:expandedMU><si:valueExpandedMU>0.02</si:valueExpandedMU><si:coverageFactor>2</si:coverageFactor><si:coverageProbability>0.95</si:coverageProbability><si:distribution>normal</si:distribution></si:expandedMU>";
const STANDARD = "<si:standardMU><si:valueStandardMU>0.01</si:valueStandardMU></si:standardMU>";
const INTERVAL =
  "<si:coverageIntervalMU><si:valueStandardMU>0.01</si:valueStandardMU><si:intervalMin>0.08</si:intervalMin><si:intervalMax>0.12</si:intervalMax><si:coverageProbability>0.95</si:coverageProbability></si:coverageIntervalMU>";

describe("D-SI real", () => {
  it.each([
    ["standardMU", univariate(STANDARD), { kind: "standard", standard: 0.01 }],
    [
      "expandedMU",
      univariate(EXPANDED),
      { kind: "expanded", expanded: 0.02, coverageFactor: 2, coverageProbability: 0.95 },
    ],
    ["coverageIntervalMU", univariate(INTERVAL), { kind: "interval", lower: 0.08, upper: 0.12, standard: 0.01 }],
    [
      "expandedUnc (deprecated)",
      "<si:expandedUnc><si:uncertainty>0.02</si:uncertainty><si:coverageFactor>2</si:coverageFactor><si:coverageProbability>0.95</si:coverageProbability></si:expandedUnc>",
      { kind: "expanded", expanded: 0.02, coverageFactor: 2 },
    ],
    [
      "coverageInterval (deprecated)",
      "<si:coverageInterval><si:standardUnc>0.01</si:standardUnc><si:intervalMin>0.08</si:intervalMin><si:intervalMax>0.12</si:intervalMax><si:coverageProbability>0.95</si:coverageProbability></si:coverageInterval>",
      { kind: "interval", lower: 0.08, upper: 0.12, standard: 0.01 },
    ],
  ])("with %s", async (name, uncertainty, expected) => {
    const { quantities, notes } = await read(quantity(real(uncertainty)));
    const [found] = quantities[0]!.forms[0]!;
    expect(found!.uncertainty).toMatchObject(expected);
    expect(notes).toEqual(name.includes("deprecated") ? ["uncertainty in a deprecated D-SI form"] : []);
    expect(readStatement(dsiStatement(found!, "c"), "c").budget).toMatchObject({
      estimate: 0.1,
      standardUncertainty: 0.01,
    });
  });

  it.each(["constructor", "toString", "__proto__"])("takes the distribution %s as unknown", async (word) => {
    const { quantities } = await read(quantity(real(univariate(EXPANDED.replace("normal", word)))));
    expect(dsiStatement(quantities[0]!.forms[0]![0]!, "c")).toMatchObject({
      distribution: "normal",
      coverageFactor: 2,
    });
  });

  it.each(["\\constructor", "\\toString"])("finds no difference in the unit %s", async (unit) => {
    const file = await read(
      quantity(real(univariate(EXPANDED), "72", "\\degreecelsius"), 'refType="basic_nominalValue"') +
        quantity(real(univariate(EXPANDED), "0.1", unit), 'refType="basic_measurementError"'),
    );
    expect(() => certificateFromDsi(file)).toThrow(/quantities\.1: got .*expected differences in/);
  });

  it("keeps trailing zeros, and entities as the text they stand for", async () => {
    const { quantities } = await read(quantity(real(univariate(EXPANDED), "0.100")));
    expect(quantities[0]!.forms[0]![0]).toMatchObject({ value: 0.1, text: "0.100", decimals: 3, unit: "\\kelvin" });
    expect(quantities[0]!.names).toEqual(["error & more"]);
  });

  it("states a uniform distribution as rectangular: half-width u·√3", async () => {
    const { quantities } = await read(quantity(real(univariate(EXPANDED.replace("normal", "uniform")))));
    expect(dsiStatement(quantities[0]!.forms[0]![0]!, "c")).toMatchObject({
      distribution: "rectangular",
      halfWidth: expect.closeTo(0.01 * Math.sqrt(3), 15),
    });
  });

  it("is found without a certificate around it, under any prefix or none", async () => {
    const { quantities } = await readDsi(
      fileOf("c.xml", '<real xmlns="https://ptb.de/si"><value>1.0</value><unit>\\one</unit></real>'),
    );
    expect(quantities).toHaveLength(1);
    expect(quantities[0]!.forms[0]![0]).toMatchObject({ value: 1, uncertainty: null });
    expect(() => dsiStatement(quantities[0]!.forms[0]![0]!, "c")).toThrow(/with a measurement uncertainty/);
  });
});

const list = (units: string, ks: string): string =>
  quantity(
    `<si:realListXMLList><si:valueXMLList>1.0 2.00</si:valueXMLList><si:unitXMLList>${units}</si:unitXMLList><si:measurementUncertaintyUnivariateXMLList><si:expandedMUXMLList><si:valueExpandedMUXMLList>0.1 0.2</si:valueExpandedMUXMLList><si:coverageFactorXMLList>${ks}</si:coverageFactorXMLList><si:coverageProbabilityXMLList>0.95</si:coverageProbabilityXMLList></si:expandedMUXMLList></si:measurementUncertaintyUnivariateXMLList></si:realListXMLList>`,
  );

describe("lists", () => {
  it("take one entry for each value, or one for all", async () => {
    const { quantities } = await read(list("\\kelvin", "2 2.1"));
    expect(quantities[0]!.forms[0]!.map(({ text, unit, uncertainty }) => [text, unit, uncertainty])).toEqual([
      [
        "1.0",
        "\\kelvin",
        { kind: "expanded", distribution: null, expanded: 0.1, coverageFactor: 2, coverageProbability: 0.95 },
      ],
      [
        "2.00",
        "\\kelvin",
        { kind: "expanded", distribution: null, expanded: 0.2, coverageFactor: 2.1, coverageProbability: 0.95 },
      ],
    ]);
    await expect(read(list("\\kelvin", "2 2 2"))).rejects.toThrow(
      /coverageFactorXMLList: got "3 entries"; expected 2 entries, or one for all/,
    );
  });

  it("of reals are read one by one", async () => {
    const { quantities } = await read(
      quantity(`<si:list>${real(univariate(STANDARD), "1")}${real(univariate(STANDARD), "2")}</si:list>`),
    );
    expect(quantities[0]!.forms[0]!.map(({ value }) => value)).toEqual([1, 2]);
  });
});

describe("a certificate", () => {
  const file = "examples/survey/reference-HR-02.xml";

  it("gives the points that its JSON description gives", async () => {
    const imported = certificateFromDsi(await readDsi(file), {});
    const described = await loadCertificate("examples/survey/reference-HR-02.json");
    expect(imported.certificate).toMatchObject({
      thermometer: "HR-02",
      certificate: "HCR-2025-118",
      calibrated: "2025-09-15",
    });
    expect(imported.mapping).toEqual({ temperature: 0, error: 1 });
    expect(imported.reasoning).toContain(
      "error: Error of indication (basic_measurementError), the correction is its negative",
    );
    for (const { temperature } of described.points) {
      const [a, b] = [certificateAt(imported.certificate, temperature), certificateAt(described, temperature)];
      expect(a.correction).toBeCloseTo(b.correction, 15);
      expect(a.standardUncertainty).toBeCloseTo(b.standardUncertainty, 15);
    }
  });

  it("does not take the conditions of the room for a result", async () => {
    const { quantities } = await readDsi(file);
    expect(quantities.map(({ refType }) => refType)).toEqual(["basic_referenceValue", "basic_measurementError"]);
  });

  it("asks which quantity is which where it cannot tell", async () => {
    const two = await read(quantity(real(univariate(STANDARD))) + quantity(real(univariate(STANDARD))));
    expect(() => certificateFromDsi(two, {}, { thermometer: "X", calibrated: "2025-01-01" })).toThrow(
      /quantities: got "0: error & more, 1: error & more"; expected a single quantity that is the temperature/,
    );
    const named = certificateFromDsi(
      two,
      { temperature: 0, correction: 1 },
      { thermometer: "X", calibrated: "2025-01-01" },
    );
    expect(named.certificate.points[0]).toMatchObject({
      temperature: expect.closeTo(0.1 - 273.15, 12),
      correction: 0.1,
    });
  });
});

describe("XML that is refused", () => {
  const bomb =
    '<?xml version="1.0"?><!DOCTYPE a [<!ENTITY x "xxxxxxxxxx"><!ENTITY y "&x;&x;">]><real xmlns="https://ptb.de/si"><value>&y;</value></real>';
  it.each([
    ["a document type declaration", bomb, /a document type declaration/],
    ["what is not well formed", '<real xmlns="https://ptb.de/si"><value>1</real>', /c\.xml, line 1/],
    ["another kind of XML", "<a><b>1</b></a>", /no D-SI namespace/],
    [
      "a value that is no number",
      wrap(quantity(real(univariate(STANDARD), "1,5"))),
      /c\.xml, quantity 0 \(error & more\), value: got "1,5"/,
    ],
    [
      "a unit in words",
      wrap(quantity(real(univariate(STANDARD), "1", "K"))),
      /unit: got "K"; expected a unit in D-SI notation/,
    ],
    ["two uncertainties", wrap(quantity(real(univariate(STANDARD + EXPANDED)))), /exactly one of standardMU/],
    ["an uncertainty of 0", wrap(quantity(real(univariate(STANDARD.replace("0.01", "0"))))), /uncertainty: got 0/],
    ["a certificate without results", wrap(""), /no quantity/],
  ])("%s", async (_, xml, message) => {
    await expect(readDsi(fileOf("c.xml", xml))).rejects.toThrow(message);
  });
});
