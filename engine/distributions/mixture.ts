import * as z from "zod";
import { refuse } from "../errors.ts";
import { guideTable } from "../random/guide-table.ts";
import type { Substream } from "../random/stream.ts";
import { BLOCK_TRIALS } from "../random/block.ts";
import {
  defineDistribution,
  positive,
  statementOf,
  typeB,
  type Atoms,
  type Distribution,
  type DistributionKind,
  type InputKnowledge,
  type StatedQuantity,
} from "./distribution.ts";
import { monotoneInverse } from "../numerics/monotone-inverse.ts";
import { ofOne } from "./field-unit.ts";

/** Each level uses one channel of the substream, which has 32. */
const DEEPEST = 8;

/** Any statement inside another one; its own kind checks the other fields. */
export interface NestedStatement {
  readonly distribution: string;
  readonly [field: string]: unknown;
}

/**
 * One of several distributions, chosen at random: density Σ wᵢ·gᵢ.
 *
 * @param weights probabilities up to a common factor, greater than 0
 * @param components all continuous or all discrete
 */
export function mixtureDistribution(weights: readonly number[], components: readonly Distribution[]): Distribution {
  const largest = Math.max(...weights);
  const total = weights.reduce((sum, weight) => sum + weight / largest, 0);
  const shares = weights.map((weight) => weight / largest / total);
  const cumulative = new Float64Array(shares.length);
  shares.reduce((sum, share, i) => (cumulative[i] = sum + share), 0);
  cumulative[shares.length - 1] = 1;
  const place = guideTable(cumulative);
  const draws = components.map(() => new Float64Array(BLOCK_TRIALS));
  const weighted = (of: (component: Distribution) => number): number =>
    components.reduce((sum, component, i) => sum + shares[i]! * of(component), 0);
  const lower = Math.min(...components.map(({ support }) => support[0]));
  const upper = Math.max(...components.map(({ support }) => support[1]));
  // Rounded shares may not add to 1 exactly.
  const distributionFunction = (x: number): number =>
    x >= upper
      ? 1
      : Math.min(
          1,
          weighted((component) => component.distributionFunction(x)),
        );
  const upperTail = (x: number): number =>
    x < lower
      ? 1
      : Math.min(
          1,
          weighted((component) => component.upperTail?.(x) ?? 1 - component.distributionFunction(x)),
        );
  const density = (x: number): number => weighted((component) => component.density(x));
  const discrete = components[0]!.discrete === true;
  const momentsBelow = Math.min(...components.map((component) => component.momentsBelow ?? Infinity));
  return {
    ...momentsOf(shares, components),
    ...(Number.isFinite(momentsBelow) ? { momentsBelow } : {}),
    support: [lower, upper],
    ...(discrete ? { discrete, atoms: () => mergedAtoms(shares, components) } : {}),
    density,
    distributionFunction,
    upperTail,
    quantile(p) {
      if (p <= 0) return lower;
      if (p >= 1) return upper;
      // Below the smallest of the components' quantiles every component has less than p, above the largest at least p.
      const quantiles = components.map((component) => component.quantile(p));
      const low = Math.min(...quantiles);
      const high = Math.max(...quantiles);
      if (low === high || distributionFunction(low) >= p) return low;
      // A discrete distribution function has no slope, so it is searched by bisection.
      if (discrete) return monotoneInverse(distributionFunction, () => 0, p, low, high);
      return p <= 0.5
        ? monotoneInverse(distributionFunction, density, p, low, high)
        : monotoneInverse((x) => -upperTail(x), density, p - 1, low, high);
    },
    sample(from, out, count) {
      // A trial uses one component only, so all may draw from the same channels; only the choice uses channel 0.
      const above = shifted(from);
      for (let c = 0; c < components.length; c++) components[c]!.sample(above, draws[c]!, count);
      from.uniforms(0, out, count);
      for (let i = 0; i < count; i++) out[i] = draws[place(out[i]!)]![i]!;
    },
  };
}

/** The values of all components, equal ones merged. */
function mergedAtoms(shares: readonly number[], components: readonly Distribution[]): Atoms {
  const parts = components.map((component) => component.atoms!());
  const merged = new Map<number, number>();
  parts.forEach(({ values, probabilities }, c) =>
    values.forEach((value, i) => merged.set(value, (merged.get(value) ?? 0) + shares[c]! * probabilities[i]!)),
  );
  const values = Float64Array.from(merged.keys()).sort();
  return { values, probabilities: values.map((value) => merged.get(value)!) };
}

/** The same substream, with channels counted from 1. */
const shifted = (from: Substream): Substream => ({
  uniforms: (channel, ...rest) => from.uniforms(channel + 1, ...rest),
  normals: (channel, ...rest) => from.normals(channel + 1, ...rest),
  sequence: (channel, index) => from.sequence(channel + 1, index),
});

function momentsOf(
  shares: readonly number[],
  components: readonly Distribution[],
): Pick<Distribution, "mean" | "standardDeviation"> {
  const means = components.map(({ mean }) => mean);
  if (means.includes(null)) return { mean: null, standardDeviation: null };
  const shift = means[0]!;
  const mean = shift + means.reduce<number>((sum, m, i) => sum + shares[i]! * (m! - shift), 0);
  const variance = components.reduce((sum, component, i) => {
    const deviation = component.standardDeviation!;
    const offset = component.mean! - mean;
    return sum + shares[i]! * (deviation * deviation + offset * offset);
  }, 0);
  return { mean, standardDeviation: Math.sqrt(variance) };
}

/** Nesting depth of mixtures. */
function depthOf(statement: NestedStatement): number {
  const components = (statement as { components?: readonly { statement: NestedStatement }[] }).components ?? [];
  return components.reduce((depth, component) => Math.max(depth, 1 + depthOf(component.statement)), 0);
}

const mixtureStatement = (nested: () => z.ZodType<NestedStatement>) =>
  statementOf("mixture", {
    components: z
      .array(
        z.strictObject({
          weight: positive().meta(ofOne("How likely this component is, relative to the others")),
          statement: z.lazy(nested).describe("The component: any statement of a distribution"),
        }),
      )
      .min(1)
      .describe("The distributions, one of which applies"),
  });

/**
 * The kind whose statements contain statements. It needs the schema and the reader of all kinds.
 *
 * Example: a probe is taken from either of two makers' batches; a contact is poor one time in ten, otherwise sound.
 */
export const mixtureOf = (
  nested: () => z.ZodType<NestedStatement>,
  read: (statement: NestedStatement, place: string, quantity: StatedQuantity | undefined) => InputKnowledge,
): DistributionKind<"mixture", ReturnType<typeof mixtureStatement>> =>
  defineDistribution({
    kind: "mixture",
    statement: mixtureStatement(nested),
    read(stated, place, quantity) {
      if (depthOf(stated) > DEEPEST)
        refuse(`${place}.components`, "mixtures within mixtures", `at most ${DEEPEST} within one another`);
      const parts = stated.components.map(
        ({ statement }, i) => read(statement, `${place}.components.${i}.statement`, quantity).distribution,
      );
      const kind = parts[0]!.discrete === true;
      const other = parts.findIndex(({ discrete }) => (discrete === true) !== kind);
      if (other > 0) {
        refuse(
          `${place}.components.${other}.statement.distribution`,
          stated.components[other]!.statement.distribution,
          `a ${kind ? "discrete" : "continuous"} distribution like the first component's: a density and discrete probabilities cannot be combined`,
        );
      }
      const distribution = mixtureDistribution(
        stated.components.map(({ weight }) => weight),
        parts,
      );
      const { mean, standardDeviation: u } = distribution;
      if (mean === null || u === null || !Number.isFinite(u)) {
        return refuse(
          `${place}.components`,
          "a component without a finite standard deviation",
          "components that have one (for t, more than 2 degrees of freedom), since the budget needs it",
        );
      }
      return { distribution, budget: typeB(mean, u) };
    },
  });
