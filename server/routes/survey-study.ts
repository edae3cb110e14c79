import { show, type Statement } from "../../engine/index.ts";
import type { SurveyChoice } from "../../models/index.ts";
import type { EvidenceInputs } from "../../viewer/api/evidence-evaluation.ts";
import { inputsOf, inUnitOf } from "../shelves/evidence-study.ts";
import { newStudy } from "../shelves/new-study.ts";
import { loadStudyDocument } from "../shelves/study.ts";
import { requireFewInputs } from "../runs/limits.ts";
import { inFile } from "../intake/in-file.ts";
import type { StudyShelf } from "../shelves/studies.ts";
import type { Dependencies } from "./route.ts";
import { Fault, refused } from "../errors.ts";
import { surveyStudyRequest, type FittingStudy, type SurveyStudy } from "../../viewer/api/surveys.ts";
import { bodyOf } from "./body.ts";
import type { Surveyed } from "../shelves/surveys.ts";

const CHOICES: Readonly<Record<string, readonly string[]>> = {
  bathStability: ["rectangular", "triangular", "arcsine", "normal"],
  bathAxial: ["rectangular", "triangular", "arcsine"],
  bathRadial: ["rectangular", "triangular", "arcsine"],
};

/** Studies by their ids, whoever has them. */
export type Studies = Pick<StudyShelf, "read"> & {
  list(): Promise<readonly { readonly id: string; readonly title: string }[]>;
};

const OWN = "own:";

/** The studies of a shelf, and before them those of the laboratory's own, as `own:ID`: each as its latest run has it. */
export function withOwn(studies: StudyShelf, { runs, desk }: Pick<Dependencies, "runs" | "desk">): Studies {
  const latestOf = (own: string): { readonly id: string } | undefined => runs.list().find((run) => run.own === own);
  return {
    list: async () => [
      // One whose runs were all removed has no document left to read.
      ...desk
        .ownStudies()
        .flatMap(({ id, name }) => (latestOf(id) === undefined ? [] : [{ id: OWN + id, title: name }])),
      ...(await studies.list()),
    ],
    async read(id) {
      if (!id.startsWith(OWN)) return studies.read(id);
      const latest = latestOf(id.slice(OWN.length));
      if (latest === undefined) throw new Fault("no-such-study", `There is no study ${JSON.stringify(id)}.`);
      return (await runs.read(latest.id)).document;
    },
  };
}

/** Studies that a survey may go into: those of its own bath first, then those with every input that it gives. */
export async function fittingStudies({ shown, bath }: Surveyed, studies: Studies): Promise<FittingStudy[]> {
  const names = Object.keys(shown.statements);
  const fitting: FittingStudy[] = [];
  for (const { id, title } of await studies.list()) {
    const document = await whileThere(studies.read(id));
    if (document === null) continue;
    const { inputs, bath: own } = document as Document;
    const fits = names.every((name) => Object.hasOwn(inputs, name));
    const sameBath = own !== undefined && bath !== undefined && unlike(bath, own).length === 0;
    fitting.push({ id, title, sameBath, fits });
  }
  const rank = ({ sameBath, fits }: FittingStudy): number => (fits ? (sameBath ? 0 : 1) : sameBath ? 2 : 3);
  return fitting.toSorted((a, b) => rank(a) - rank(b));
}

/** `null` for a study whose last run was removed since it was listed. */
const whileThere = (read: Promise<unknown>): Promise<unknown> =>
  read.catch((error: unknown) => {
    if (error instanceof Fault && ["no-such-study", "no-such-run"].includes(error.code)) return null;
    throw error;
  });

interface Document {
  readonly inputs: Readonly<Record<string, unknown>>;
  readonly bath?: Readonly<Record<string, unknown>>;
}

/**
 * The study with the survey's quantities in place of its own, as `trialband survey --study` makes it.
 *
 * @param body `{ study, distributions }`: the id of a listed study or a study; without one, the listed study of the same
 *   bath; distributions by quantity, in place of what the evaluation gives
 * @throws {Fault | InputError} a study that cannot take them
 */
export async function studyOf(surveyed: Surveyed, body: unknown, studies: Studies): Promise<SurveyStudy> {
  const { study, distributions, into } = bodyOf(surveyStudyRequest, body ?? {});
  const id =
    study === undefined
      ? (await fittingStudies(surveyed, studies)).find(({ sameBath, fits }) => sameBath && fits)?.id
      : study;
  if (id === undefined)
    throw refused("study", undefined, "the id of a study, or a study: no listed study is of the survey's bath");
  const document = typeof id === "string" ? await studies.read(id) : id;
  if (typeof document !== "object" || document === null || Array.isArray(document))
    throw refused("study", document, "the id of a study, or a study");
  const { inputs, bath: own } = document as Document;
  requireFewInputs(document);
  // Only registered models: nobody runs code by sending a path.
  await loadStudyDocument(document, null);
  const found = surveyed.statements(choiceOf(distributions));
  const strange = Object.keys(found).find((name) => !Object.hasOwn(inputs, name) && !Object.hasOwn(into, name));
  if (strange !== undefined)
    throw refused(
      "study.inputs",
      Object.keys(inputs).join(", "),
      `a study with the inputs ${Object.keys(found).join(", ")}, or into, which says which input each of these quantities goes into`,
    );
  const statements =
    Object.keys(into).length === 0
      ? found
      : statementsInto(found, into, (await inputsOf(document as Readonly<Record<string, unknown>>)).inputs);
  const made = await inFile("the study with the survey's quantities", () =>
    newStudy(
      { path: "study.json", document: document as Readonly<Record<string, unknown>>, inputs },
      { statements, bath: surveyed.bath },
      null,
    ),
  );
  return {
    study: made.document,
    remarks:
      own === undefined || surveyed.bath === undefined
        ? []
        : unlike(surveyed.bath, own).map(
            (field) =>
              `The survey is of another bath than the study: ${WORDS[field]} is ${show(surveyed.bath![field])} there and ${show(own[field])} here.`,
          ),
  };
}

/** Statements by the input that each goes into. @throws {Fault} a quantity or an input that is none, or taken twice */
function statementsInto(
  found: Readonly<Record<string, Statement>>,
  into: Readonly<Record<string, string>>,
  inputs: EvidenceInputs["inputs"],
): Readonly<Record<string, Statement>> {
  for (const [quantity, input] of Object.entries(into))
    if (!Object.hasOwn(found, quantity))
      throw refused(`into.${quantity}`, input, `one of ${Object.keys(found).join(", ")} as the quantity`);
  const made: Record<string, Statement> = {};
  for (const [quantity, statement] of Object.entries(found)) {
    const input = into[quantity] ?? quantity;
    if (input === "") continue;
    const target = inputs.find(({ name }) => name === input);
    if (target === undefined)
      throw refused(`into.${quantity}`, input, `an input of the study: ${inputs.map(({ name }) => name).join(", ")}`);
    if (Object.hasOwn(made, input)) throw refused(`into.${quantity}`, input, "an input that no other quantity goes to");
    made[input] = inUnitOf(target.unit, statement, "K");
  }
  if (Object.keys(made).length === 0)
    throw refused("into", into, `an input for at least one of ${Object.keys(found).join(", ")}`);
  return made;
}

const WORDS = { fluid: "the fluid", setTemperature: "the set temperature" } as const;

/** What differs between two baths, of what both state. */
const unlike = (a: Readonly<Record<string, unknown>>, b: Readonly<Record<string, unknown>>): (keyof typeof WORDS)[] =>
  (["fluid", "setTemperature"] as const).filter(
    (field) => a[field] !== undefined && b[field] !== undefined && a[field] !== b[field],
  );

function choiceOf(choice: Readonly<Record<string, unknown>>): SurveyChoice {
  for (const [name, distribution] of Object.entries(choice)) {
    const offered = Object.hasOwn(CHOICES, name) ? CHOICES[name]! : null;
    if (offered === null)
      throw refused(`distributions.${name}`, distribution, `one of ${Object.keys(CHOICES).join(", ")} as the name`);
    if (!offered.includes(String(distribution)))
      throw refused(`distributions.${name}`, distribution, `one of ${offered.join(", ")}`);
  }
  return choice as SurveyChoice;
}
