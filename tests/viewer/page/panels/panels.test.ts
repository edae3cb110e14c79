// Every panel of the sheet, drawn into a stub of a document: the figures it shows, and that it is there when it applies.
import { describe, expect, test } from "vitest";
import type { MeasurandRecord, RunRecord } from "../../../../engine/index.ts";
import { panels, type View } from "../../../../viewer/page/panels/index.ts";
import { partOf, RECORDS } from "../fixed-records.ts";
import { StubElement, stubDocument } from "../stub-document.ts";

stubDocument();

const viewOf = (changes: Partial<View> & Pick<View, "filed">): View => ({
  provisional: false,
  abandoned: null,
  file: { text: null, run: "r1", altered: false },
  width: 900,
  study: null,
  reading: {},
  choose: () => undefined,
  sample: null,
  reportLanguage: "en",
  keep: () => undefined,
  edit: () => undefined,
  ...changes,
});

function drawn(id: string, record: RunRecord, changes: Partial<View> = {}, measurand = first(record)): StubElement {
  const element = new StubElement("section");
  panels
    .find((panel) => panel.id === id)!
    .render(element as never, record, measurand, viewOf({ filed: record, ...changes }));
  return element;
}
const first = ({ measurands }: RunRecord): string => Object.keys(measurands)[0]!;
const words = (element: StubElement): string => element.textContent.replaceAll(/\s+/g, " ");
const namesIn = (element: StubElement): string =>
  element.all.map((one) => one.getAttribute("aria-label") ?? "").join(" ");

/** A number as the page prints it, rounded here by itself. */
const figure = (value: number, places: number): string => value.toFixed(places).replace("-", "\u2212");

interface Row {
  readonly panel: string;
  readonly study: string;
  readonly reading?: View["reading"];
  readonly shows: (measurand: MeasurandRecord, record: RunRecord) => readonly string[];
}

const ROWS: readonly Row[] = [
  {
    panel: "verdict",
    study: "harrowfen/cold-store-4",
    shows: ({ linear }) => [
      `(${figure(linear.estimate, 4)} ± ${figure(linear.expandedUncertainty, 4)}) °C`,
      "k =2.00 (fixed)",
      "Validated",
    ],
  },
  // JCGM 101:2008, 9.3.2.6, table 6: first order 1.2340 mg with u = 0.0539 mg and [1.1285, 1.3395] mg; by Monte Carlo
  // 1.2341 mg, 0.0754 mg and the shortest interval [1.0834, 1.3825] mg.
  {
    panel: "verdict",
    study: "published/mass-calibration",
    shows: () => ["(1.23 ± 0.11) mg", "0.054 mg", "from 1.08 to 1.38 mg", "0.075 mg"],
  },
  {
    panel: "distributions",
    study: "published/mass-calibration",
    shows: ({ linear }) => [`linear ${figure(linear.interval[0], 3)}`, "probability density"],
  },
  {
    panel: "distributions",
    study: "published/mass-calibration",
    reading: { view: "distribution" },
    shows: () => ["probability of at most this value"],
  },
  {
    panel: "distributions",
    study: "published/mass-calibration",
    reading: { view: "quantiles" },
    shows: ({ symbol }) => [`Monte Carlo quantile of ${symbol}`, `quantile of the budget’s distribution of ${symbol}`],
  },
  {
    panel: "why",
    study: "verdicts/curvature",
    shows: ({ explanation }) => ["curvature of the model", explanation!.recommendation.sentence.slice(0, 20)],
  },
  {
    panel: "linearised",
    study: "verdicts/another-factor",
    shows: ({ linear }) => [`[${figure(linear.interval[0], 5)}, ${figure(linear.interval[1], 5)}]`],
  },
  {
    panel: "conformity",
    study: "harrowfen/pasteuriser-72",
    shows: ({ conformity }) => [
      `Both methods: ${conformity!.linear.decision}`,
      String(conformity!.tolerance.basis),
      figure(conformity!.linear.acceptance!.upper!, 3),
    ],
  },
  {
    panel: "sweep",
    study: "harrowfen/range",
    shows: (_, { sweep }) => [
      `all ${sweep!.points.length} points`,
      ...sweep!.points.map(({ measurands }) => figure(measurands["error"]!.linear.standardUncertainty, 5)),
    ],
  },
  // JCGM 100:2008, H.3.4: b(30 °C) = −0.1494 °C with u = 0.0041 °C.
  { panel: "curve", study: "published/thermometer-line", shows: () => ["30.00\u22120.14940.00414"] },
  {
    panel: "budget",
    study: "harrowfen/cold-store-4",
    shows: ({ linear }) => linear.contributions.map(({ share }) => `${figure(100 * share, 1)} %`),
  },
  {
    panel: "left-out",
    study: "verdicts/another-factor",
    shows: (_, { leftOut }) => leftOut!.map(({ meaning }) => meaning),
  },
  {
    panel: "sensitivity",
    study: "verdicts/curvature",
    shows: ({ sensitivity }) =>
      sensitivity!.factors.flatMap(({ total }) =>
        total !== null && total.value > 0.001 ? [`${figure(100 * total.value, 1)} %`] : [],
      ),
  },
  // JCGM 102:2011, 6.5.2.3 and 6.5.3, for two measurands at 95 %: k_p = √χ²₂(0.95) = 2.448; k_q = 2.241, from normal
  // intervals at (1 + p)/2, whatever the correlation.
  { panel: "joint", study: "published/polar-010-correlated", shows: () => ["2.448", "2.241", "0.9000"] },
  { panel: "what-if", study: "harrowfen/cold-store-4", shows: () => ["Try other inputs"] },
  {
    panel: "figures",
    study: "published/mass-calibration",
    shows: ({ monteCarlo }) => [figure(monteCarlo.skewness!, 3), figure(monteCarlo.excessKurtosis!, 3)],
  },
  {
    panel: "settling",
    study: "harrowfen/cold-store-4",
    shows: ({ monteCarlo }) => [`ends at ${figure(monteCarlo.settling.points.at(-1)!.averages.estimate!, 6)} °C`],
  },
  { panel: "remarks", study: "harrowfen/cold-store-4", shows: (_, { remarks }) => remarks },
  { panel: "cautions", study: "harrowfen/cold-store-4", shows: (_, { cautions }) => cautions },
  {
    panel: "assessor",
    study: "harrowfen/cold-store-4",
    shows: (_, record) => [
      `${record.engine.name} ${record.engine.version}`,
      "Download the report (PDF)",
      "Verify this record",
    ],
  },
  {
    panel: "provenance",
    study: "harrowfen/cold-store-4",
    shows: (_, { study, generator }) => [`--seed ${study.seed}`, generator.id, "Reproduces exactly, bit for bit"],
  },
];

describe("a panel shows the figures of the record", () => {
  test.each(ROWS.map((row) => ({ ...row, title: `${row.panel}, ${row.study}` })))("$title", (row) => {
    const record = RECORDS[row.study]!;
    const text = words(drawn(row.panel, record, { reading: row.reading ?? {} }));
    const measurand = record.measurands[first(record)]!;
    const expected = row.shows(measurand, record);
    expect(expected.length).toBeGreaterThan(0);
    for (const piece of expected) expect(text).toContain(piece.replaceAll(/\s+/g, " "));
  });

  test("every panel has a row", () => {
    expect([...new Set(ROWS.map(({ panel }) => panel))].toSorted()).toEqual(panels.map(({ id }) => id).toSorted());
  });
});

describe("every panel and every record", () => {
  const cases = Object.keys(RECORDS).flatMap((study) => [360, 900].map((width) => ({ study, width })));
  test.each(cases)("$study at $width px: no figure is lost, every picture has a name", ({ study, width }) => {
    const record = RECORDS[study]!;
    for (const panel of panels.filter(({ appliesTo }) => appliesTo(record))) {
      for (const measurand of Object.keys(record.measurands)) {
        const element = drawn(panel.id, record, { width }, measurand);
        const said = `${words(element)} ${namesIn(element)}`;
        expect(said, panel.id).not.toMatch(/NaN|undefined|\[object|\{\w+\}|Infinity/);
        for (const picture of element.querySelectorAll("svg"))
          expect(picture.getAttribute("aria-label") ?? picture.getAttribute("aria-hidden"), panel.id).not.toBeNull();
        for (const { attributes } of element.all)
          for (const [name, value] of attributes)
            if (/^(x|y|d|cx|cy|width|height|points|transform)\d?$/.test(name))
              expect(value, `${panel.id} ${name}`).not.toMatch(/NaN|undefined|Infinity/);
      }
    }
  });

  test("panels of a part apply to the records that have it, and to no other", () => {
    const PARTS: Readonly<Record<string, (record: RunRecord) => boolean>> = {
      sweep: ({ sweep }) => sweep != null,
      curve: ({ calibrationCurve }) => calibrationCurve != null,
      joint: ({ joint }) => joint != null,
      conformity: ({ measurands }) => Object.values(measurands).some(({ conformity }) => conformity != null),
      cautions: ({ cautions }) => cautions.length > 0,
    };
    for (const [id, has] of Object.entries(PARTS)) {
      const panel = panels.find((one) => one.id === id)!;
      const found = Object.entries(RECORDS).filter(([, record]) => panel.appliesTo(record));
      expect(found.map(([study]) => study)).toEqual(
        Object.entries(RECORDS).flatMap(([study, record]) => (has(record) ? [study] : [])),
      );
      expect(found.length, id).toBeGreaterThan(0);
    }
  });
});

describe("what is not there is said", () => {
  const record = RECORDS["harrowfen/pasteuriser-72"]!;
  const without = (part: "conformity" | "explanation"): RunRecord => ({
    ...record,
    measurands: { error: { ...record.measurands["error"]!, [part]: null } },
  });
  test.each([
    { panel: "conformity", part: "conformity", says: /tolerance|requirement/ },
    { panel: "why", part: "explanation", says: /no explanation/ },
  ] as const)("$panel", ({ panel, part, says }) => {
    expect(words(drawn(panel, without(part)))).toMatch(says);
  });

  test.each(["cancelled", "failed"] as const)("a run that was %s has no verdict", (abandoned) => {
    const shown = words(drawn("verdict", partOf(record, 3), { provisional: true, abandoned }));
    expect(shown).toContain("No verdict");
    expect(shown).not.toMatch(/[Vv]alidated|to be reported|On the certificate/);
    expect(panels.filter(({ concludes }) => concludes === true).map(({ id }) => id)).toEqual(
      expect.arrayContaining(["why", "conformity", "figures"]),
    );
  });

  test("of a record that was altered the verdict is struck through, and nothing is offered", () => {
    const file = { text: "{}", run: null, altered: true };
    const shown = drawn("verdict", record, { file });
    expect(shown.all.filter(({ tag }) => tag === "s")).toHaveLength(2);
    expect(words(shown)).not.toMatch(/to be reported|On the certificate/);
    expect(words(drawn("assessor", { ...record }, { file }))).not.toContain("Download");
  });

  test("a run that goes on shows what it has, and what it will have", () => {
    const whole = RECORDS["harrowfen/cold-store-4"]!;
    const part = partOf(whole, 3);
    expect(words(drawn("settling", part, { provisional: true }))).toContain("It goes on.");
    expect(words(drawn("what-if", part, { provisional: true }))).toContain("when the run has finished");
    expect(words(drawn("verdict", part, { provisional: true }))).toContain("Provisional: the run goes on");
    expect(words(drawn("provenance", part, { provisional: true }))).toContain("when it has finished");
  });
});

test("a picture is read step by step from its own figures", () => {
  const record = RECORDS["published/mass-calibration"]!;
  const { histogram, trials } = Object.values(record.measurands)[0]!.monteCarlo;
  const most = Math.max(...histogram.counts);
  for (const [view, step, pieces] of [
    ["density", histogram.counts.indexOf(most), [" trials, ", `${((100 * most) / trials).toPrecision(3)} %`]],
    ["distribution", 0, ["at most"]],
    ["quantiles", 0, ["the budget claims"]],
  ] as const) {
    const owner = new StubElement("section");
    owner.dataset["bin"] = String(step);
    panels
      .find(({ id }) => id === "distributions")!
      .render(owner as never, record, first(record), viewOf({ filed: record, reading: { view } }));
    const read = owner.querySelector("#bin-readout")!.textContent.replaceAll(/\s/g, " ");
    for (const piece of pieces) expect(read, view).toContain(piece);
  }
});
