import { prepare, refuse, type Model, type Prepared, type Statement, type Study } from "../../engine/index.ts";
import { dependentFigure } from "../sweep/dependent.ts";
import { statementsAlong } from "../sweep/statements.ts";
import { changesOf, type Changed, type Choice } from "./changed.ts";
import { combinationsOf, costOf, gains, paretoOf } from "./combinations.ts";
import type { PlanDocument } from "./document.ts";
import { halvingsOf, type Halving } from "./halvings.ts";
import { predicted, predictedOf, type Predicted } from "./predict.ts";
import { marginOf, standingOf, type TargetStanding } from "./standing.ts";

export interface PlanPoint {
  readonly at: number;
  readonly part: string | null;
  /** Expanded uncertainty asked for. */
  readonly target: number;
  readonly now: Predicted;
  readonly proposed: Predicted;
  /** Whether the proposal meets the target there, by its prediction. */
  readonly standing: TargetStanding;
  readonly halvings: readonly Halving[];
}

/** Some steps together, with what they cost and reach. */
export interface Reached {
  readonly choices: readonly Choice[];
  /** In the plan's unit, or the number of steps. */
  readonly cost: number;
  /** Greatest claim over target of all points: at most 1 if the target is met everywhere. */
  readonly worst: number;
  readonly standing: TargetStanding;
}

/** What a laboratory could do to reach its target, and what it gains by it. */
export interface Plan {
  readonly quantity: string;
  readonly unit: string;
  readonly measurand: string;
  readonly measurandUnit: string;
  readonly probability: number;
  /** Share of a claim within which a run of the study cannot tell it from its target (`marginOf`). */
  readonly margin: number;
  /** Trials of such a run at each point; `null` for an adaptive one. */
  readonly trials: number | null;
  /** `null` where steps are counted. */
  readonly costUnit: string | null;
  /** The target where it is the same at all points. */
  readonly target: number | null;
  readonly levers: readonly { readonly name: string; readonly kind: string; readonly steps: readonly string[] }[];
  /** Symbol and meaning of every input that a halving names. */
  readonly inputs: Readonly<Record<string, { readonly symbol: string; readonly meaning: string }>>;
  readonly points: readonly PlanPoint[];
  /** The study as it is. */
  readonly present: Reached;
  /** Each step by itself. */
  readonly alone: readonly Reached[];
  /** What no other combination reaches for less: cost rises, the worst claim falls. */
  readonly frontier: readonly Reached[];
  /** The cheapest combination that meets the target everywhere; else the one that comes nearest. */
  readonly proposal: Reached;
  readonly meets: boolean;
}

/** A plan and the study that would carry it out. */
export interface Planned {
  readonly plan: Plan;
  /** To be run, so that the proposal is confirmed: the sweep with the statements of its steps. */
  readonly proposed: Study;
}

/** Most points of a plan: each costs a convolution for every input and every step. */
export const MOST_PLAN_POINTS = 100;
interface Whole extends Reached {
  readonly points: readonly Predicted[];
}

/** Points whose quick figure is at least this part of the worst are computed exactly: k changes by less than the rest. */
const OF_WORST = 0.93;
/** Combinations whose quick figure is so far above the target are not looked at closely. */
const NEAR = 1.06;
/** Most combinations that are looked at closely, and most that the frontier shows. */
const [MOST_CLOSE, MOST_SHOWN] = [80, 24];

/**
 * Plans how to reach a target: what each input's halving gains at each temperature, what each step and each combination of
 * steps reaches, the frontier, and the cheapest combination that meets the target at every point. Claims are the greater of
 * the linear budget's U and the distance of the exact interval of the linearised model; nothing is drawn. All combinations
 * are ranked by their linear u² (changes of inputs that no lever shares add up), the best of them computed exactly.
 *
 * @param study of the sweep, its points written out
 * @throws {InputError} a step that cannot be taken, a study without a sweep over one quantity, too many points
 */
export function planOf(document: PlanDocument, model: Model, study: Study): Planned {
  const { sweep } = study;
  if (sweep === null || sweep.second !== undefined)
    return refuse("sweep", sweep === null ? "no sweep" : "two quantities", "a sweep over one quantity");
  if (sweep.points.length > MOST_PLAN_POINTS)
    return refuse("sweep", `${sweep.points.length} points`, `at most ${MOST_PLAN_POINTS} points`);
  const names = Object.keys(model.measurands);
  const measurand = document.measurand ?? names[0]!;
  if (!names.includes(measurand)) return refuse("measurand", measurand, `one of ${names.join(", ")}`);
  const target = targetsOf(document, sweep.points);
  const levers = changesOf(document.levers, statementsAlong);
  const stated = sweep.points.map(({ inputs }) => ({ ...study.inputs, ...inputs }));
  const base: Study = { ...study, sweep: null, sensitivity: null, conformity: {} };
  /** The study of a point with some steps taken. */
  const at = (i: number, choices: readonly Choice[]): Study => ({
    ...base,
    inputs: withChoices(sweep.points[i]!, stated[i]!, choices, levers),
  });

  const prepared = sweep.points.map((_, i) => prepare(model, at(i, [])));
  const now = prepared.map((one) => predictedOf(one, measurand));
  const { probability } = prepared[0]!.coverage;
  const margin = marginOf(study, now, probability);
  const standingAt = ({ linear, claimed }: Predicted, aim: number) =>
    standingOf(linear, claimed, aim, margin * claimed);
  /** @param linear greatest U of the linear budget over its target */
  const made = (choices: readonly Choice[], worst: number, linear: number): Reached => ({
    choices,
    cost: costOf(document.levers, choices),
    worst,
    standing: standingOf(linear, worst, 1, margin * worst),
  });
  const varianceOf = ({ linear }: Prepared): number => {
    const u = linear[measurand]!.standardUncertainty;
    return u * u;
  };
  const variance = prepared.map(varianceOf);
  // Steps of different levers change different inputs, so that the changes of u² add up; k of the present claim is kept.
  const falls = levers.map((steps, lever) =>
    steps.map((_, step) =>
      sweep.points.map((__, i) => varianceOf(prepare(model, at(i, [{ lever, step }]))) - variance[i]!),
    ),
  );
  const factor = now.map(({ claimed }, i) => (variance[i] === 0 ? 0 : claimed / Math.sqrt(variance[i]!)));
  const quick = (choices: readonly Choice[]): readonly number[] =>
    variance.map((u2, i) => {
      const left = choices.reduce((sum, { lever, step }) => sum + falls[lever]![step]![i]!, u2);
      return (factor[i]! * Math.sqrt(Math.max(0, left))) / target[i]!;
    });
  const exact = (choices: readonly Choice[], i: number): Predicted =>
    choices.length === 0 ? now[i]! : predicted(model, at(i, choices), measurand);
  const ratio = ({ claimed }: Predicted, i: number): number => claimed / target[i]!;
  /** Computed exactly at the points that come near the worst. */
  const reached = (choices: readonly Choice[]): Reached => {
    const ratios = quick(choices);
    const near = Math.max(...ratios) * OF_WORST;
    const places = ratios.flatMap((of, i) => (of >= near ? [i] : []));
    const found = places.map((i) => ({ i, point: exact(choices, i) }));
    return made(
      choices,
      Math.max(...found.map(({ point, i }) => ratio(point, i))),
      Math.max(...found.map(({ point, i }) => point.linear / target[i]!)),
    );
  };
  /** Computed exactly at every point. */
  const whole = (choices: readonly Choice[]): Whole => {
    const points = sweep.points.map((_, i) => exact(choices, i));
    const linear = Math.max(...points.map((point, i) => point.linear / target[i]!));
    return { ...made(choices, Math.max(...points.map(ratio)), linear), points };
  };
  const alone = levers.flatMap((steps, lever) => steps.map((_, step) => reached([{ lever, step }])));
  const all = combinationsOf(document.levers).map((choices) => {
    const worst = Math.max(...quick(choices));
    return made(choices, worst, worst);
  });
  const frontier = strict(thinned(paretoOf(all)).map(({ choices }) => reached(choices)));
  const proposal = proposed(all, frontier, reached, whole);
  const { unit } = model.measurands[measurand]!;
  return {
    plan: {
      quantity: sweep.quantity,
      unit: sweep.unit,
      measurand,
      measurandUnit: unit,
      probability,
      margin,
      trials: study.trials === "adaptive" ? null : study.trials,
      costUnit: document.costUnit ?? null,
      target: new Set(target).size === 1 ? target[0]! : null,
      levers: document.levers.map(({ name, kind, steps }) => ({
        name,
        kind,
        steps: steps.map((step) => ("name" in step ? step.name : String(step.to))),
      })),
      inputs: Object.fromEntries(
        Object.entries(prepared[0]!.model.inputs).map(([name, { symbol, meaning }]) => [name, { symbol, meaning }]),
      ),
      points: sweep.points.map(({ at: value, part }, i) => ({
        at: value,
        part: part ?? null,
        target: target[i]!,
        now: now[i]!,
        proposed: proposal.points[i]!,
        standing: standingAt(proposal.points[i]!, target[i]!),
        halvings: halvingsOf(prepared[i]!, measurand),
      })),
      present: reached([]),
      alone,
      frontier,
      proposal: {
        choices: proposal.choices,
        cost: proposal.cost,
        worst: proposal.worst,
        standing: proposal.standing,
      },
      meets: proposal.worst <= 1,
    },
    proposed: {
      ...study,
      title: document.title,
      sweep: {
        ...sweep,
        points: sweep.points.map((point, i) => ({
          ...point,
          inputs: { ...point.inputs, ...changedBy(point, stated[i]!, proposal.choices, levers) },
        })),
      },
    },
  };
}

function targetsOf({ target }: PlanDocument, points: readonly { readonly at: number }[]): number[] {
  const figure = dependentFigure(target, "target");
  return points.map(({ at: t }) => {
    const found = figure({ t, s: null });
    return found > 0 ? found : refuse("target", found, `a number greater than 0 at ${t}`);
  });
}

const changedBy = (
  point: Parameters<Changed>[0],
  stated: Readonly<Record<string, Statement>>,
  choices: readonly Choice[],
  levers: readonly (readonly Changed[])[],
): Readonly<Record<string, Statement>> =>
  Object.assign({}, ...choices.map(({ lever, step }) => levers[lever]![step]!(point, stated))) as Record<
    string,
    Statement
  >;

const withChoices = (...[point, stated, choices, levers]: Parameters<typeof changedBy>) => ({
  ...stated,
  ...changedBy(point, stated, choices, levers),
});

/** The cheapest combination that meets the target when it is computed exactly; else the one of the frontier that comes nearest. */
function proposed(
  all: readonly Reached[],
  frontier: readonly Reached[],
  reached: (choices: readonly Choice[]) => Reached,
  whole: (choices: readonly Choice[]) => Whole,
): Whole {
  const close = all
    .filter(({ worst }) => worst <= NEAR)
    .toSorted((a, b) => a.cost - b.cost || a.worst - b.worst)
    .slice(0, MOST_CLOSE);
  for (const { choices } of close) {
    if (reached(choices).worst > 1) continue;
    const found = whole(choices);
    if (found.worst <= 1) return found;
  }
  return whole((frontier.find(({ worst }) => worst <= 1) ?? frontier.at(-1)!).choices);
}

/** Evenly chosen ones of a long list, its ends among them. */
const thinned = <T>(list: readonly T[]): readonly T[] =>
  list.length <= MOST_SHOWN
    ? list
    : Array.from({ length: MOST_SHOWN }, (_, i) => list[Math.round((i * (list.length - 1)) / (MOST_SHOWN - 1))]!);

/** Without those that exact figures show to gain too little over a cheaper one. */
function strict(list: readonly Reached[]): readonly Reached[] {
  const found: Reached[] = [];
  for (const one of list) if (gains(one, found.at(-1))) found.push(one);
  return found;
}
