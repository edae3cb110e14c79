import type { MeasurandFigures } from "../record/figures.ts";
import type { Cause, CausePart, EndMoves } from "../record/explanation.ts";
import type { Compared } from "./compared-propagations.ts";
import type { TermMove } from "./exact-moves.ts";
import { plus } from "./shapley.ts";

/** An input is named where it makes at least this part of a cause. */
const WORTH_NAMING = 0.02;
const size = ([low, high]: EndMoves): number => Math.max(Math.abs(low), Math.abs(high));

/** The inputs that make a cause, and each one's part of it. */
export type MadeBy = Pick<CausePart, "inputs" | "byInput">;

/**
 * From exact moves of each term.
 *
 * @param allowance half of what the budget's interval is longer for few degrees of freedom
 */
export function madeByTerms(
  terms: readonly TermMove[],
  record: MeasurandFigures,
  allowance: number,
): (cause: Cause) => MadeBy {
  const sizes = new Map(
    terms.flatMap(({ cause, inputs, move }) =>
      cause === "shape" ? inputs.map((input) => [input, size(move)] as const) : [],
    ),
  );
  const moves = (cause: Cause): TermMove[] => terms.filter((term) => term.cause === cause);
  return (cause) => ({
    inputs: responsible(cause, sizes, record),
    ...(cause === "curvature"
      ? {}
      : {
          byInput: (cause === "shape" ? moves(cause) : withAllowance(moves(cause), allowance, record))
            .map(({ inputs, move }) => ({ inputs, shapley: move }))
            .toSorted((a, b) => size(b.shapley) - size(a.shapley)),
        }),
  });
}

/** From estimates of how far each input's shape moves the endpoints, where exact moves are not to be had. */
export const madeByShapes =
  (shapes: ReadonlyMap<string, number>, record: MeasurandFigures) =>
  (cause: Cause): MadeBy => ({ inputs: responsible(cause, shapes, record) });

/** The budget's allowance, shared out as the Welch-Satterthwaite formula adds it up: by the fourth power of a contribution over ν. */
function withAllowance(moves: readonly TermMove[], allowance: number, { linear }: MeasurandFigures): TermMove[] {
  const weights = freedomWeights(linear);
  const total = [...weights.values()].reduce((sum, weight) => sum + weight, 0);
  if (total === 0) return [...moves];
  const drawn = new Set(moves.flatMap(({ inputs }) => inputs));
  const alone = [...weights.keys()].filter((input) => !drawn.has(input));
  return [
    ...moves,
    ...alone.map((input): TermMove => ({ cause: "degreesOfFreedom", inputs: [input], move: [0, 0] })),
  ].map(({ cause, inputs, move }) => {
    const part = (allowance * inputs.reduce((sum, input) => sum + (weights.get(input) ?? 0), 0)) / total;
    return { cause, inputs, move: plus(move, [part, -part]) };
  });
}

/** What each input of finite degrees of freedom adds to 1/ν of the sum. */
function freedomWeights({ contributions, standardUncertainty: u }: MeasurandFigures["linear"]): Map<string, number> {
  if (u === 0) return new Map();
  return new Map(
    contributions.flatMap(({ input, contribution, degreesOfFreedom }) => {
      const z = contribution / u;
      return degreesOfFreedom === null || z === 0 ? [] : [[input, (z * z * z * z) / degreesOfFreedom]];
    }),
  );
}

/** How far each input's shape moves the endpoints, in units of u, by Edgeworth: with κ₃/6 and κ₄/24. */
export function edgeworthShapes({ inputs }: Compared, { linear }: MeasurandFigures): ReadonlyMap<string, number> {
  const u = linear.standardUncertainty;
  return new Map(
    linear.contributions.flatMap(({ input, contribution }, i) => {
      const { overlooked, skewness, excessKurtosis } = inputs[i]!;
      if (overlooked !== "shape" || u === 0) return [];
      const z = contribution / u;
      return [[input, Math.abs((z * z * z * skewness) / 6 + (z * z * z * z * Math.abs(excessKurtosis)) / 24)]];
    }),
  );
}

/** The inputs that make a cause, the strongest first, by their effect on the endpoints. */
function responsible(
  cause: Cause,
  shapes: ReadonlyMap<string, number>,
  { linear, secondOrder }: MeasurandFigures,
): string[] {
  const weights = new Map<string, number>(cause === "shape" ? shapes : []);
  const add = (input: string, weight: number): void =>
    void weights.set(input, (weights.get(input) ?? 0) + Math.abs(weight));
  if (cause === "curvature") {
    for (const { between, term } of secondOrder?.terms ?? []) for (const input of new Set(between)) add(input, term);
  } else if (cause === "degreesOfFreedom") {
    // Finite degrees of freedom make k larger, whether their input is drawn from a t or not. A t's fourth cumulant goes with 1/ν.
    for (const [input, weight] of freedomWeights(linear)) add(input, weight);
  }
  const total = [...weights.values()].reduce((sum, weight) => sum + weight, 0);
  return [...weights]
    .filter(([, weight]) => total > 0 && weight >= WORTH_NAMING * total)
    .sort((a, b) => b[1] - a[1])
    .map(([input]) => input);
}
