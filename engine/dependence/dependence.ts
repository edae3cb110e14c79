import type { Distribution, InputKnowledge } from "../distributions/distribution.ts";
import { InputError, refuse, show, type Problem } from "../errors.ts";
import type { Statement } from "../distributions/index.ts";
import { cholesky } from "../numerics/cholesky.ts";
import { requirePositiveSemiDefinite } from "./correlation-matrix.ts";
import { copula, multivariateNormal, multivariateT } from "./correlated-groups.ts";
import type { CorrelationStatement } from "../study/correlation-statement.ts";
import type { Group } from "./group.ts";
import { fromRanks, fromValues, marginalOf, valueCorrelation, type Marginal } from "./normal-correlation.ts";

/** A correlation as the linear budget takes it: that of the values. */
export interface Correlation {
  readonly between: readonly [string, string];
  readonly coefficient: number;
  readonly source: string | null;
  /** Whether the standard uncertainties of both come from the same observations: a joint t distribution. */
  readonly together: boolean;
}

export interface Dependence {
  readonly groups: readonly Group[];
  readonly correlations: readonly Correlation[];
}

/**
 * From the correlations a study states, the groups of inputs to draw together:
 *
 * - normal members: the multivariate normal (JCGM 101, 6.4.8);
 * - t members of equal ν, unless a correlation says that their series are separate: the multivariate t; indications of
 *   several quantities made together: t with ν = n − N and the scale matrix of JCGM 102, 5.3.2;
 * - any other: a Gaussian copula, whose correlation is chosen so that values, or ranks, have the coefficient asked for.
 *
 * @throws {InputError} an unknown or repeated input, a coefficient that cannot be, coefficients that contradict
 */
export function dependenceOf(
  names: readonly string[],
  knowledge: Readonly<Record<string, InputKnowledge>>,
  statements: Readonly<Record<string, Statement>>,
  stated: readonly CorrelationStatement[],
): Dependence {
  const checked = check(names, knowledge, statements, stated);
  const groups: Group[] = [];
  const correlations: Correlation[] = [];
  const seen = new Set<string>();
  for (const name of names) {
    if (seen.has(name)) continue;
    const members = connected(name, names, checked);
    for (const member of members) seen.add(member);
    if (members.length === 1) {
      groups.push(lone(name, knowledge[name]!.distribution));
      continue;
    }
    const made = group(
      members,
      knowledge,
      statements,
      // A coefficient of 0 may lead out of the group.
      checked.filter(({ between }) => between.every((member) => members.includes(member))),
    );
    groups.push(made.group);
    correlations.push(...made.correlations);
  }
  return { groups, correlations };
}

interface Checked {
  readonly between: readonly [string, string];
  readonly coefficient: number;
  readonly refersTo: "values" | "ranks";
  readonly fromReadings: boolean;
  readonly series: CorrelationStatement["series"];
  readonly source: string | null;
  readonly place: string;
}

function check(
  names: readonly string[],
  knowledge: Readonly<Record<string, InputKnowledge>>,
  statements: Readonly<Record<string, Statement>>,
  stated: readonly CorrelationStatement[],
): Checked[] {
  const problems: Problem[] = [];
  const pairs = new Set<string>();
  const checked: Checked[] = [];
  stated.forEach((statement, index) => {
    const place = `correlations.${index}`;
    const [a, b] = statement.between;
    const unknown = statement.between.find((name) => !names.includes(name));
    if (unknown !== undefined) {
      problems.push({
        place: `${place}.between`,
        value: show(unknown),
        accepted: `inputs of the model: ${names.join(", ")}`,
      });
      return;
    }
    const constant = statement.between.find((name) => knowledge[name]!.distribution.standardDeviation === 0);
    const key = [a, b].toSorted().join("|");
    if (a === b || pairs.has(key) || constant !== undefined) {
      const accepted =
        constant === undefined ? "two different inputs, each pair once" : `inputs that vary: ${constant} is a constant`;
      problems.push({ place: `${place}.between`, value: show(statement.between), accepted });
      return;
    }
    pairs.add(key);
    const fromReadings = statement.coefficient === "readings";
    const coefficient = fromReadings
      ? readingsCorrelation(statements[a]!, statements[b]!)
      : (statement.coefficient as number);
    if (coefficient === null) {
      problems.push({
        place: `${place}.coefficient`,
        value: show("readings"),
        accepted: `a number from -1 to 1, since ${a} and ${b} are not both stated by the same number of readings`,
      });
      return;
    }
    if (fromReadings && statement.series === "separate") {
      problems.push({
        place: `${place}.series`,
        value: show("separate"),
        accepted: "simultaneous, or nothing: a coefficient from the readings themselves",
      });
      return;
    }
    checked.push({
      between: [a, b],
      coefficient,
      refersTo: statement.refersTo,
      fromReadings,
      series: statement.series,
      source: statement.source ?? null,
      place,
    });
  });
  if (problems.length > 0) throw new InputError(problems);
  return checked;
}

function connected(start: string, names: readonly string[], checked: readonly Checked[]): string[] {
  const found = new Set([start]);
  for (let grew = true; grew;) {
    grew = false;
    for (const { between, coefficient } of checked) {
      if (coefficient === 0 || found.has(between[0]) === found.has(between[1])) continue;
      for (const name of between) found.add(name);
      grew = true;
    }
  }
  return names.filter((name) => found.has(name));
}

const lone = (name: string, distribution: Distribution): Group => ({
  members: [name],
  distributions: [distribution],
  kind: null,
  normals: null,
  sample: (from, out, count) => distribution.sample(from[0]!, out[0]!, count),
  dimensions: distribution.standardDeviation === 0 ? 0 : 1,
  fromUniforms(uniforms, out, count) {
    const column = out[0]!;
    if (uniforms.length === 0) column.fill(distribution.mean!, 0, count);
    else for (let t = 0; t < count; t++) column[t] = distribution.quantile(uniforms[0]![t]!);
  },
});

function group(
  members: readonly string[],
  knowledge: Readonly<Record<string, InputKnowledge>>,
  statements: Readonly<Record<string, Statement>>,
  checked: readonly Checked[],
): { group: Group; correlations: Correlation[] } {
  const indexOf = (name: string): number => members.indexOf(name);
  const distributions = members.map((name) => knowledge[name]!.distribution);
  const marginals = distributions.map(marginalOf);
  const elliptical = ellipticalKind(members, knowledge, statements, checked);
  const stated: number[][] = members.map((_, i) => members.map((__, j) => (i === j ? 1 : 0)));
  const normals = stated.map((row) => [...row]);
  const correlations: Correlation[] = [];
  const together = elliptical !== null && elliptical !== Infinity;
  for (const { between, coefficient, refersTo, place, source } of checked) {
    const [i, j] = [indexOf(between[0]), indexOf(between[1])];
    const ofValues = refersTo === "values";
    // Values of an elliptical distribution have the correlation of the normals behind them.
    const ρ = !ofValues
      ? fromRanks(coefficient)
      : elliptical === null
        ? fromValues(coefficient, marginals[i]!, marginals[j]!, place)
        : coefficient;
    const value = ofValues ? coefficient : elliptical === null ? ofValuesOrNone(ρ, marginals[i]!, marginals[j]!) : ρ;
    stated[i]![j] = stated[j]![i] = coefficient;
    normals[i]![j] = normals[j]![i] = ρ;
    correlations.push({ between, coefficient: value, source, together });
  }
  requirePositiveSemiDefinite(stated, members);
  requirePositiveSemiDefinite(normals, members);
  const { factor } = cholesky(normals);
  if (elliptical === null) return { group: copula(members, distributions, factor), correlations };
  if (elliptical === Infinity) return { group: multivariateNormal(members, distributions, factor), correlations };
  const n = readingsTogether(members, statements, checked);
  // N quantities indicated together n times: ν = n − N, and the scatter divided by ν in place of n − 1.
  const ν = n === null ? elliptical : n - members.length;
  if (ν < 1) {
    throw new InputError([
      {
        place: "correlations",
        value: `${n} simultaneous readings of ${members.length} inputs`,
        accepted: `at least ${members.length + 1} readings of each`,
      },
    ]);
  }
  const widen = n === null ? 1 : Math.sqrt((n - 1) / ν);
  const scales = members.map((name) => knowledge[name]!.budget.standardUncertainty * widen);
  const locations = members.map((name) => knowledge[name]!.budget.estimate);
  return { group: multivariateT(members, locations, scales, ν, factor), correlations };
}

/** The correlation of values that the budget takes where ranks were stated; theirs, where values have none. */
function ofValuesOrNone(ρ: number, a: Marginal, b: Marginal): number {
  const exists = [a, b].every(({ distribution: { standardDeviation: s } }) => s !== null && Number.isFinite(s));
  return exists ? valueCorrelation(a, b)(ρ) : ρ;
}

/** Whether correlated inputs can have a joint t distribution: t inputs, or readings, of equal degrees of freedom. */
export const haveJointT = (
  members: readonly { readonly distribution: string; readonly degreesOfFreedom: number | null }[],
): boolean =>
  members.every(
    ({ distribution, degreesOfFreedom }) =>
      (distribution === "t" || distribution === "readings") && degreesOfFreedom === members[0]!.degreesOfFreedom,
  );

/**
 * Common degrees of freedom of an elliptical joint distribution (∞: normal), or `null` where there is none.
 *
 * @throws {InputError} series stated as simultaneous of inputs that have no joint t distribution
 */
function ellipticalKind(
  members: readonly string[],
  knowledge: Readonly<Record<string, InputKnowledge>>,
  statements: Readonly<Record<string, Statement>>,
  checked: readonly Checked[],
): number | null {
  if (members.every((name) => statements[name]!.distribution === "normal")) return Infinity;
  const ν = knowledge[members[0]!]!.budget.degreesOfFreedom;
  const common = haveJointT(
    members.map((name) => ({
      distribution: statements[name]!.distribution,
      degreesOfFreedom: knowledge[name]!.budget.degreesOfFreedom,
    })),
  );
  const separate = checked.find(({ series }) => series === "separate");
  const simultaneous = checked.find(({ series }) => series === "simultaneous");
  if (simultaneous !== undefined && (!common || separate !== undefined)) {
    refuse(
      `${simultaneous.place}.series`,
      "simultaneous",
      common
        ? `the same series for every correlation among ${members.join(", ")}: ${separate!.between.join("–")} has separate`
        : `separate, or nothing: ${members.join(", ")} are not all t inputs of equal degrees of freedom`,
    );
  }
  return common && separate === undefined ? ν : null;
}

/** How many indications were made together, where every coefficient of the group comes from them. */
function readingsTogether(
  members: readonly string[],
  statements: Readonly<Record<string, Statement>>,
  checked: readonly Checked[],
): number | null {
  if (!checked.every(({ fromReadings }) => fromReadings)) return null;
  const first = statements[members[0]!]!;
  return first.distribution === "readings" ? first.values.length : null;
}

/** Sample correlation of two rows of simultaneous indications, or `null` where they are not such. */
function readingsCorrelation(a: Statement, b: Statement): number | null {
  if (a.distribution !== "readings" || b.distribution !== "readings") return null;
  if (a.pooledStandardDeviation !== undefined || b.pooledStandardDeviation !== undefined) return null;
  const n = a.values.length;
  if (b.values.length !== n) return null;
  const mean = (values: readonly number[]): number =>
    values.reduce((sum, value) => sum + (value - values[0]!), 0) / n + values[0]!;
  const [ma, mb] = [mean(a.values), mean(b.values)];
  let aa = 0;
  let bb = 0;
  let ab = 0;
  for (let i = 0; i < n; i++) {
    const da = a.values[i]! - ma;
    const db = b.values[i]! - mb;
    aa += da * da;
    bb += db * db;
    ab += da * db;
  }
  return ab / Math.sqrt(aa * bb);
}
