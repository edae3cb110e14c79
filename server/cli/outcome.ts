import { type Command, InvalidArgumentError } from "commander";
import { show, type Statement } from "../../engine/index.ts";
import { Fault } from "../errors.ts";
import { inModelThread, USUAL_MODEL_LIMITS } from "../own-model/host.ts";
import { isModelPath } from "../shelves/model.ts";
import { recordText, type SealedRecord } from "../record/seal.ts";
import { inFile } from "../intake/in-file.ts";
import { stylesFor, widthOf } from "../../viewer/terminal/style.ts";
import { summaryOf } from "../../viewer/terminal/summary.ts";
import { listPart, type Layout } from "../../viewer/terminal/lines.ts";
import { fileStudy, newStudy, openStudy, type NewStudy, type StudyFile } from "../shelves/new-study.ts";
import { statementPart } from "../../viewer/terminal/statement-lines.ts";
import { print as printText } from "./print.ts";
import { runFile, threadedRun, withProgress } from "./threaded-run.ts";

/** Options for the result of an evaluation, shared by the commands on files of a laboratory. */
export interface OutcomeFlags {
  readonly study?: string;
  readonly out?: string;
  readonly force?: boolean;
  readonly run?: boolean;
  readonly as?: Readonly<Record<string, string>>;
  readonly json?: boolean;
  readonly expectValidated?: boolean;
}

export const EXIT_CODES =
  "Exit codes: 0 done, 1 the run failed or a file cannot be written, 2 input that cannot be used, 3 not validated (--expect-validated), 130 interrupted.";

/** Options of a command whose statements go into a study that exists. */
export const studyOptions = (command: Command): Command =>
  filingOptions(
    command
      .option(
        "--study <file>",
        "study (JSON) whose inputs the evaluated ones replace; the file itself is left as it is",
      )
      .option(
        "--as <quantity=input>",
        "give a quantity to another input of the study's model; may be repeated",
        renaming,
      ),
  );

/** Options of a command whose result is filed and run. */
export const filingOptions = (command: Command): Command =>
  command
    .option("--out <file>", "write the new study (JSON); a file that exists is left as it is")
    .option("--force", "overwrite the file of --out if it exists")
    .option("--run", "run the new study and print its summary after the evaluation")
    .option("--expect-validated", "with --run: end with exit code 3 unless every budget is validated")
    .option("--json", "print evaluation, statements, study and record as one JSON document");

function renaming(text: string, before: Readonly<Record<string, string>> = {}): Record<string, string> {
  const [quantity, input, ...rest] = text.split("=");
  if (!quantity || !input || rest.length > 0)
    throw new InvalidArgumentError("Expected QUANTITY=INPUT, such as bathAxial=verticalDifference.");
  return { ...before, [quantity]: input };
}

/** An evaluation, ready to be shown and to go into a study. */
export interface Evaluated {
  readonly name: string;
  /** The evaluation as plain data. */
  readonly evaluation: unknown;
  readonly lines: (layout: Layout) => readonly string[];
  /** Input statements by the model's names, with the units they are in. @throws {InputError} nothing that can be stated */
  readonly statements: () => Readonly<Record<string, Statement>>;
  readonly units: Readonly<Record<string, string>>;
  /** The bath that the files name. */
  readonly bath?: Readonly<Record<string, unknown>> | undefined;
}

/** Shows an evaluation, puts it into a study, files and runs that, as the flags state. @returns the exit code */
export async function conclude(evaluated: Evaluated, flags: OutcomeFlags): Promise<number> {
  const layout: Layout = { styles: stylesFor(process.stdout), width: widthOf(process.stdout) };
  if (flags.study === undefined && (flags.out !== undefined || flags.run)) {
    const option = flags.out === undefined ? "--run" : "--out";
    throw new Fault("bad-input", `${option} needs the study whose inputs are replaced.`, [
      { place: "--study", value: "nothing", accepted: "the file of a study" },
    ]);
  }
  const base = flags.study === undefined ? null : await openStudy(flags.study);
  if (!flags.json) print(evaluated.lines(layout));
  const found = await inFile(evaluated.name, evaluated.statements);
  checkNames(Object.keys(found), flags.as ?? {});
  const statements = renamed(found, flags.as ?? {});
  const units = renamed(evaluated.units, flags.as ?? {});
  if (!flags.json)
    print(statementPart(layout, statements, units, base === null ? null : { inputs: base.inputs, name: base.path }));
  const made = base === null ? null : await combined(base, statements, evaluated, flags);
  const remarks = base === null ? [] : [...bathRemarks(base, evaluated.bath), ...droppedRemarks(base, made!.dropped)];
  if (!flags.json) print(listPart(layout, "Remarks", remarks));
  return file({ evaluation: evaluated.evaluation, statements, remarks }, made, flags, layout);
}

/** A study to be filed and run. */
export interface ToFile {
  readonly document: unknown;
  readonly run: () => Promise<SealedRecord>;
}

/** Files and runs a study, or only shows the evaluation if there is none. @returns the exit code */
export async function file(
  shown: Readonly<Record<string, unknown>>,
  study: ToFile | null,
  flags: OutcomeFlags,
  layout: Layout,
): Promise<number> {
  if (study !== null && flags.out !== undefined) {
    await fileStudy(flags.out, study.document, flags.force ?? false);
    if (!flags.json) print(["", `Wrote ${flags.out}`]);
  }
  const record = study !== null && flags.run ? await study.run() : null;
  if (flags.json) {
    const parts = {
      ...shown,
      ...(study === null ? {} : { study: study.document }),
      ...(record === null ? {} : { record: JSON.parse(recordText(record)) }),
    };
    process.stdout.write(`${JSON.stringify(parts, null, 2)}\n`);
  } else if (record !== null) {
    print(["", layout.styles.dim("─".repeat(Math.min(60, layout.width))), ""]);
    printText(summaryOf(record, flags.out ?? null, layout.styles, layout.width));
  }
  return flags.expectValidated && record !== null && !validated(record) ? 3 : 0;
}

const combined = (
  base: StudyFile,
  statements: Readonly<Record<string, Statement>>,
  { bath }: Evaluated,
  { study, out }: OutcomeFlags,
): Promise<ToFile & Pick<NewStudy, "dropped">> =>
  inFile(`${study} with the evaluated inputs`, async () => {
    const { model } = base.document;
    const to = out ?? null;
    if (typeof model === "string" && isModelPath(model)) {
      const made = await withProgress(USUAL_MODEL_LIMITS, (options) =>
        inModelThread({ kind: "newStudy", base, replacement: { statements, bath }, to }, options),
      );
      return { ...made, run: () => runFile(to ?? base.path, {}, undefined, USUAL_MODEL_LIMITS, made.document) };
    }
    const { document, dropped, loaded } = await newStudy(base, { statements, bath }, to);
    return { document, dropped, run: () => threadedRun(loaded) };
  });

const renamed = <T>(named: Readonly<Record<string, T>>, names: Readonly<Record<string, string>>): Record<string, T> =>
  Object.fromEntries(Object.entries(named).map(([name, value]) => [names[name] ?? name, value]));

/** @throws {Fault} a quantity that the evaluation does not give, or two quantities for one input */
function checkNames(quantities: readonly string[], names: Readonly<Record<string, string>>): void {
  const strange = Object.keys(names).find((name) => !quantities.includes(name));
  const inputs = quantities.map((name) => names[name] ?? name);
  const twice = inputs.find((input, i) => inputs.indexOf(input) !== i);
  if (strange === undefined && twice === undefined) return;
  throw new Fault("bad-input", "The quantities cannot have these names.", [
    strange === undefined
      ? { place: "--as", value: `${twice} twice`, accepted: "another input for each quantity" }
      : { place: "--as", value: show(strange), accepted: `one of ${quantities.join(", ")}` },
  ]);
}

/** If the study's bath is not the one that was recorded: a survey of one bath gives no information about another. */
function bathRemarks({ document, path }: StudyFile, bath: Evaluated["bath"]): string[] {
  const stated = document["bath"] as Readonly<Record<string, unknown>> | undefined;
  if (bath === undefined || typeof stated !== "object" || stated === null) return [];
  return (["fluid", "setTemperature"] as const)
    .filter((field) => bath[field] !== undefined && stated[field] !== undefined && bath[field] !== stated[field])
    .map(
      (field) =>
        `The files are of another bath than that of ${path}: ${field} is ${show(bath[field])} here and ${show(stated[field])} there.`,
    );
}

const droppedRemarks = ({ path, document }: StudyFile, dropped: NewStudy["dropped"]): string[] =>
  dropped.map(
    (name) => `${name} is not in the new study: model ${String(document["model"])} of ${path} has no such input.`,
  );

const validated = ({ measurands }: SealedRecord): boolean =>
  Object.values(measurands).every(({ validation }) => validation.validated && validation.firm);

const print = (lines: readonly string[]): void => {
  if (lines.length > 0) printText(`${lines.join("\n")}\n`);
};
