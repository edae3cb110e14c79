import { show } from "../../engine/index.ts";
import { parseJson } from "../intake/json.ts";
import { readNamed } from "../intake/named-file.ts";
import { loadModel } from "../shelves/model.ts";
import { readTypedEquation, typedEquation } from "../../models/index.ts";
import type { ListedModel } from "../../viewer/api/models.ts";
import { models as registered } from "../shelves/catalogue.ts";
import { Fault } from "../errors.ts";
import { openAsked, withOutputs } from "../output-file.ts";
import { loadStudyFile } from "../shelves/study.ts";
import type { CommandRegistration } from "./command.ts";
import { stylesFor, widthOf } from "../../viewer/terminal/style.ts";
import { tableLines, wrap } from "../../viewer/terminal/table.ts";

export const models: CommandRegistration = (program) => {
  program
    .command("models")
    .argument("[id]", "one model, with its inputs and units")
    .option(
      "--parameters <json>",
      "of a family: the parameters (JSON), or the file of a study that states them; without it those of an example",
    )
    .option("--typescript <study>", "print the equation that a study states, as a model in TypeScript")
    .option("--out <file>", "write the model to a file in place of printing it")
    .summary("list the models a study can name, or write a typed equation as one")
    .description(
      "Lists the registered models; with an id, that model's equation, inputs and measurands, of a family for the parameters stated or those of an example. With --typescript, the equation of a study becomes a TypeScript file whose runs reproduce the study's exactly, bit for bit.",
    )
    .addHelpText(
      "after",
      `
The study then names the file in place of its equation: "model": "./model.ts", without "parameters".

Examples:
  trialband models bath-comparison
  trialband models probe-fit --parameters '{"temperatures": [0, 100, 200]}'
  trialband models --typescript my-study.json --out model.ts`,
    )
    .action(async (id: string | undefined, flags: ModelsFlags) => {
      if (flags.typescript !== undefined) return writeModel(flags.typescript, flags.out);
      if (flags.out !== undefined)
        throw new Fault("bad-input", "--out goes with --typescript: it is where the model is written.");
      if (id === undefined) {
        if (flags.parameters !== undefined)
          throw new Fault("bad-input", "--parameters goes with the id of a family, such as probe-fit.");
        return printLines(listLines(registered()));
      }
      printLines(await modelLines(id, flags.parameters));
    });
};

const printLines = (lines: readonly string[]): void => void process.stdout.write(`${lines.join("\n")}\n`);

const listLines = (listed: readonly ListedModel[]): string[] =>
  tableLines(
    [
      { heading: "model", align: "left" },
      { heading: "description", align: "left" },
    ],
    listed.map(({ id, title }) => [id, title]),
  );

/** One model, as it is with the parameters stated or, of a family, those of its example. @throws {Fault | InputError} */
async function modelLines(id: string, stated: string | undefined): Promise<string[]> {
  const given = stated === undefined ? null : await readParameters(stated);
  const listed = registered().find((model) => model.id === id);
  const parameters = given ?? listed?.example ?? {};
  const width = widthOf(process.stdout);
  const head = (model: ListedModel): string => stylesFor(process.stdout).bold(`${model.id}  ${model.title}`);
  // What needs parameters that nobody stated and no example has is shown as it is listed.
  if (listed?.family === true && given === null && listed.example === undefined)
    return [head(listed), ...details(listed, width)];
  const model = await loadModel({ kind: "registered", id, parameters });
  if (listed?.family !== true) return [head(listed!), ...details(listed!, width)];
  const { inputs, optionalInputs, measurands, equation = null } = model;
  const which = given === null ? "For example with" : "With";
  return [
    head(listed),
    ...details(listed, width),
    wrap(`${which} the parameters ${JSON.stringify(parameters)}`, width, "  "),
    ...details(
      {
        ...listed,
        parameters: {},
        source: null,
        equation,
        inputs,
        measurands,
        ...(optionalInputs === undefined ? {} : { optionalInputs }),
      },
      width,
    ),
  ];
}

/** @throws {Fault} neither JSON nor the file of a study with parameters */
async function readParameters(stated: string): Promise<Readonly<Record<string, unknown>>> {
  const isText = stated.trimStart().startsWith("{");
  const found: unknown = isText
    ? parseJson(new TextEncoder().encode(stated), "--parameters")
    : (parseJson(await readNamed(stated), stated) as { readonly parameters?: unknown } | null)?.parameters;
  if (typeof found === "object" && found !== null && !Array.isArray(found)) return found as Record<string, unknown>;
  throw new Fault("bad-input", isText ? "--parameters is no object." : `${stated} states no parameters.`, [
    {
      place: "parameters",
      value: show(found),
      accepted: 'an object, such as {"temperatures": [0, 100]}, or a study that has one',
    },
  ]);
}

interface ModelsFlags {
  readonly parameters?: string;
  readonly typescript?: string;
  readonly out?: string;
}

/** @throws {Fault} a study that has no typed equation, or a place that cannot be written to */
async function writeModel(path: string, out: string | undefined): Promise<void> {
  const { study } = await loadStudyFile(path);
  if (study.model !== typedEquation.id)
    throw new Fault("bad-input", `${path} states no equation.`, [
      {
        place: "model",
        value: JSON.stringify(study.model),
        accepted: `"${typedEquation.id}", with its equation typed`,
      },
    ]);
  const output = await openAsked(out, "The model");
  await withOutputs([output], async () => {
    const { read } = await readTypedEquation(study.parameters ?? {}, study.title);
    const { text } = read!.typescript;
    if (output === null) process.stdout.write(text);
    else await output.write(text);
  });
}

function details(model: ListedModel, width: number): string[] {
  const quantities = (part: NonNullable<ListedModel["inputs"]>): string[] =>
    tableLines(
      [
        { heading: "name", align: "left" },
        { heading: "symbol", align: "left" },
        { heading: "unit", align: "left" },
        { heading: "meaning", align: "left" },
      ],
      Object.entries(part).map(([name, q]) => [name, q.symbol, q.unit, q.meaning]),
    ).map((line) => `  ${line}`);
  return [
    ...(model.equation === null ? [] : [wrap(model.equation, width, "    ")]),
    ...(model.source === null ? [] : [wrap(`Source: ${model.source}`, width, "  ")]),
    ...(model.parameters === undefined || Object.keys(model.parameters).length === 0
      ? []
      : [
          "Parameters",
          ...Object.entries(model.parameters).map(([name, text]) => wrap(`  ${name}: ${text}`, width, "    ")),
        ]),
    ...(model.inputs === undefined ? [] : ["Inputs", ...quantities(model.inputs)]),
    ...(model.optionalInputs === undefined
      ? []
      : ["Optional inputs, taken as zero if left out", ...quantities(model.optionalInputs)]),
    ...(model.measurands === undefined ? [] : ["Measurands", ...quantities(model.measurands)]),
  ];
}
