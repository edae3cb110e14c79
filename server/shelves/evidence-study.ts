import { type Statement } from "../../engine/index.ts";
import { everyInput } from "../../engine/internal.ts";
import type {
  EvaluatedEvidence,
  EvidenceInputs,
  EvidenceStudy,
  EvidenceStudyRequest,
} from "../../viewer/api/evidence-evaluation.ts";
import { refused } from "../errors.ts";
import { inFile } from "../intake/in-file.ts";
import { newStudy } from "./new-study.ts";
import { loadStudyDocument } from "./study.ts";

type Document = Readonly<Record<string, unknown>>;

/** What evidence may go into: every input of the study's model. @throws {Fault} a study that cannot be used */
export async function inputsOf(document: Document): Promise<EvidenceInputs> {
  // Only registered models: nobody runs code by sending a path.
  const { model, study } = await loadStudyDocument(document, null);
  const { bath } = document as { readonly bath?: { readonly setTemperature?: unknown } };
  return {
    title: study.title,
    temperature: typeof bath?.setTemperature === "number" ? bath.setTemperature : null,
    inputs: Object.entries(everyInput(model)).map(([name, { symbol, meaning, unit }]) => ({
      name,
      symbol,
      meaning,
      unit,
      stated: Object.hasOwn(study.inputs, name),
    })),
  };
}

/**
 * The study with evaluated quantities in place of its own, each in the input it was given to. A statement keeps its own
 * unit if the input has another; the engine converts it, or refuses units that do not go together.
 *
 * @throws {Fault | InputError} a quantity that was not evaluated, or an input that cannot take it
 */
export async function studyWith(
  { statements, notStated }: EvaluatedEvidence,
  { into }: Pick<EvidenceStudyRequest, "into">,
  document: Document,
): Promise<EvidenceStudy> {
  const { inputs } = await inputsOf(document);
  const given = Object.entries(into);
  if (given.length === 0)
    throw refused("into", "nothing", `an input for at least one of ${Object.keys(statements).join(", ")}`);
  const made: Record<string, Statement> = {};
  for (const [quantity, input] of given) {
    const stated = Object.hasOwn(statements, quantity) ? statements[quantity]! : undefined;
    if (stated === undefined)
      throw refused(
        `into.${quantity}`,
        input,
        notStated ?? `a quantity of this evidence: ${Object.keys(statements).join(", ")}`,
      );
    const target = inputs.find(({ name }) => name === input);
    if (target === undefined)
      throw refused(`into.${quantity}`, input, `an input of the study: ${inputs.map(({ name }) => name).join(", ")}`);
    if (Object.hasOwn(made, input)) throw refused(`into.${quantity}`, input, "an input that no other quantity goes to");
    made[input] = inUnitOf(target.unit, stated.statement as unknown as Statement, stated.unit);
  }
  const file = {
    path: "study.json",
    document,
    inputs: (document as { readonly inputs: Document }).inputs,
  };
  const study = await inFile("the study with the evaluated quantities", () =>
    newStudy(file, { statements: made }, null),
  );
  return { study: study.document };
}

/** A statement in its own unit, as an input in another takes it. Differences of temperature go into K and °C as they are. */
export function inUnitOf(unit: string, statement: Statement, own: string): Statement {
  const same = unit === own || (own === "K" && unit === "°C");
  return same ? statement : { ...statement, unit: own };
}
