import { Option } from "commander";
import { VERSION } from "../../engine/index.ts";
import { evaluateHistory, type HistoryEvaluation } from "../../models/index.ts";
import { csvText } from "../../viewer/present/csv.ts";
import { fillText } from "../../viewer/present/fill.ts";
import { languages, type Language } from "../../viewer/present/messages/index.ts";
import { en } from "../../viewer/present/messages/en/index.ts";
import { ENGLISH } from "../../viewer/present/statement.ts";
import { historyEntriesTable, historyStatementsTable, historyTable } from "../../viewer/present/tables/history.ts";
import { historyHtml } from "../../viewer/report/history-html.ts";
import { historyLines } from "../../viewer/terminal/history-lines.ts";
import { stylesFor, widthOf } from "../../viewer/terminal/style.ts";
import { tablesWorkbook } from "../export/workbook/tables-workbook.ts";
import { loadHistory } from "../intake/history.ts";
import { inFile } from "../intake/in-file.ts";
import { openAsked, withOutputs } from "../output-file.ts";
import type { CommandRegistration } from "./command.ts";
import { print } from "./print.ts";

interface HistoryFlags {
  readonly use?: string;
  readonly out?: string;
  readonly report?: string;
  readonly csv?: string;
  readonly xlsx?: string;
  readonly language: Language;
  readonly json?: boolean;
}

export const history: CommandRegistration = (program) => {
  program
    .command("history")
    .argument("<file>", "history: JSON with calibrations or surveys over the years, or the name of their CSV table")
    .summary("drift of an instrument, a reference or a bath over years, and when to calibrate again")
    .description(
      "Evaluates calibrations of one instrument, or surveys of one bath, over the years: the straight line by their own uncertainties, excess scatter where the chi-squared test fails, the value and the drift at the next use with their uncertainties as statements for a study, each calibration beside what the earlier ones predicted, a control chart, and the day by which to calibrate again for a stated limit.",
    )
    .option("--use <day>", "day of the next use, YYYY-MM-DD, in place of the document's")
    .option("--out <file>", "write the evaluation (JSON) with the statements to a file")
    .option("--report <file>", "write sentences, pictures and tables as one HTML file")
    .option("--csv <file>", "write every calibration as CSV")
    .option("--xlsx <file>", "write the tables as a workbook")
    .addOption(
      new Option("--language <language>", "language of the report").choices(Object.keys(languages)).default("en"),
    )
    .option("--json", "print the evaluation (JSON) in place of the tables")
    .addHelpText(
      "after",
      `
A table has a column date, one for each quantity by its name, and beside it u(NAME) with standard or U(NAME) with expanded
uncertainties (k is the quantity's coverageFactor, 2 if none is stated).

Exit codes: 0 done, 2 input that cannot be used.

Examples:
  trialband history examples/history/reference-HR-02.json
  trialband history examples/history/glycol-bath.json --report bath.html`,
    )
    .action(async (file: string, flags: HistoryFlags) => {
      const { history: read, files } = await loadHistory(file);
      const document = flags.use === undefined ? read : { ...read, use: flags.use };
      const found = await inFile(file, () => evaluateHistory(document));
      const text = `${JSON.stringify({ format: "trialband-history/1", title: read.title, ...found, files }, null, 2)}\n`;
      const [out, report, csv, xlsx] = [
        await openAsked(flags.out, "The evaluation"),
        await openAsked(flags.report, "The report"),
        await openAsked(flags.csv, "The table"),
        await openAsked(flags.xlsx, "The workbook"),
      ];
      await withOutputs([out, report, csv, xlsx], async () => {
        await out?.write(text);
        await report?.write(historyHtml(read.title, found, files, languages[flags.language]));
        await csv?.write(entriesCsv(found));
        await xlsx?.write(
          tablesWorkbook(
            [
              ["drift", historyTable(found, ENGLISH)],
              ...found.quantities.flatMap((one) => [
                [one.name, historyEntriesTable(one, ENGLISH)] as const,
                [`${one.name}, statements`, historyStatementsTable(one, ENGLISH)] as const,
              ]),
            ],
            { title: read.title, creator: `trialband ${VERSION}`, created: null },
          ),
        );
      });
      if (flags.json) process.stdout.write(text);
      else {
        const layout = { styles: stylesFor(process.stdout), width: widthOf(process.stdout) };
        const again = fillText(en.history.again, { command: `npx trialband history ${file}` });
        print(`${[...historyLines(read.title, found, layout), "", again].join("\n")}\n`);
      }
    });
};

/** Every calibration at full precision. */
function entriesCsv({ quantities }: HistoryEvaluation): string {
  const head = ["quantity", "unit", "day", "value", "u", "U", "less the line", "beside the prediction"];
  const rows = quantities.flatMap(({ name, unit, entries }) =>
    entries.map(({ date, value, standardUncertainty, expanded, residual, surprise }) => [
      name,
      unit,
      date,
      ...[value, standardUncertainty, expanded, residual].map(String),
      surprise === null ? "" : String(surprise),
    ]),
  );
  return csvText([head, ...rows]);
}
