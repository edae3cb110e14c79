import { requirementsOf, type Requirement } from "../study/conformity-statement.ts";
import { coverageOf, type Coverage } from "../coverage/coverage.ts";
import type { InputKnowledge } from "../distributions/distribution.ts";
import { knowledgeOfInput } from "../distributions/index.ts";
import { InputError, refuse, show, type Problem } from "../errors.ts";
import { linearBudget, type LinearBudget } from "../linear/budget.ts";
import { everyInput, type Model, type Safety } from "../model.ts";
import { closestName } from "../closest-name.ts";
import type { LeftOutInput } from "../record/record.ts";
import { dependenceOf, type Correlation } from "../dependence/dependence.ts";
import { generatorOf } from "../random/index.ts";
import type { Study } from "../study/study.ts";
import { linearisedModel } from "../paired/linearised-model.ts";
import { batchTrials, fewestTrials, type TrialSource } from "../trials/batch.ts";

/** A study checked against its model, ready to be propagated. */
export interface Prepared {
  /** With those of its optional inputs that the study states. */
  readonly model: Model;
  /** Optional inputs that the study does not state. */
  readonly leftOut: readonly LeftOutInput[];
  readonly study: Study;
  readonly coverage: Coverage;
  readonly knowledge: Readonly<Record<string, InputKnowledge>>;
  readonly correlations: readonly Correlation[];
  readonly linear: Readonly<Record<string, LinearBudget>>;
  /** The requirement of each measurand, if the study states one. */
  readonly requirements: Readonly<Record<string, Requirement>>;
  readonly safety: Safety;
  readonly source: TrialSource;
  /** Trials per batch. */
  readonly batch: number;
  /** Greatest number of trials of the run. */
  readonly limit: number;
}

/** Batches that an adaptive run commonly has: windows about its endpoints are as wide as suits this number. */
const ADAPTIVE_BATCHES = 40;

/**
 * Ties a study to its model: every input known and given, every statement sound, the linear budget computed.
 *
 * @throws {InputError} every problem of the inputs and of the bath
 * @throws {ModelError} a model that is not finite at the estimates
 */
export function prepare(declared: Model, study: Study): Prepared {
  const coverage = coverageOf(study.coverage);
  const { model, knowledge, leftOut, safety } = checkedInputs(declared, study);
  const lines = Object.fromEntries(Object.entries(knowledge).map(([name, { budget }]) => [name, budget]));
  const names = Object.keys(model.inputs);
  const { groups, correlations } = dependenceOf(names, knowledge, study.inputs, study.correlations);
  const linear = linearBudget(model, lines, correlations, coverage);
  if (study.undefinedTrials === "leave-out" && study.sensitivity !== null)
    refuse(
      "sensitivity",
      "an analysis",
      "nothing where undefined trials are left out: its estimators need every trial",
    );
  const batch = batchTrials(coverage.probability);
  const fewest = fewestTrials(coverage.probability);
  if (study.trials !== "adaptive" && study.trials < fewest) {
    throw new InputError([
      {
        place: "trials",
        value: show(study.trials),
        accepted: `at least 100/(1 − p) = ${fewest} trials at this coverage probability, so that 50 lie beyond either end`,
      },
    ]);
  }
  if (study.trials === "adaptive" && study.maximumTrials < 2 * batch) {
    throw new InputError([
      {
        place: "maximumTrials",
        value: show(study.maximumTrials),
        accepted: `at least two batches of ${batch} trials at this coverage probability`,
      },
    ]);
  }
  return {
    model,
    leftOut,
    study,
    coverage,
    knowledge,
    correlations,
    linear,
    requirements: requirementsOf(study.conformity, model.measurands, model.toleranceSpecifications),
    safety,
    source: {
      model,
      groups,
      seed: study.seed,
      generator: generatorOf(study.generator),
      coverage,
      settling: study.trials === "adaptive",
      leavesOut: study.undefinedTrials === "leave-out",
      linearised: Object.keys(model.measurands).map((name) =>
        coverage.interval === "shortest" ? null : linearisedModel(linear[name]!, knowledge),
      ),
      expected: study.trials === "adaptive" ? ADAPTIVE_BATCHES * batch : study.trials,
    },
    batch,
    limit: study.trials === "adaptive" ? Math.floor(study.maximumTrials / batch) * batch : study.trials,
  };
}

/**
 * What a study states of its model's inputs, checked.
 *
 * @throws {InputError} every problem of the inputs and of the bath
 */
export function checkedInputs(
  declared: Model,
  study: Study,
): Pick<Prepared, "model" | "knowledge" | "leftOut" | "safety"> {
  const model = asStated(declared, study);
  const problems: Problem[] = [];
  const knowledge = knowledgeOf(model, study, problems);
  const leftOut = leftOutOf(declared, study, problems);
  const safety = safetyOf(model, study, problems);
  if (problems.length > 0) throw new InputError(problems);
  return { model, knowledge, leftOut, safety };
}

/** The model with those of its optional inputs that the study states; the others never reach its function. */
function asStated(model: Model, study: Study): Model {
  const stated = Object.entries(model.optionalInputs ?? {}).filter(([name]) => Object.hasOwn(study.inputs, name));
  return stated.length === 0 ? model : { ...model, inputs: { ...model.inputs, ...Object.fromEntries(stated) } };
}

function leftOutOf({ id, optionalInputs = {} }: Model, study: Study, problems: Problem[]): LeftOutInput[] {
  const reasons = study.negligible ?? {};
  for (const name of Object.keys(reasons)) {
    const known = Object.hasOwn(optionalInputs, name);
    if (known && !Object.hasOwn(study.inputs, name)) continue;
    problems.push({
      place: `negligible.${name}`,
      value: show(reasons[name]),
      accepted: known
        ? `nothing beside a statement of it under inputs`
        : `an optional input of model ${id}: ${Object.keys(optionalInputs).join(", ") || "it has none"}`,
    });
  }
  return Object.entries(optionalInputs)
    .filter(([name]) => !Object.hasOwn(study.inputs, name))
    .map(([name, { symbol, meaning, unit }]) => ({ name, symbol, meaning, unit, because: reasons[name] ?? null }));
}

/** The input that a misspelt name most likely means, as the end of a message. */
function meant(name: string, inputs: Readonly<Record<string, unknown>>): string {
  const found = closestName(name, Object.keys(inputs));
  return found === null ? "" : `; did you mean ${found}?`;
}

function knowledgeOf(model: Model, study: Study, problems: Problem[]): Record<string, InputKnowledge> {
  const knowledge: Record<string, InputKnowledge> = {};
  for (const name of Object.keys(study.inputs)) {
    if (Object.hasOwn(model.inputs, name)) continue;
    problems.push({
      place: `inputs.${name}`,
      value: show(study.inputs[name]!.distribution),
      accepted: `nothing: model ${model.id} has no such input, only ${Object.keys(everyInput(model)).join(", ")}${meant(name, everyInput(model))}`,
    });
  }
  for (const [name, quantity] of Object.entries(model.inputs)) {
    const statement = study.inputs[name];
    if (statement === undefined) {
      problems.push({
        place: `inputs.${name}`,
        value: "nothing",
        accepted: `a distribution for ${quantity.symbol}, ${quantity.meaning}, in ${quantity.unit}`,
      });
      continue;
    }
    const read = gathering(problems, () => knowledgeOfInput(quantity, statement, `inputs.${name}`));
    if (read !== null) knowledge[name] = read;
  }
  return knowledge;
}

/** The model's cautions about the study's bath; without a bath, its general ones. */
function safetyOf(model: Model, { bath }: Study, problems: Problem[]): Safety {
  const usual: Safety = { warnings: [], cautions: model.cautions ?? [] };
  if (bath === undefined) return usual;
  if (model.safety === undefined) {
    problems.push({ place: "bath", value: show(bath), accepted: `nothing: model ${model.id} does not judge a bath` });
    return usual;
  }
  return gathering(problems, () => model.safety!(bath)) ?? usual;
}

/** Gathers the problems of a reader instead of passing them on: `null` where there were some. */
function gathering<T>(problems: Problem[], read: () => T): T | null {
  try {
    return read();
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    problems.push(...error.problems);
    return null;
  }
}
