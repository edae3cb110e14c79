import { Option } from "commander";
import { confirmationOf, type Confirmation, type Plan } from "../../models/index.ts";
import { csvText } from "../../viewer/present/csv.ts";
import { fillText } from "../../viewer/present/fill.ts";
import { languages, type Language } from "../../viewer/present/messages/index.ts";
import { en } from "../../viewer/present/messages/en/index.ts";
import { ENGLISH } from "../../viewer/present/statement.ts";
import {
  aloneTable,
  frontierTable,
  gainingInputsTable,
  halvingsTable,
  planPointsTable,
} from "../../viewer/present/tables/planning.ts";
import { planHtml } from "../../viewer/report/plan-html.ts";
import { listPart } from "../../viewer/terminal/lines.ts";
import { planLines } from "../../viewer/terminal/plan-lines.ts";
import { stylesFor, widthOf } from "../../viewer/terminal/style.ts";
import { tablesWorkbook } from "../export/workbook/tables-workbook.ts";
import { inFile } from "../intake/in-file.ts";
import { openAsked, withOutputs } from "../output-file.ts";
import { recordDigest } from "../record/open.ts";
import { recordText } from "../record/seal.ts";
import { loadPlan } from "../shelves/plan.ts";
import type { CommandRegistration } from "./command.ts";
import { wholeNumber } from "./options.ts";
import { print } from "./print.ts";
import { readingLine } from "./reading-line.ts";
import { threadedRun } from "./threaded-run.ts";

interface PlanFlags {
  readonly trials?: number;
  readonly seed?: string;
  readonly workers?: number;
  readonly out?: string;
  readonly study?: string;
  readonly record?: string;
  readonly report?: string;
  readonly csv?: string;
  readonly xlsx?: string;
  readonly language: Language;
  readonly json?: boolean;
}

export const plan: CommandRegistration = (program) => {
  program
    .command("plan")
    .argument("<file>", "plan: JSON that names a sweep over the range, a target and what could be changed")
    .summary("what would make U smaller over a range: gains, steps, frontier, a proposal that a run confirms")
    .description(
      "Finds what would bring the expanded uncertainty over a range down to a target: what halving each input gains at each temperature, what more indications, a longer averaging window, a smaller zone or another reference reach, alone and together, and the cheapest combination that meets the target. Predictions are exact for the linearised model and take no trials; the proposed study is then run, and the confirmed uncertainty stands beside the predicted.",
    )
    .option("--trials <n>", "number of trials of each point in place of the study's", wholeNumber(20_000, 1e9))
    .option("--seed <text>", "seed in place of the study's")
    .option("--workers <n>", "threads that draw trials", wholeNumber(1, 64))
    .option("--out <file>", "write plan and confirmation (JSON) to a file")
    .option("--study <file>", "write the proposed study (JSON) to a file")
    .option("--record <file>", "write the record of its run (JSON) to a file")
    .option("--report <file>", "write sentences, pictures and tables as one HTML file")
    .option("--csv <file>", "write every point as CSV")
    .option("--xlsx <file>", "write the tables as a workbook")
    .addOption(
      new Option("--language <language>", "language of the report").choices(Object.keys(languages)).default("en"),
    )
    .option("--json", "print plan and confirmation (JSON) in place of the tables")
    .addHelpText(
      "after",
      `
Levers are of these kinds: readings (number of indications of inputs), window (minutes that readings are averaged over),
zone (extent of the working zone in mm), scale (a factor on uncertainties), replace (other statements, such as those of
another reference). Costs are stated at every step or at none; without costs, steps are counted.

Exit codes: 0 done, 1 the run failed, 2 input that cannot be used, 130 interrupted.

Example:
  trialband plan examples/range/plan.json --report plan.html --xlsx plan.xlsx`,
    )
    .action(async (file: string, flags: PlanFlags) => planCommand(file, flags));
};

async function planCommand(file: string, flags: PlanFlags): Promise<void> {
  const outputs = {
    out: await openAsked(flags.out, "The plan"),
    study: await openAsked(flags.study, "The study"),
    record: await openAsked(flags.record, "The record"),
    report: await openAsked(flags.report, "The report"),
    csv: await openAsked(flags.csv, "The table"),
    xlsx: await openAsked(flags.xlsx, "The workbook"),
  };
  await withOutputs(Object.values(outputs), async () => {
    const line = readingLine(process.stderr);
    const { trials, seed, workers } = flags;
    const loaded = await loadPlan(
      file,
      { ...(trials === undefined ? {} : { trials }), ...(seed === undefined ? {} : { seed }) },
      { onRead: line.onRead, ownModels: true },
    ).finally(() => line.clear());
    const { plan: found, proposed, title, files, safety } = loaded;
    await outputs.study?.write(`${JSON.stringify(proposed.study, null, 2)}\n`);
    const record = await threadedRun(proposed, workers);
    const confirmation = await inFile(file, () => confirmationOf(found, record));
    const digest = recordDigest(record);
    const text = `${JSON.stringify({ format: "trialband-plan/1", title, ...found, confirmation, files, record: digest }, null, 2)}\n`;
    await outputs.out?.write(text);
    await outputs.record?.write(recordText(record));
    await outputs.report?.write(
      planHtml({ title, plan: found, confirmation, record, digest, files, safety }, languages[flags.language]),
    );
    await outputs.csv?.write(pointsCsv(found, confirmation));
    await outputs.xlsx?.write(
      tablesWorkbook(
        [
          ["points", planPointsTable(found, confirmation, ENGLISH)],
          ["frontier", frontierTable(found, ENGLISH)],
          ["steps alone", aloneTable(found, ENGLISH)],
          ["gains of halving", halvingsTable(found, ENGLISH)],
          ["symbols", gainingInputsTable(found, ENGLISH)],
        ],
        { title, creator: `trialband ${record.engine.version}`, created: null },
      ),
    );
    if (flags.json) process.stdout.write(text);
    else {
      const layout = { styles: stylesFor(process.stdout), width: widthOf(process.stdout) };
      print(
        `${[
          ...planLines(title, found, confirmation, layout),
          ...listPart(layout, en.capability.warnings, safety.warnings),
          ...listPart(layout, en.sections.cautions, safety.cautions),
          "",
          fillText(en.planning.again, { command: `npx trialband plan ${file}` }),
        ].join("\n")}\n`,
      );
    }
  });
}

/** Every point at full precision, with the gain of each input's halving. */
function pointsCsv(found: Plan, confirmation: Confirmation): string {
  const { quantity, unit, measurandUnit, inputs } = found;
  const named = Object.keys(inputs).filter((input) =>
    found.points.some(({ halvings }) => halvings.some((halving) => halving.input === input)),
  );
  const head = [
    `${quantity} / ${unit}`,
    "part",
    ...["U now", "target", "U predicted", "U confirmed"].map((words) => `${words} / ${measurandUnit}`),
    "target met",
    ...named.map((input) => `gain of halving ${inputs[input]!.symbol}`),
  ];
  const rows = confirmation.points.map(({ at, part, target, predicted, claimed, standing }, i) => {
    const { now, halvings } = found.points[i]!;
    return [
      String(at),
      part ?? "",
      ...[now.claimed, target, predicted, claimed].map(String),
      en.planning[standing],
      ...named.map((input) => String(halvings.find((halving) => halving.input === input)?.gain ?? 0)),
    ];
  });
  return csvText([head, ...rows]);
}
