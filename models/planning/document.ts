import * as z from "zod";
import { InputError, show, type Problem } from "../../engine/index.ts";
import { readBySchema, type Immutable } from "../../engine/internal.ts";
import { dependentFigureSchema } from "../sweep/document.ts";

const name = z.string().min(1).max(80);
const inputs = z.array(z.string().min(1)).min(1).max(20).describe("Names of the input quantities that it changes");
const cost = z.number().gte(0).max(1e12).optional().describe("What the step costs, in the plan's costUnit");
const to = z.number().gt(0).max(1e9);
const most = 12;

const leverSchema = z.discriminatedUnion("kind", [
  z.strictObject({
    kind: z.literal("readings"),
    name,
    inputs,
    steps: z
      .array(z.strictObject({ to: z.int().gte(2).lte(1e6).describe("Number of indications"), cost }))
      .min(1)
      .max(most),
  }),
  z.strictObject({
    kind: z.literal("window"),
    name,
    inputs,
    now: to.describe("Minutes that readings are averaged over now"),
    steps: z
      .array(z.strictObject({ to: to.describe("Minutes"), cost }))
      .min(1)
      .max(most),
  }),
  z.strictObject({
    kind: z.literal("zone"),
    name,
    inputs,
    now: to.describe("Extent of the working zone now, mm"),
    steps: z
      .array(z.strictObject({ to: to.describe("mm"), cost }))
      .min(1)
      .max(most),
  }),
  z.strictObject({
    kind: z.literal("scale"),
    name,
    inputs,
    steps: z
      .array(z.strictObject({ to: to.describe("What its uncertainty is multiplied by: 0.5 halves it"), cost }))
      .min(1)
      .max(most),
  }),
  z.strictObject({
    kind: z.literal("replace"),
    name,
    steps: z
      .array(
        z.strictObject({
          name,
          inputs: z
            .record(z.string(), z.looseObject({ distribution: z.string().min(1) }))
            .describe("Statements in place of those of the sweep; figures may depend on what is swept, as there"),
          cost,
        }),
      )
      .min(1)
      .max(most),
  }),
]);

/** What a laboratory could change, and what it is to reach. */
export const planSchema = z.strictObject({
  $schema: z.string().optional(),
  title: z.string().min(1).max(200),
  notes: z.string().optional(),
  sweep: z.string().min(1).describe("File of the sweep over the range as it is now, beside this document"),
  target: dependentFigureSchema.describe("Expanded uncertainty to be reached, in the unit of the measurand"),
  measurand: z.string().min(1).optional().describe("Measurand of the study; its first if it is left out"),
  costUnit: z.string().min(1).max(20).optional().describe("Unit of the costs; if there are none, steps are counted"),
  levers: z.array(leverSchema).min(1).max(12).describe("What can be changed; of one lever one step is taken at most"),
});

export type PlanDocument = Immutable<z.output<typeof planSchema>>;
export type Lever = PlanDocument["levers"][number];
export type LeverStep = Lever["steps"][number];

/** Inputs that a lever changes. */
export const inputsOf = (lever: Lever): readonly string[] =>
  lever.kind === "replace" ? [...new Set(lever.steps.flatMap((step) => Object.keys(step.inputs)))] : lever.inputs;

/** Most combinations of steps that are looked through. */
const MOST_COMBINATIONS = 50_000;

/** @throws {InputError} every problem found, each with its place */
export function readPlan(document: unknown): PlanDocument {
  const plan = readBySchema(planSchema, document);
  const problems: Problem[] = [];
  const names = plan.levers.map((lever) => lever.name);
  const owners = new Map<string, string>();
  plan.levers.forEach((lever, i) => {
    if (names.indexOf(lever.name) !== i)
      problems.push({ place: `levers.${i}.name`, value: show(lever.name), accepted: "another name for each lever" });
    for (const input of inputsOf(lever)) {
      const owner = owners.get(input);
      if (owner === undefined) owners.set(input, lever.name);
      else
        problems.push({
          place: `levers.${i}`,
          value: show(input),
          accepted: `an input that no other lever changes: ${owner} does`,
        });
    }
    lever.steps.forEach((step, k) => {
      if ((step.cost === undefined) !== (plan.costUnit === undefined))
        problems.push({
          place: `levers.${i}.steps.${k}.cost`,
          value: show(step.cost),
          accepted: plan.costUnit === undefined ? "no cost, or a costUnit of the plan" : `a cost in ${plan.costUnit}`,
        });
    });
  });
  const combinations = plan.levers.reduce((product, { steps }) => product * (1 + steps.length), 1);
  if (combinations > MOST_COMBINATIONS)
    problems.push({
      place: "levers",
      value: `${combinations} combinations of steps`,
      accepted: `at most ${MOST_COMBINATIONS}: fewer levers or steps`,
    });
  if (problems.length > 0) throw new InputError(problems);
  return plan;
}
