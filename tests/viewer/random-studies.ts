// Whatever a study states, its outputs never print what is no number, and never contradict one another: verdict, sentence,
// advice and mark. Studies are drawn at random: every kind of distribution, scales to the ends of a double, dependence,
// kinks, steps and poles, few trials.
import * as fc from "fast-check";
import { expect } from "vitest";
import {
  defineModel,
  InputError,
  ModelError,
  propagate,
  speakRecord,
  type Model,
  type RunRecord,
  readStudy,
} from "../../engine/index.ts";
import { schemaProblems } from "../../engine/internal.ts";
import { shownRecordSchema } from "../../engine/record/index.ts";
import { languages } from "../../viewer/present/messages/index.ts";
import { reportHtml } from "../../viewer/report/report-html.ts";
import { stylesFor } from "../../viewer/terminal/style.ts";
import { summaryOf } from "../../viewer/terminal/summary.ts";

const quantity = (symbol: string) => ({ symbol, meaning: symbol, unit: "m" });
const FUNCTIONS: Readonly<Record<string, (a: number, b: number, c: number) => number>> = {
  sum: (a, b, c) => a + b + c,
  difference: (a, b) => a - b,
  product: (a, b, c) => a * b + c,
  ratio: (a, b) => a / b,
  square: (a) => a * a,
  kink: (a, b, c) => Math.abs(a - b) + c,
  step: (a, b, c) => (a > b ? 1 : 0) * c,
  greatest: (a, b, c) => Math.max(a, b, c),
  pole: (a) => 1 / a,
  root: (a, b, c) => Math.sqrt(a) + b + c,
  rounded: (a, b, c) => Math.round(a) + b + c,
  zero: () => 0,
  constant: () => 7,
};
const modelOf = (name: string, several: boolean): Model =>
  defineModel({
    id: name,
    title: name,
    measurands: several ? { y: quantity("y"), w: quantity("w") } : { y: quantity("y") },
    inputs: { a: quantity("a"), b: quantity("b_1"), c: quantity("c") },
    evaluate: ({ a, b, c }: Record<"a" | "b" | "c", number>) =>
      several ? { y: FUNCTIONS[name]!(a, b, c), w: a - c } : FUNCTIONS[name]!(a, b, c),
  } as never);

const readings = fc.array(fc.double({ min: -1, max: 1, noNaN: true }), { minLength: 2, maxLength: 8 });
/** A statement about the estimate e with a width of u. */
const statement = (e: number, u: number): fc.Arbitrary<object> =>
  fc.oneof(
    fc.constantFrom<object>(
      { distribution: "normal", estimate: e, standardUncertainty: u },
      { distribution: "rectangular", estimate: e, halfWidth: u },
      { distribution: "rectangular", estimate: e, halfWidth: u, degreesOfFreedom: 3 },
      { distribution: "triangular", estimate: e, halfWidth: u },
      { distribution: "arcsine", estimate: e, halfWidth: u },
      { distribution: "curvilinear-trapezoid", estimate: e, halfWidth: u, limitHalfWidth: u / 5 },
      { distribution: "exponential", estimate: u },
      { distribution: "gamma", shape: 0.4, scale: u },
      { distribution: "beta", lower: e - u, upper: e + u, lowerShape: 0.7, upperShape: 3 },
      { distribution: "log-normal", logarithmMean: 0, logarithmStandardDeviation: 1.5 },
      { distribution: "poisson", estimate: 2 },
      { distribution: "discrete", values: [e, e + u, e + 2 * u], probabilities: [0.25, 0.5, 0.25] },
      { distribution: "constant", value: e },
      {
        distribution: "mixture",
        components: [
          { weight: 1, statement: { distribution: "normal", estimate: e, standardUncertainty: u } },
          { weight: 2, statement: { distribution: "rectangular", estimate: e + u, halfWidth: u } },
        ],
      },
    ),
    fc.constantFrom(0.5, 1, 2, 3, 4, 5, 9, 200).map((degreesOfFreedom) => ({
      distribution: "t",
      estimate: e,
      standardUncertainty: u,
      degreesOfFreedom,
      evaluation: degreesOfFreedom % 2 === 0 ? "A" : "B",
    })),
    readings.map((values) => ({ distribution: "readings", values: values.map((value) => e + u * value) })),
    readings.map((values) => ({ distribution: "sample", values: values.map((value) => e + u * value) })),
  );

const study = fc
  .record({
    scale: fc.constantFrom(1, 1, 1, 1e-6, 1e9, 1e160, 1e-163, 1e300, 1e-300),
    offset: fc.constantFrom(0, 0, 1, 3, 1e6),
    less: fc.constantFrom(1, 0.01, 1e-9),
  })
  .chain(({ scale, offset, less }) =>
    fc.record({
      name: fc.constantFrom(...Object.keys(FUNCTIONS)),
      several: fc.boolean(),
      document: fc.record(
        {
          inputs: fc.record({
            a: statement(offset * scale, scale),
            b: statement(0, scale * less),
            c: statement(0, scale),
          }),
          trials: fc.constantFrom(10_000, 20_000),
          significantDigits: fc.constantFrom(1, 2),
          coverage: fc.constantFrom<object>(
            { probability: 0.95 },
            { factor: 1 },
            { factor: 2 },
            { probability: 0.8, interval: "shortest" },
          ),
          correlations: fc
            .tuple(fc.constantFrom(0.5, -0.9, 1, 0), fc.constantFrom("ranks", "values"))
            .map(([coefficient, refersTo]) => [{ between: ["a", "b"], coefficient, refersTo }]),
          undefinedTrials: fc.constant("leave-out"),
          conformity: fc.constant({ y: { tolerance: { lower: -scale, upper: 2 * scale } } }),
        },
        { requiredKeys: ["inputs", "trials", "significantDigits", "coverage"] },
      ),
    }),
  );

/** Numbers of a record that are none, by their places. */
function* noNumbers(value: unknown, place: string): Generator<string> {
  if (typeof value === "number" && !Number.isFinite(value)) yield `${place} ${value}`;
  if (typeof value === "object" && value !== null)
    for (const [key, item] of Object.entries(value)) yield* noNumbers(item, `${place}/${key}`);
}

/** What no text may show. That a model is undefined for some trials may be said. */
const around = (text: string): string | undefined =>
  /.{0,80}(NaN|Infinity|undefined|\bnull\b|\[object).{0,40}/s.exec(text.replaceAll(/\bis\s+undefined\b/g, ""))?.[0];
/** A sentence with a gap where a name should be. */
const gap = (sentence: string): string | undefined =>
  /.{0,40}( (of|and|all|for|from|by|in|to) ?[,;.:]| {2}|\(\)).{0,20}/.exec(sentence.replaceAll("\u00a0", " "))?.[0];

/** Checks the outputs of one run. */
export function check(record: RunRecord): void {
  expect([...noNumbers(record, "")]).toEqual([]);
  const read = shownRecordSchema.safeParse(record);
  expect(read.success ? [] : schemaProblems(read.error, record)).toEqual([]);
  const summary = summaryOf(record, "study.json", stylesFor(process.stdout), 100);
  expect(around(summary)).toBeUndefined();
  for (const messages of Object.values(languages))
    expect(around(reportHtml(record, { messages, command: "verify", digest: "0" }))).toBeUndefined();
  const marks = [...summary.matchAll(/NOT DECIDED|NOTHING VARIES|NOT VALIDATED|VALIDATED/g)].map(([mark]) => mark);
  expect(JSON.stringify(speakRecord(record, "de"))).not.toContain('"language":"en"');
  Object.values(record.measurands).forEach(({ validation, explanation, linear, monteCarlo }, i) => {
    const { firm, validated, nothingVaries, sentence } = validation;
    expect(marks[i]).toBe(
      nothingVaries ? "NOTHING VARIES" : !firm ? "NOT DECIDED" : validated ? "VALIDATED" : "NOT VALIDATED",
    );
    expect(/do not decide/.test(sentence)).toBe(!firm);
    if (firm && !nothingVaries) expect(/is validated to/.test(sentence)).toBe(validated);
    expect(gap(sentence)).toBeUndefined();
    if (/equally wide/.test(sentence)) {
      const [low, high] = monteCarlo.intervals[record.coverage.interval];
      expect((low - linear.interval[0]) * (high - linear.interval[1])).toBeGreaterThanOrEqual(0);
    }
    if (explanation === null) return;
    const { recommendation } = explanation;
    expect(["draw-more", "state-deviation"].includes(recommendation.action)).toBe(!firm);
    if (firm) expect(recommendation.action === "keep").toBe(validated);
    for (const text of [explanation.sentence, recommendation.sentence]) expect(gap(text)).toBeUndefined();
    for (const [, share] of explanation.sentence.matchAll(/(\d+) % (?:of the difference|from)/g))
      expect(Number(share)).toBeLessThanOrEqual(100);
  });
}

/** Runs studies drawn from a seed and checks their outputs. @returns how many could be run; the others are refused in words */
export function checkRandomStudies(seed: number, studies: number): number {
  let run = 0;
  fc.assert(
    fc.property(study, ({ name, several, document }) => {
      let record: RunRecord;
      try {
        record = propagate(modelOf(name, several), readStudy({ title: name, model: name, ...document }));
      } catch (error) {
        // What cannot be run is refused with what was got and what is expected.
        expect(error instanceof InputError || error instanceof ModelError).toBe(true);
        expect((error as Error).message).toMatch(/expected/);
        return;
      }
      run += 1;
      check(record);
    }),
    { seed, numRuns: studies, endOnFailure: true },
  );
  return run;
}
