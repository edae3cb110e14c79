import { english } from "../../../../viewer/present/numbers.ts";
// The points of pictures against the record's figures, and that words and bars keep apart.
import { expect, test } from "vitest";
import { contributionsOf } from "../../../../viewer/present/pictures/contributions-of.ts";
import { digitsOf } from "../../../../viewer/present/pictures/digits-of.ts";
import { labelText } from "../../../../viewer/present/pictures/label.ts";
import { movesRange, movesScene } from "../../../../viewer/present/pictures/moves.ts";
import type { Mark, Scene } from "../../../../viewer/present/pictures/scene.ts";
import { sweepScene } from "../../../../viewer/present/pictures/sweep.ts";
import { trendScene } from "../../../../viewer/present/pictures/trend.ts";
import { readable } from "../../../../viewer/present/readable.ts";
import { ENGLISH } from "../../../../viewer/present/statement.ts";
import { runExample } from "../../../read-example.ts";

const all = (marks: readonly Mark[]): Mark[] =>
  marks.flatMap((mark) => (mark.mark === "group" ? [mark, ...all(mark.marks)] : [mark]));
const of = <K extends Mark["mark"]>(scene: Scene, kind: K, className: string): Extract<Mark, { mark: K }>[] =>
  all(scene.marks).filter(
    (mark): mark is Extract<Mark, { mark: K }> => mark.mark === kind && mark.class.split(" ").includes(className),
  );

const record = runExample("harrowfen/steriliser-134", { trials: 10_000 });
const measurand = readable(Object.values(record.measurands)[0]!);

test("contributions: sorted bars as long as |c·u|, and where u² is reached", () => {
  const scene = contributionsOf(record, measurand, ENGLISH, 700)!;
  const sizes = measurand.linear.contributions
    .map(({ contribution, share }) => ({ size: Math.abs(contribution), share }))
    .filter(({ size }) => size > 0)
    .toSorted((a, b) => b.size - a.size);
  const bars = of(scene, "rect", "contribution");
  expect(bars).toHaveLength(sizes.length);
  // Places are rounded to hundredths of a pixel.
  const scale = bars[0]!.width / sizes[0]!.size;
  // A bar of no visible length is one pixel.
  bars.forEach((bar, i) => expect(bar.width).toBeCloseTo(Math.max(1, sizes[i]!.size * scale), 1));
  const marks = of(scene, "circle", "cumulative-mark");
  let sum = 0;
  marks.forEach((mark, i) => {
    sum += sizes[i]!.share;
    expect((mark.x - bars[0]!.x) / bars[0]!.width).toBeCloseTo(sum, 4);
  });
  expect(sum).toBeCloseTo(1, 9);
});

test("with correlated inputs no cumulative share is drawn, since the shares do not add up", () => {
  const correlated = runExample("published/impedance", { trials: 10_000 });
  const scene = contributionsOf(correlated, readable(Object.values(correlated.measurands)[0]!), ENGLISH, 700)!;
  expect(of(scene, "rect", "contribution").length).toBeGreaterThan(1);
  expect(of(scene, "path", "cumulative")).toEqual([]);
});

test("endpoints at one and at two digits: marks and edges at one scale", () => {
  const scene = digitsOf(record, measurand, ENGLISH, 700)!;
  const { linear, monteCarlo, validation } = measurand;
  const [one, two] = of(scene, "rect", "tolerance-field").toSorted((a, b) => b.width - a.width);
  expect(one!.width / two!.width).toBeCloseTo(10, 2);
  const δ = validation.atDigits.find(({ significantDigits }) => significantDigits === 2)!.numericalTolerance;
  const scale = two!.width / (2 * δ);
  const zero = two!.x + two!.width / 2;
  const marks = of(scene, "circle", "trials-rule");
  for (const end of [0, 1] as const) {
    const difference = monteCarlo.intervals.symmetric[end] - linear.interval[end];
    expect(Math.abs(marks[end]!.x - zero - difference * scale)).toBeLessThan(0.02);
  }
});

test("words of the causes end left of every bar", () => {
  const moves = [
    { label: "curvature of the model", by: -0.3 },
    { label: "a cause with a name that takes more than one line", by: 0.9 },
    { label: "few degrees of freedom", by: -0.5 },
  ];
  const range = movesRange([moves], 0.4);
  const scene = movesScene(
    {
      name: "",
      moves,
      tolerance: 0.4,
      range,
      width: 320,
      text: (value) => value.toFixed(3),
      axisLabel: "",
    },
    english,
  );
  const bars = of(scene, "rect", "move");
  const leftmost = Math.min(...bars.map(({ x }) => x), of(scene, "rect", "tolerance")[0]!.x);
  const labels = of(scene, "text", "row-label");
  for (const { x, anchor, label } of labels)
    expect(anchor === "end" ? x : x + 5.9 * labelText(label).length).toBeLessThan(leftmost);
  expect(labels.length).toBeGreaterThan(2 * moves.length);
  // Each bar begins where the one above it stopped.
  const at = (i: number, end: "start" | "stop"): number => {
    const { x, width } = bars[i]!;
    return moves[i]!.by > 0 === (end === "stop") ? x + width : x;
  };
  expect(at(1, "start")).toBeCloseTo(at(0, "stop"), 1);
  expect(at(2, "start")).toBeCloseTo(at(1, "stop"), 1);
});

test("a range has bars at its points and nothing between them", () => {
  const point = (at: number) => ({ at, linear: [-1, 0, 1] as const, monteCarlo: [-2, 0.1, 2] as const });
  const scene = sweepScene(
    { name: "", titles: ["", ""], points: [0, 5, 40].map(point), width: 600, height: 200 },
    english,
  );
  const lines = [...of(scene, "path", "trials-rule"), ...of(scene, "path", "linear-line")];
  expect(lines).toHaveLength(12);
  const places = of(scene, "circle", "trials-rule").map(({ x }) => x);
  for (const { d } of lines) {
    const xs = [...d.matchAll(/[MH](-?[\d.]+)/g)].map(([, x]) => Number(x));
    expect(Math.max(...xs) - Math.min(...xs)).toBeLessThan(10);
    expect(Math.min(...places.map((x) => Math.abs(x - xs[0]!)))).toBeLessThan(15);
  }
  expect(of(scene, "path", "trials-area")).toEqual([]);
});

test("a trend: marks at their times, limits across, a run outside them as a ring", () => {
  const day = 86_400_000;
  const points = [1, 2, 1.5, 9].map((value, i) => ({ at: Date.UTC(2026, 0, 1) + i * i * day, value, half: 0.5 }));
  const limits = { centre: 1.5, lower: 0, upper: 3 };
  const scene = trendScene({ name: "", title: "", points, limits, width: 600 }, english);
  const marks = of(scene, "circle", "trend-mark");
  expect(marks.map((mark) => mark.class.includes("outside-limits"))).toEqual([false, false, false, true]);
  const along = (i: number): number => (marks[i]!.x - marks[0]!.x) / (marks[3]!.x - marks[0]!.x);
  expect(along(1)).toBeCloseTo(1 / 9, 3);
  expect(along(2)).toBeCloseTo(4 / 9, 3);
  expect(of(scene, "path", "control-limit")).toHaveLength(2);
  expect(all(scene.marks).flatMap((mark) => (mark.mark === "text" ? [labelText(mark.label)] : []))).toContain(
    "2026-01-10",
  );
  // Runs of one moment stand at one place.
  const same = trendScene({ name: "", title: "", points: [points[0]!, points[0]!], limits: null, width: 300 }, english);
  expect(of(same, "circle", "trend-mark").every(({ x }) => Number.isFinite(x))).toBe(true);
});
