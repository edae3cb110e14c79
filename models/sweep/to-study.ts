import { InputError, refuse, type Problem, type Statement, type StudyDocument } from "../../engine/index.ts";
import { MOST_SWEEP_POINTS, readBySchema } from "../../engine/internal.ts";
import type { Swept } from "./dependent.ts";
import { sweepDocumentSchema, type SweepAxis, type SweepDocument, type SweepRange } from "./document.ts";
import { statementsAlong } from "./statements.ts";

/** One point of a sweep: where, and in which part of the range. */
export interface PlannedPoint extends Swept {
  readonly range: SweepRange | null;
}

/** @throws {InputError} every problem found, each with its place */
export function readSweep(document: unknown): SweepDocument {
  const sweep = readBySchema(sweepDocumentSchema, document);
  const problems: Problem[] = [];
  const names = sweep.ranges.map(({ name }) => name);
  names.forEach((name, i) => {
    if (names.indexOf(name) !== i)
      problems.push({ place: `ranges.${i}.name`, value: JSON.stringify(name), accepted: "another name for each part" });
  });
  sweep.over.forEach((axis, i) => {
    const values = valuesOf(axis);
    if (new Set(values).size < values.length)
      problems.push({ place: `over.${i}.values`, value: JSON.stringify(values), accepted: "each value once" });
  });
  if (sweep.ranges.length > 0)
    valuesOf(sweep.over[0]!).forEach((value) => {
      if (!sweep.ranges.some(({ from, to }) => value >= from && value <= to))
        problems.push({
          place: "over.0",
          value: String(value),
          accepted: `values within a part of the range: ${sweep.ranges.map(({ name, from, to }) => `${name} ${from} to ${to}`).join(", ")}`,
        });
    });
  if (problems.length > 0) throw new InputError(problems);
  return sweep;
}

const valuesOf = ({ values, from, to, count }: SweepAxis): readonly number[] =>
  values ?? Array.from({ length: count! }, (_, i) => from! + ((to! - from!) * i) / (count! - 1));

/**
 * The points of a sweep in order: for each part of the range its values with both ends, so that two baths that meet are
 * both evaluated where they meet; without parts, the values as they stand.
 *
 * @throws {InputError} more than a sweep may have
 */
export function plannedPoints({ over, ranges }: SweepDocument): readonly PlannedPoint[] {
  const first = valuesOf(over[0]!).toSorted((a, b) => a - b);
  const second = over[1] === undefined ? [null] : valuesOf(over[1]).toSorted((a, b) => a - b);
  const along =
    ranges.length === 0
      ? first.map((t) => ({ t, range: null }))
      : ranges.flatMap((range) =>
          [...new Set([range.from, ...first, range.to])]
            .filter((t) => t >= range.from && t <= range.to)
            .toSorted((a, b) => a - b)
            .map((t) => ({ t, range })),
        );
  const points = along.flatMap(({ t, range }) => second.map((s) => ({ t, s, range })));
  if (points.length > MOST_SWEEP_POINTS) refuse("over", `${points.length} points`, `at most ${MOST_SWEEP_POINTS}`);
  return points;
}

/** What files state at a point: the certificate there, the survey of its bath. */
export type StatementsAt = (point: PlannedPoint) => Readonly<Record<string, Statement>>;

/**
 * The study of a sweep, its points written out. Every point has the seed of the study, so that what two points have in
 * common draws the same numbers at both and curves are smooth. `loadEquationReader` comes first.
 *
 * @param study that the sweep names; its own inputs are what no point states
 * @throws {InputError} a figure that cannot be had at a point, with its place and the point
 */
export function sweepStudyOf(sweep: SweepDocument, study: StudyDocument, statementsAt: StatementsAt): StudyDocument {
  const whole = statementsAlong(sweep.inputs, "inputs");
  const parts = new Map(sweep.ranges.map((range, i) => [range, statementsAlong(range.inputs, `ranges.${i}.inputs`)]));
  const points = plannedPoints(sweep).map((point) => {
    const inputs: Record<string, Statement> = {
      ...statementsAt(point),
      ...whole(point),
      ...(point.range === null ? {} : parts.get(point.range)!(point)),
    };
    return {
      at: point.t,
      ...(point.s === null ? {} : { second: point.s }),
      ...(point.range === null ? {} : { part: point.range.name }),
      inputs,
    };
  });
  const [first, second] = sweep.over as [SweepAxis, SweepAxis?];
  const bath = sweep.ranges.find((range) => range.bath !== undefined)?.bath;
  return {
    ...study,
    ...(sweep.title === undefined ? {} : { title: sweep.title }),
    ...(sweep.trials === undefined ? {} : { trials: sweep.trials }),
    ...(sweep.seed === undefined ? {} : { seed: sweep.seed }),
    ...(bath === undefined ? {} : { bath: { ...bath, setTemperature: points[0]!.at } }),
    inputs: { ...(study.inputs as Record<string, Statement>), ...points[0]!.inputs },
    sweep: {
      quantity: first.quantity,
      unit: first.unit,
      ...(second === undefined ? {} : { second: { quantity: second.quantity, unit: second.unit } }),
      points,
    },
  } as StudyDocument;
}
