import { Option } from "commander";
import { capabilityOf, type Capability } from "../../models/index.ts";
import { csvText } from "../../viewer/present/csv.ts";
import { fillText } from "../../viewer/present/fill.ts";
import { languages, type Language } from "../../viewer/present/messages/index.ts";
import { en } from "../../viewer/present/messages/en/index.ts";
import { ENGLISH } from "../../viewer/present/statement.ts";
import { capabilityPointsTable, capabilityTable, fluidsTable } from "../../viewer/present/tables/capability.ts";
import { capabilityHtml } from "../../viewer/report/capability-html.ts";
import { listPart, presentedPart } from "../../viewer/terminal/lines.ts";
import { stylesFor, widthOf } from "../../viewer/terminal/style.ts";
import { wrap } from "../../viewer/terminal/table.ts";
import { tablesWorkbook } from "../export/workbook/tables-workbook.ts";
import { inFile } from "../intake/in-file.ts";
import { openAsked, withOutputs } from "../output-file.ts";
import { recordDigest } from "../record/open.ts";
import { recordText } from "../record/seal.ts";
import type { CommandRegistration } from "./command.ts";
import { wholeNumber } from "./options.ts";
import { print } from "./print.ts";
import { runSweep, type SweepFlags } from "./sweep.ts";

interface CapabilityFlags extends SweepFlags {
  readonly record?: string;
  readonly report?: string;
  readonly csv?: string;
  readonly xlsx?: string;
  readonly language: Language;
}

export const capability: CommandRegistration = (program) => {
  program
    .command("capability")
    .argument("<file>", "sweep over the baths or fluids of a range, with their surveys and the reference's certificate")
    .summary("a laboratory's claim over its range: largest U of every bath or fluid, and an envelope that holds")
    .description(
      "Runs a sweep over the parts of a range, a bath or a fluid each, and prints what the laboratory may claim there: the largest expanded uncertainty by the linear budget and by the distribution, the worst verdict, one step and a straight line that lie below no point, and the limits of the fluids.",
    )
    .option("--trials <n>", "number of trials of each point in place of the study's", wholeNumber(20_000, 1e9))
    .option("--seed <text>", "seed in place of the study's")
    .option("--workers <n>", "threads that draw trials", wholeNumber(1, 64))
    .option("--out <file>", "write the capability (JSON) to a file")
    .option("--record <file>", "write the record of the sweep (JSON) to a file")
    .option("--report <file>", "write table, picture, fluids and cautions as one HTML file")
    .option("--csv <file>", "write every point as CSV")
    .option("--xlsx <file>", "write the tables as a workbook")
    .addOption(
      new Option("--language <language>", "language of the report").choices(Object.keys(languages)).default("en"),
    )
    .option("--json", "print the capability (JSON) in place of the tables")
    .addHelpText(
      "after",
      `
Exit codes: 0 done, 1 the run failed, 2 input that cannot be used, 130 interrupted.

Example:
  trialband capability examples/range/capability.json --report capability.html --xlsx capability.xlsx`,
    )
    .action(async (file: string, flags: CapabilityFlags) => capabilityCommand(file, flags));
};

async function capabilityCommand(file: string, flags: CapabilityFlags): Promise<void> {
  const outputs = {
    out: await openAsked(flags.out, "The capability"),
    record: await openAsked(flags.record, "The record"),
    report: await openAsked(flags.report, "The report"),
    csv: await openAsked(flags.csv, "The table"),
    xlsx: await openAsked(flags.xlsx, "The workbook"),
  };
  await withOutputs(Object.values(outputs), async () => {
    const { loaded, record } = await runSweep(file, flags);
    const found = await inFile(file, () => capabilityOf(loaded.sweep, record));
    const digest = recordDigest(record);
    const text = `${JSON.stringify({ format: "trialband-capability/1", ...found, files: loaded.files, record: digest }, null, 2)}\n`;
    await outputs.out?.write(text);
    await outputs.record?.write(recordText(record));
    await outputs.report?.write(
      capabilityHtml({ capability: found, record, digest, files: loaded.files }, languages[flags.language]),
    );
    await outputs.csv?.write(pointsCsv(found));
    await outputs.xlsx?.write(
      tablesWorkbook(
        [
          [en.capability.part, capabilityTable(found, ENGLISH)],
          ...found.ranges.map((range) => [range.name, capabilityPointsTable(found, range, ENGLISH)] as const),
          [en.capability.fluid, fluidsTable(found, ENGLISH)],
        ],
        { title: record.study.title, creator: `trialband ${record.engine.version}`, created: null },
      ),
    );
    if (flags.json) process.stdout.write(text);
    else print(summary(found, record.study.title, file));
  });
}

/** Every point of every part, at full precision. */
function pointsCsv({ ranges, quantity, unit, measurandUnit }: Capability): string {
  const head = [
    "part",
    `${quantity} / ${unit}`,
    `U, linear budget / ${measurandUnit}`,
    `U, distribution / ${measurandUnit}`,
    `claim / ${measurandUnit}`,
    "linear budget",
  ];
  const rows = ranges.flatMap(({ name, points, line }) =>
    points.map(({ at, linear, distribution, standing }) => [
      name,
      String(at),
      String(linear),
      String(distribution),
      String(line.constant + line.slope * at),
      en.capability[standing],
    ]),
  );
  return csvText([head, ...rows]);
}

function summary(found: Capability, title: string, file: string): string {
  const layout = { styles: stylesFor(process.stdout), width: widthOf(process.stdout) };
  const words = en.capability;
  const safety = (pick: (range: Capability["ranges"][number]) => readonly string[]): string[] => [
    ...new Set(found.ranges.flatMap(pick)),
  ];
  return `${[
    layout.styles.bold(title),
    ...presentedPart(layout, capabilityTable(found, ENGLISH)),
    "",
    wrap(words.rule, layout.width),
    ...found.ranges.flatMap((range) => presentedPart(layout, capabilityPointsTable(found, range, ENGLISH))),
    ...presentedPart(layout, fluidsTable(found, ENGLISH)),
    ...listPart(
      layout,
      words.warnings,
      safety((range) => range.safety.warnings),
    ),
    ...listPart(
      layout,
      en.sections.cautions,
      safety((range) => range.safety.cautions),
    ),
    "",
    fillText(words.again, { command: `npx trialband capability ${file}` }),
  ].join("\n")}\n`;
}
