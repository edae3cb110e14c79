import { InvalidArgumentError } from "commander";
import { prepare } from "../../engine/index.ts";
import { readStatement } from "../../engine/internal.ts";
import {
  complete,
  problemsOf,
  readDocument,
  statedMappingSchema,
  type BudgetField,
  type BudgetTableReading,
  type MappingQuestion,
  type StatedMapping,
} from "../../models/index.ts";
import { Fault } from "../errors.ts";
import { openOutput } from "../output-file.ts";
import { readJson } from "../intake/index.ts";
import { loadStudyDocument } from "../shelves/study.ts";
import { inFile } from "../intake/in-file.ts";
import { loadBudgetStudy } from "../intake/budget-study.ts";
import type { CommandRegistration } from "./command.ts";
import { threadedRun } from "./threaded-run.ts";
import { print } from "./print.ts";
import { listPart, part, plain, tablePart, type Layout } from "../../viewer/terminal/lines.ts";
import { EXIT_CODES, file as conclude, filingOptions, type OutcomeFlags } from "./outcome.ts";
import { watchFile } from "../intake/watched-file.ts";
import { joinMappings } from "../../viewer/present/join-mappings.ts";
import { harmless } from "../../viewer/terminal/harmless.ts";
import { stylesFor, widthOf } from "../../viewer/terminal/style.ts";

interface BudgetFlags extends OutcomeFlags {
  readonly sheet?: string;
  readonly columns?: Readonly<Record<string, BudgetField>>;
  readonly mapping?: string;
  readonly writeMapping?: string;
  readonly title?: string;
  readonly unit?: string;
  readonly symbol?: string;
  readonly meaning?: string;
  readonly coverage?: Coverage;
}

type Coverage = { readonly probability: number } | { readonly factor: number };

/** The possible meanings of a column, in words. */
const FIELDS: Readonly<Record<BudgetField, string>> = {
  quantity: "what the row is about",
  symbol: "its symbol",
  estimate: "its estimate",
  unit: "unit of the row",
  stated: "uncertainty as stated, before division",
  standard: "standard uncertainty",
  lower: "lower limit",
  upper: "upper limit",
  howStated: "how the uncertainty was stated",
  distribution: "distribution",
  type: "evaluation of type A or B",
  divisor: "divisor",
  sensitivity: "sensitivity coefficient",
  degreesOfFreedom: "degrees of freedom",
  readings: "number of readings",
  contribution: "contribution, compared and not used",
  share: "share of the variance, not used",
  source: "source",
};

export const budget: CommandRegistration = (program) => {
  const command = program
    .command("budget")
    .argument("<file>", "a budget kept as a table: CSV or XLSX")
    .summary("turn a budget that exists as a table into a study, with nothing retyped")
    .description(
      "Reads an uncertainty budget kept as a table, shows how every column and row was understood, and makes a study of the model additive from it. Headings, distributions and sums are known in English, German, French, Spanish and Italian. What the table leaves open is asked and never guessed: answer with --mapping, a file that --write-mapping writes to begin with. Nothing runs before the mapping has been shown.",
    )
    .option("--sheet <name>", "sheet of a spreadsheet that has several")
    .option(
      "--columns <letter=field,…>",
      `content of columns whose headings are not understood: ${Object.keys(FIELDS).join(", ")}`,
      columnsOption,
    )
    .option(
      "--mapping <file>",
      "JSON file that states what columns, rows and signs are; what it leaves open is proposed",
    )
    .option("--write-mapping <file>", "write the mapping that was used or is proposed, to be mended and given back")
    .option("--title <text>", "title of the study; default: the title above the table, or the name of the file")
    .option("--symbol <text>", "symbol of the result")
    .option("--meaning <text>", "what the result is, in words")
    .option("--unit <unit>", "unit of the result; default: that of the terms with coefficient 1")
    .option("--coverage <p or k>", "0.95 for a coverage probability, k=2 for a fixed factor", coverageOption);
  filingOptions(command)
    .addHelpText(
      "after",
      `
${EXIT_CODES}

Examples:
  trialband budget examples/survey/budget-72.csv
  trialband budget examples/survey/budget-72.csv --out budget-72.json --run
  trialband budget my-budget.xlsx --sheet 2026 --columns D=stated,F=divisor --coverage k=2
  trialband budget my-budget.xlsx --write-mapping mapping.json
  trialband budget my-budget.xlsx --mapping mapping.json --run`,
    )
    .action(async (path: string, flags: BudgetFlags) => {
      process.exitCode = await budgetCommand(path, flags);
    });
};

function columnsOption(text: string): Record<string, BudgetField> {
  const pairs = text.split(",").map((pair) => pair.trim().split("="));
  const bad = pairs.find(
    ([letter, field]) => !/^[A-Za-z]{1,3}$/.test(letter ?? "") || !Object.hasOwn(FIELDS, field ?? ""),
  );
  if (bad !== undefined) {
    throw new InvalidArgumentError(
      `${bad.join("=")}: expected a column letter, = and one of ${Object.keys(FIELDS).join(", ")}.`,
    );
  }
  return Object.fromEntries(pairs.map(([letter, field]) => [letter!.toUpperCase(), field as BudgetField]));
}

function coverageOption(text: string): Coverage {
  const fixed = /^k\s*=\s*([\d.]+)$/i.exec(text.trim());
  const value = Number(fixed?.[1] ?? text);
  if (fixed !== null && value > 0) return { factor: value };
  if (fixed === null && value > 0.5 && value < 1) return { probability: value };
  throw new InvalidArgumentError("Expected a probability such as 0.95, or a factor such as k=2.");
}

async function budgetCommand(
  path: string,
  { sheet, columns, mapping, writeMapping, title, symbol, meaning, unit, coverage, ...flags }: BudgetFlags,
): Promise<number> {
  const layout: Layout = { styles: stylesFor(process.stdout), width: widthOf(process.stdout) };
  const watched = await watchFile(path);
  const stated = joinMappings(mapping === undefined ? {} : await mappingIn(mapping), {
    ...(sheet === undefined ? {} : { sheet }),
    ...(columns === undefined ? {} : { columns: mapObject(columns, (field) => ({ field })) }),
  });
  const { reading, file: trace } = await inFile(path, () =>
    loadBudgetStudy(watched, {
      mapping: stated,
      ...(title === undefined ? {} : { title }),
      ...(coverage === undefined ? {} : { coverage }),
      measurand: {
        ...(symbol === undefined ? {} : { symbol }),
        ...(meaning === undefined ? {} : { meaning }),
        ...(unit === undefined ? {} : { unit }),
      },
    }),
  );
  if (writeMapping !== undefined) {
    const output = await openOutput(writeMapping, "The mapping");
    await output.write(`${JSON.stringify(reading.mapping, null, 2)}\n`);
  }
  if (!flags.json) print(`${budgetLines(harmless(reading), harmless(trace), layout).join("\n")}\n`);
  // Cells that cannot be used and questions end here; what was asked has been shown in full above.
  if (reading.questions.length > 0 && !flags.json)
    throw new Fault("bad-input", openWords(path, reading), problemsOf(reading));
  const { study: document, ...evaluation } = await inFile(path, () => complete(reading));
  const loaded = await inFile(path, async () => {
    const found = await loadStudyDocument(document, null);
    prepare(found.model, found.study);
    return found;
  });
  return conclude(
    { evaluation: { file: trace, ...evaluation }, statements: document.inputs },
    { document, run: () => threadedRun(loaded) },
    flags,
    layout,
  );
}

const openWords = (path: string, { questions }: BudgetTableReading): string =>
  `${path} leaves ${questions.length === 1 ? "one question" : `${questions.length} questions`} open; answer in a mapping: trialband budget ${path} --write-mapping mapping.json, then --mapping mapping.json.`;

const mapObject = <V, W>(object: Readonly<Record<string, V>>, change: (value: V) => W): Record<string, W> =>
  Object.fromEntries(Object.entries(object).map(([key, value]) => [key, change(value)]));

async function mappingIn(path: string): Promise<StatedMapping> {
  return inFile(path, async () => readDocument(statedMappingSchema, await readJson(path)));
}

/** A question, its answers, and what each would state in a mapping. */
const questionLines = ({ question, because, answers }: MappingQuestion): string[] => [
  `${question} ${because}`,
  ...answers.map(({ answer, states }) => `   ${answer}: ${JSON.stringify(states)}`),
];

function budgetLines(
  {
    columns,
    mapping,
    headingRow,
    terms,
    summary,
    unit,
    combined,
    remarks,
    title,
    study,
    questions,
  }: BudgetTableReading,
  file: { name: string; sha256: string },
  layout: Layout,
): string[] {
  return [
    layout.styles.bold(study?.title ?? title ?? file.name),
    layout.styles.dim(`${file.name}  SHA-256 ${file.sha256}`),
    ...tablePart(
      layout,
      `What the columns were taken for${headingRow === null ? "" : ` (headings in row ${headingRow}${mapping.sheet === null ? "" : ` of the sheet ${mapping.sheet}`})`}`,
      [
        ["column", "left"],
        ["heading", "left"],
        ["field", "left"],
        ["taken as", "left"],
      ],
      columns.map(({ column, heading, field, unit: own, implies }) => [
        column,
        heading,
        field ?? "not used",
        field === null
          ? ""
          : [FIELDS[field], ...(own === null ? [] : [`in ${own}`]), ...(implies === null ? [] : [`(${implies})`])].join(
              " ",
            ),
      ]),
    ),
    ...tablePart(
      layout,
      "What the rows were taken for",
      [
        ["row", "right"],
        ["quantity", "left"],
        ["input", "left"],
        ["distribution", "left"],
        ["estimate", "point"],
        ["u", "point"],
        ["unit", "left"],
        ["c", "point"],
        ["ν", "right"],
      ],
      terms.map(({ row, quantity, input, statement, standardUncertainty, unit: own, sensitivity }) => [
        String(row),
        quantity,
        input,
        statement.distribution,
        plain(readStatement(statement, "").budget.estimate, 9),
        plain(standardUncertainty),
        own,
        plain(sensitivity),
        plain(readStatement(statement, "").budget.degreesOfFreedom),
      ]),
    ),
    ...listPart(
      layout,
      "Assumptions",
      terms.flatMap(({ row, quantity, assumed }) =>
        assumed.length === 0 ? [] : [`row ${row} (${quantity}): ${assumed.join("; ")}`],
      ),
    ),
    ...tablePart(
      layout,
      "Rows that sum up, compared and not used",
      [
        ["row", "right"],
        ["label", "left"],
        ["figures", "left"],
      ],
      summary.map(({ row, label, figures }) => [
        String(row),
        label,
        figures.map((figure) => `${plain(figure.value)}${figure.unit === null ? "" : ` ${figure.unit}`}`).join(", "),
      ]),
    ),
    ...part(layout, "Together", [`the inputs combine to u = ${plain(combined)} ${unit}`.trimEnd()]),
    ...listPart(layout, "Remarks", remarks),
    ...questions.flatMap((question) => part(layout, "Open question", questionLines(question))),
  ];
}
