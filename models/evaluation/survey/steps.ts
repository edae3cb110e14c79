import { InputError, refuse, show, type Problem } from "../../../engine/index.ts";
import { showInstant } from "../text/instant.ts";
import type { SurveyDescription } from "./description.ts";
import { between, samplingOf, type ThermometerLog } from "../log/thermometer-log.ts";
import { synchronousDifference, type SynchronousDifference } from "./synchronous-difference.ts";

/** A step of the survey with its settling time taken off. */
export interface UsableStep {
  /** Index in the description. */
  readonly step: number;
  readonly from: number;
  readonly to: number;
  readonly at: Readonly<Record<string, string>>;
  /** True if a thermometer moved at its start. */
  readonly moved: boolean;
}

/** A pair of thermometers through one step. */
export interface PairStep {
  readonly step: number;
  /** Position of the first and of the second. */
  readonly positions: readonly [string, string];
  /** First minus second. */
  readonly difference: SynchronousDifference;
}

/**
 * Checks a survey description against its logs, and takes the settling time off every step in which something moved.
 *
 * @throws {InputError} every problem found: names that do not exist, steps that overlap, end before they start, are
 *   shorter than the settling time, or reach beyond the log
 */
export function usableSteps(description: SurveyDescription, logs: readonly ThermometerLog[]): readonly UsableStep[] {
  const problems = namingProblems(description, logs);
  if (problems.length > 0) throw new InputError(problems);
  const steps: UsableStep[] = [];
  description.steps.forEach(({ from, to, at }, i) => {
    const place = `steps.${i}`;
    const previous = description.steps[i - 1];
    const bad = (field: string, value: number, accepted: string): void =>
      void problems.push({ place: `${place}.${field}`, value: showInstant(value), accepted });
    if (!(to > from)) return bad("to", to, `a moment after the step begins, ${showInstant(from)}`);
    if (previous !== undefined && from < previous.to)
      return bad("from", from, `a moment no earlier than the end of the step before, ${showInstant(previous.to)}`);
    for (const name of Object.keys(at)) {
      const log = logs.find(({ thermometer }) => thermometer === name)!;
      const { interval } = samplingOf(log);
      if (from < log.times[0]! - interval)
        bad("from", from, `a moment within the log of ${name}, which begins ${showInstant(log.times[0]!)}`);
      if (to > log.times.at(-1)! + interval)
        bad("to", to, `a moment within the log of ${name}, which ends ${showInstant(log.times.at(-1)!)}`);
    }
    const moved =
      previous === undefined || Object.entries(at).some(([name, position]) => previous.at[name] !== position);
    const start = moved ? from + 60 * description.settlingMinutes : from;
    if (start >= to)
      return bad(
        "to",
        to,
        `a moment after the settling time of ${description.settlingMinutes} min is over, ${showInstant(start)}`,
      );
    steps.push({ step: i, from: start, to, at, moved });
  });
  if (problems.length > 0) throw new InputError(problems);
  return steps;
}

const list = (names: readonly string[]): string => `one of ${names.join(", ")}`;

function namingProblems(
  { thermometers, positions, reference, steps }: SurveyDescription,
  logs: readonly ThermometerLog[],
): Problem[] {
  const problems: Problem[] = [];
  const logged = logs.map(({ thermometer }) => thermometer);
  for (const name of Object.keys(thermometers)) {
    if (!logged.includes(name))
      problems.push({ place: `thermometers.${name}`, value: show(name), accepted: list(logged) });
  }
  if (!Object.hasOwn(positions, reference)) {
    problems.push({ place: "reference", value: show(reference), accepted: list(Object.keys(positions)) });
  }
  steps.forEach(({ at }, i) => {
    for (const [name, position] of Object.entries(at)) {
      if (!Object.hasOwn(thermometers, name)) {
        problems.push({ place: `steps.${i}.at.${name}`, value: show(name), accepted: list(Object.keys(thermometers)) });
      }
      if (!Object.hasOwn(positions, position)) {
        problems.push({
          place: `steps.${i}.at.${name}`,
          value: show(position),
          accepted: list(Object.keys(positions)),
        });
      }
    }
  });
  return problems;
}

/** Synchronous differences of every pair that stood in the bath together. */
export function pairSteps(
  description: SurveyDescription,
  logs: readonly ThermometerLog[],
  steps: readonly UsableStep[],
): readonly PairStep[] {
  const names = Object.keys(description.thermometers);
  const gapOf = new Map(
    logs.map((log) => [log.thermometer, samplingOf(log, description.maximumGapSeconds).maximumGap]),
  );
  const pairs: PairStep[] = [];
  for (const { step, from, to, at } of steps) {
    for (const [i, first] of names.entries()) {
      for (const second of names.slice(i + 1)) {
        const positions = [at[first], at[second]] as const;
        if (positions[0] === undefined || positions[1] === undefined) continue;
        const [a, b] = [first, second].map((name) => logs.find(({ thermometer }) => thermometer === name)!);
        pairs.push({
          step,
          positions: [positions[0], positions[1]],
          difference: synchronousDifference(a!, b!, from, to, gapOf.get(second)!),
        });
      }
    }
  }
  return pairs;
}

/** The stretch over which a thermometer stayed at one position. */
export interface Stay {
  readonly thermometer: string;
  readonly position: string;
  readonly from: number;
  readonly to: number;
}

/** Which stay the stability is judged from: the one asked for, else the longest stay at the reference position. */
export function stabilityStay(description: SurveyDescription, steps: readonly UsableStep[]): Stay {
  const stays: Stay[] = [];
  for (const thermometer of Object.keys(description.thermometers)) {
    let gone = false;
    for (const { from, to, at } of steps) {
      const position = at[thermometer];
      const last = stays.at(-1);
      // A step in which it is out of the bath ends a stay as moving it does.
      if (position !== undefined && last?.thermometer === thermometer && last.position === position && !gone) {
        stays[stays.length - 1] = { ...last, to };
      } else if (position !== undefined) stays.push({ thermometer, position, from, to });
      gone = position === undefined;
    }
  }
  const { thermometer, from, to } = description.stability ?? {};
  if (thermometer !== undefined && !Object.hasOwn(description.thermometers, thermometer)) {
    refuse("stability.thermometer", thermometer, `one of ${Object.keys(description.thermometers).join(", ")}`);
  }
  const candidates = stays.filter(
    (stay) =>
      (thermometer === undefined || stay.thermometer === thermometer) &&
      (from === undefined || stay.from <= from) &&
      (to === undefined || stay.to >= to),
  );
  if (candidates.length === 0) {
    refuse(
      "stability",
      `${thermometer ?? "any thermometer"} from ${from === undefined ? "the start" : showInstant(from)} to ${to === undefined ? "the end" : showInstant(to)}`,
      "a thermometer and a time through which it stayed at one position",
    );
  }
  const length = (stay: Stay): number => stay.to - stay.from + (stay.position === description.reference ? 1e9 : 0);
  const best = candidates.reduce((a, b) => (length(b) > length(a) ? b : a));
  return { ...best, from: from ?? best.from, to: to ?? best.to };
}

/** The log of a stay. */
export const logOfStay = (stay: Stay, logs: readonly ThermometerLog[]): ThermometerLog =>
  between(
    logs.find(({ thermometer }) => thermometer === stay.thermometer)!,
    stay.from,
    stay.to,
  );
