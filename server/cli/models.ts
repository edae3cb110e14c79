import { readTypedEquation, typedEquation } from "../../models/index.ts";
import type { ListedModel } from "../../viewer/api/models.ts";
import { models as registered } from "../shelves/catalogue.ts";
import { Fault } from "../errors.ts";
import { openOutput, withOutputs } from "../output-file.ts";
import { loadStudyFile } from "../shelves/study.ts";
import type { CommandRegistration } from "./command.ts";
import { stylesFor, widthOf } from "../../viewer/terminal/style.ts";
import { tableLines, wrap } from "../../viewer/terminal/table.ts";

export const models: CommandRegistration = (program) => {
  program
    .command("models")
    .argument("[id]", "one model, with its inputs and units")
    .option("--typescript <study>", "print the equation that a study states, as a model in TypeScript")
    .option("--out <file>", "write the model to a file in place of printing it")
    .summary("list the models a study can name, or write a typed equation as one")
    .description(
      "Lists the registered models; with an id, that model's equation, inputs and measurands. With --typescript, the equation of a study becomes a TypeScript file whose runs reproduce the study's exactly, bit for bit.",
    )
    .addHelpText(
      "after",
      `
The study then names the file in place of its equation: "model": "./model.ts", without "parameters".

Example:
  trialband models --typescript my-study.json --out model.ts`,
    )
    .action(async (id: string | undefined, flags: ModelsFlags) => {
      if (flags.typescript !== undefined) return writeModel(flags.typescript, flags.out);
      if (flags.out !== undefined)
        throw new Fault("bad-input", "--out goes with --typescript: it is where the model is written.");
      const styles = stylesFor(process.stdout);
      const found = registered().filter((model) => id === undefined || model.id === id);
      if (found.length === 0) {
        process.stderr.write(
          `There is no model ${JSON.stringify(id)}; expected one of ${registered()
            .map((m) => m.id)
            .join(", ")}.\n`,
        );
        process.exitCode = 2;
        return;
      }
      const width = widthOf(process.stdout);
      const lines =
        id === undefined
          ? tableLines(
              [
                { heading: "model", align: "left" },
                { heading: "description", align: "left" },
              ],
              found.map((m) => [m.id, m.title]),
            )
          : [styles.bold(`${found[0]!.id}  ${found[0]!.title}`), ...details(found[0]!, width)];
      process.stdout.write(`${lines.join("\n")}\n`);
    });
};

interface ModelsFlags {
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
  const output = out === undefined ? null : await openOutput(out, "The model");
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
    ...(model.parameters === undefined
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
