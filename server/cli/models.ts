import type { ListedModel } from "../../viewer/api/models.ts";
import { models as registered } from "../shelves/catalogue.ts";
import type { CommandRegistration } from "./command.ts";
import { stylesFor, widthOf } from "../../viewer/terminal/style.ts";
import { tableLines, wrap } from "../../viewer/terminal/table.ts";

export const models: CommandRegistration = (program) => {
  program
    .command("models")
    .argument("[id]", "one model, with its inputs and units")
    .summary("list the models a study can name")
    .description("Lists the registered models; with an id, that model's equation, inputs and measurands.")
    .action((id?: string) => {
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
