import type { Choice, Confirmation, Plan, Reached } from "../../../models/index.ts";
import { fillText } from "../fill.ts";
import { decimalsFor, overUnit } from "../numbers.ts";
import { labelOf } from "../pictures/label.ts";
import type { Label } from "../pictures/scene.ts";
import type { Speech } from "../statement.ts";
import { figureCell, type Table } from "./table.ts";

const U = { symbol: "U" };

/** Three digits of the smallest uncertainty, so that a prediction and its run can be told apart. */
const placesOf = ({ points }: Plan): number =>
  Math.max(0, decimalsFor(Math.min(...points.flatMap(({ now, proposed }) => [now.claimed, proposed.claimed])), 3));

/** A step in words: "probe readings: 40 indications". */
function stepText({ levers }: Plan, { lever, step }: Choice, { messages, numbers }: Speech): string {
  const words = messages.planning;
  const { name, kind, steps } = levers[lever]!;
  const text = steps[step]!;
  if (kind === "replace") return `${name}: ${text}`;
  const to = numbers.plain(Number(text));
  const said =
    kind === "readings"
      ? fillText(words.readings, { count: numbers.whole(Number(text)) })
      : fillText(words[kind as "window" | "zone" | "scale"], { to });
  return `${name}: ${said}`;
}

/** Steps that are taken together, in words. */
export const stepsText = (plan: Plan, choices: readonly Choice[], speech: Speech): string =>
  choices.length === 0
    ? speech.messages.planning.nothing
    : choices.map((choice) => stepText(plan, choice, speech)).join("; ");

function costText({ costUnit }: Plan, cost: number, { messages, numbers }: Speech): string {
  const words = messages.planning;
  return costUnit === null
    ? fillText(words.countOf, { count: numbers.whole(cost) })
    : fillText(words.costOf, { cost: numbers.plain(cost), unit: ` ${costUnit}` });
}

/** What is proposed, and whether a run confirmed it, as sentences. */
export function planSentences(plan: Plan, confirmation: Confirmation | null, speech: Speech): string[] {
  const { messages, numbers } = speech;
  const words = messages.planning;
  const { proposal, meets } = plan;
  const worst = numbers.percent(proposal.worst);
  const said = { steps: stepsText(plan, proposal.choices, speech), cost: costText(plan, proposal.cost, speech), worst };
  return [
    meets && proposal.choices.length === 0
      ? fillText(words.enough, { worst })
      : fillText(meets ? words.proposal : words.unreachable, said),
    confirmation === null ? words.notConfirmed : confirmedSentence(plan, confirmation, speech),
  ];
}

function confirmedSentence({ unit }: Plan, found: Confirmation, { messages, numbers }: Speech): string {
  const words = messages.planning;
  const missed = found.points.filter(({ meets }) => !meets);
  return fillText(found.meets ? words.confirmedMet : words.confirmedMissed, {
    trials: numbers.whole(found.trials),
    difference: numbers.percent(found.largestDifference),
    ...(found.meets
      ? {}
      : { points: `${numbers.list([...new Set(missed.map(({ at }) => numbers.plain(at)))])} ${unit}` }),
  });
}

/** How predictions came about, and what the steps taken together assume. */
export function planRemarks({ levers }: Plan, { messages }: Speech): string[] {
  const words = messages.planning;
  const kinds = new Set(levers.map(({ kind }) => kind));
  return [
    words.rule,
    ...(kinds.has("readings") ? [words.assumeReadings] : []),
    ...(kinds.has("window") ? [words.assumeWindow] : []),
    ...(kinds.has("zone") ? [words.assumeZone] : []),
  ];
}

/** Present, target and proposal at every point, with what the run found. */
export function planPointsTable(plan: Plan, confirmation: Confirmation | null, speech: Speech): Table {
  const { messages, numbers } = speech;
  const words = messages.planning;
  const places = placesOf(plan);
  const withParts = plan.points.some(({ part }) => part !== null);
  const fixed = (value: number) => figureCell(numbers.fixed(value, places), value);
  return {
    caption: labelOf(words.points, { U, p: numbers.probability(plan.probability), unit: plan.measurandUnit }),
    columns: [
      { head: labelOf(words.at, { t: { symbol: "t" }, unit: overUnit("", plan.unit) }), kind: "head" },
      ...(withParts ? [{ head: words.part, kind: "text" } as const] : []),
      { head: labelOf(words.now, { U }), kind: "number" },
      { head: words.target, kind: "number" },
      { head: labelOf(words.predicted, { U }), kind: "number" },
      ...(confirmation === null ? [] : [{ head: labelOf(words.confirmed, { U }), kind: "number" } as const]),
      { head: words.verdict, kind: "text" },
    ],
    rows: plan.points.map(({ at, part, now, target, proposed }, i) => {
      const ran = confirmation?.points[i];
      return {
        head: numbers.plain(at),
        cells: [
          ...(withParts ? [part ?? messages.none] : []),
          fixed(now.claimed),
          fixed(target),
          fixed(proposed.claimed),
          ...(ran === undefined ? [] : [fixed(ran.claimed)]),
          (ran?.meets ?? proposed.claimed <= target) ? words.met : words.missed,
        ],
      };
    }),
  };
}

/** The three inputs whose halving gains most at every point. */
export function halvingsTable(plan: Plan, { messages, numbers }: Speech): Table {
  const words = messages.planning;
  return {
    caption: labelOf(words.halvings, { U }),
    columns: [
      { head: labelOf(words.at, { t: { symbol: "t" }, unit: overUnit("", plan.unit) }), kind: "head" },
      { head: words.first, kind: "text" },
      { head: words.second, kind: "text" },
      { head: words.third, kind: "text" },
    ],
    rows: plan.points.map(({ at, halvings }) => ({
      head: numbers.plain(at),
      cells: [0, 1, 2].map((rank) => {
        const found = halvings[rank];
        return found === undefined
          ? messages.none
          : fillText(words.gain, {
              input: plan.inputs[found.input]!.symbol,
              share: numbers.percent(found.gain),
            });
      }),
    })),
  };
}

const reachedTable = (plan: Plan, caption: Label, head: string, rows: readonly Reached[], speech: Speech): Table => {
  const { messages, numbers } = speech;
  const words = messages.planning;
  return {
    caption,
    columns: [
      { head, kind: "head" },
      {
        head: plan.costUnit === null ? words.steps : fillText(words.cost, { unit: overUnit("", plan.costUnit) }),
        kind: "number",
      },
      { head: labelOf(words.worst, { U }), kind: "number" },
      { head: words.verdict, kind: "text" },
    ],
    rows: rows.map(({ choices, cost, worst }) => ({
      head: stepsText(plan, choices, speech),
      cells: [
        figureCell(numbers.plain(cost), cost),
        figureCell(numbers.percent(worst), worst),
        worst <= 1 ? words.met : words.missed,
      ],
      ...(choices === plan.proposal.choices ? { asked: true as const } : {}),
    })),
  };
};

/** What each step reaches by itself. */
export const aloneTable = (plan: Plan, speech: Speech): Table =>
  reachedTable(
    plan,
    speech.messages.planning.alone,
    speech.messages.planning.lever,
    [plan.present, ...plan.alone],
    speech,
  );

/** Combinations that nothing cheaper equals. */
export const frontierTable = (plan: Plan, speech: Speech): Table =>
  reachedTable(plan, speech.messages.planning.frontier, speech.messages.planning.together, plan.frontier, speech);
