import type { Choice, Confirmation, Plan, Reached } from "../../../models/index.ts";
import { fillText } from "../fill.ts";
import { mostGaining } from "../most-gaining.ts";
import { decimalsFor, overUnit } from "../numbers.ts";
import { labelOf } from "../pictures/label.ts";
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
    ...(confirmation === null && proposal.standing === "undecided" ? [atMargin(plan, speech)] : []),
    confirmation === null ? words.notConfirmed : confirmedSentence(plan, confirmation, speech),
  ];
}

/** That a run of so many trials may come out on either side of the target. */
const atMargin = ({ margin, trials }: Plan, { messages, numbers }: Speech): string =>
  trials === null
    ? fillText(messages.planning.atMarginAdaptive, { margin: numbers.percent(margin) })
    : fillText(messages.planning.atMargin, { margin: numbers.percent(margin), trials: numbers.whole(trials) });

function confirmedSentence({ unit }: Plan, found: Confirmation, { messages, numbers }: Speech): string {
  const words = messages.planning;
  const { standing } = found;
  const sentences = { met: words.confirmedMet, missed: words.confirmedMissed, undecided: words.confirmedOpen };
  const those = found.points.filter((point) => point.standing === standing);
  return fillText(sentences[standing], {
    trials: numbers.whole(found.trials),
    difference: numbers.percent(found.largestDifference),
    ...(standing === "met"
      ? {}
      : { points: `${numbers.list([...new Set(those.map(({ at }) => numbers.plain(at)))])} ${unit}` }),
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
    rows: plan.points.map((point, i) => {
      const { at, part, now, target, proposed } = point;
      const ran = confirmation?.points[i];
      return {
        head: numbers.plain(at),
        cells: [
          ...(withParts ? [part ?? messages.none] : []),
          fixed(now.claimed),
          fixed(target),
          fixed(proposed.claimed),
          ...(ran === undefined ? [] : [fixed(ran.claimed)]),
          words[(ran ?? point).standing],
        ],
      };
    }),
  };
}

/** What halving each of the inputs that gain most would gain, at every point. */
export function halvingsTable(plan: Plan, { messages, numbers }: Speech): Table {
  const words = messages.planning;
  const inputs = mostGaining(plan);
  return {
    caption: labelOf(words.halvings, { U }),
    columns: [
      { head: labelOf(words.at, { t: { symbol: "t" }, unit: overUnit("", plan.unit) }), kind: "head" },
      ...inputs.map((input) => ({ head: [{ symbol: plan.inputs[input]!.symbol }], kind: "number" }) as const),
    ],
    rows: plan.points.map(({ at, halvings }) => ({
      head: numbers.plain(at),
      cells: inputs.map((input) => {
        const gain = halvings.find((one) => one.input === input)?.gain ?? 0;
        return figureCell(numbers.percent(gain), gain);
      }),
    })),
  };
}

/** What the symbols of the gains stand for. */
export const gainingInputsTable = (plan: Plan, { messages, translate }: Speech): Table => ({
  caption: messages.planning.symbols,
  columns: [
    { head: messages.planning.symbol, kind: "head" },
    { head: messages.planning.meaning, kind: "text" },
  ],
  rows: mostGaining(plan).map((input) => ({
    head: [{ symbol: plan.inputs[input]!.symbol }],
    cells: [translate(plan.inputs[input]!.meaning)],
  })),
});

const reachedColumns = ({ costUnit }: Plan, { messages }: Speech) =>
  ({
    cost:
      costUnit === null ? messages.planning.steps : fillText(messages.planning.cost, { unit: overUnit("", costUnit) }),
    worst: { head: labelOf(messages.planning.worst, { U }), kind: "number" },
    verdict: { head: messages.planning.verdict, kind: "text" },
  }) as const;

const reachedCells = ({ worst, standing }: Reached, { messages, numbers }: Speech) => [
  figureCell(numbers.percent(worst), worst),
  messages.planning[standing],
];

/** What each step reaches by itself. */
export function aloneTable(plan: Plan, speech: Speech): Table {
  const { cost, worst, verdict } = reachedColumns(plan, speech);
  return {
    caption: speech.messages.planning.alone,
    columns: [{ head: speech.messages.planning.lever, kind: "head" }, { head: cost, kind: "number" }, worst, verdict],
    rows: [plan.present, ...plan.alone].map((one) => ({
      head: stepsText(plan, one.choices, speech),
      cells: [figureCell(speech.numbers.plain(one.cost), one.cost), ...reachedCells(one, speech)],
    })),
  };
}

/** Combinations that nothing cheaper equals. The steps stand last: they are as long as they are many. */
export function frontierTable(plan: Plan, speech: Speech): Table {
  const { cost, worst, verdict } = reachedColumns(plan, speech);
  return {
    caption: speech.messages.planning.frontier,
    columns: [{ head: cost, kind: "head" }, worst, verdict, { head: speech.messages.planning.together, kind: "text" }],
    rows: plan.frontier.map((one) => ({
      head: speech.numbers.plain(one.cost),
      cells: [...reachedCells(one, speech), stepsText(plan, one.choices, speech)],
    })),
  };
}
