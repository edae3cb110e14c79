import { resolve } from "node:path";
import { inModelThread, USUAL_MODEL_LIMITS } from "../own-model/host.ts";
import { isModelPath } from "../shelves/model.ts";
import { ownModelOf } from "../shelves/study.ts";
import { typeComplaints } from "../shelves/type-check.ts";
import { tableLines } from "../../viewer/terminal/table.ts";
import type { CheckedModel } from "../own-model/messages.ts";
import type { CommandRegistration } from "./command.ts";
import { print, printAside } from "./print.ts";
import { withProgress } from "./threaded-run.ts";

export const check: CommandRegistration = (program) => {
  program
    .command("check")
    .argument("<file>", "a study (JSON, or TypeScript by defineStudy), or a model (TypeScript or JavaScript)")
    .summary("check a study, or a model and its types, without a run")
    .description(
      "Checks a model in a file of one's own with the TypeScript compiler: an input that is read but not declared, a measurand that is not returned, a value of another type; run itself does not. Then loads it and prints its inputs and measurands. Of a study, everything that a run checks before its trials is checked too: every statement, and the model at the estimates. Nothing is drawn.",
    )
    .addHelpText(
      "after",
      `
The compiler is the package typescript, installed in the model's folder or beside Trialband.

Exit codes: 0 nothing to complain of, 1 the model failed at the estimates, 2 something cannot be used.

Examples:
  trialband check density.ts
  trialband check my-study.json`,
    )
    .action(async (file: string) => {
      const path = resolve(file);
      const own = await ownModelOf(path);
      const complaints = own === null || !/\.m?ts$/.test(own) ? [] : await typeComplaints(own);
      if (complaints.length > 0) {
        const count = complaints.length === 1 ? "One thing" : `${complaints.length} things`;
        printAside(`trialband: The compiler complains of ${count.toLowerCase()}.\n`);
        for (const complaint of complaints) printAside(`  ${complaint}\n`);
        process.exitCode = 2;
        return;
      }
      const checked = await withProgress(USUAL_MODEL_LIMITS, (options) =>
        inModelThread({ kind: "check", path }, options),
      );
      print(`${linesOf(checked, own !== null && isModelPath(own)).join("\n")}\n`);
    });
};

function linesOf({ id, title, study, inputs, measurands }: CheckedModel, typed: boolean): string[] {
  const rows = Object.entries({ ...inputs, ...measurands }).map(([name, { symbol, unit, meaning }]) => [
    name,
    Object.hasOwn(inputs, name) ? "input" : "measurand",
    symbol,
    unit,
    meaning,
  ]);
  const headings = ["name", "is an", "symbol", "unit", "meaning"].map(
    (heading) => ({ heading, align: "left" }) as const,
  );
  return [
    `${id}  ${title}`,
    ...tableLines(headings, rows).map((line) => `  ${line}`),
    ...(study === null ? [] : [`The study "${study}" can be run.`]),
    ...(typed ? ["The compiler has nothing to complain of."] : []),
  ];
}
