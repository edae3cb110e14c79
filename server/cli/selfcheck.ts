import { InvalidArgumentError } from "commander";
import { openOutput, type OutputFile } from "../output-file.ts";
import { defaultWorkers } from "../runs/pool/pool.ts";
import type { CheckEvent, CheckLine } from "../../viewer/api/selfcheck.ts";
import { checkGroups } from "../selfcheck/groups/index.ts";
import { reportPage } from "../selfcheck/report-page.ts";
import { checkTally, scopeSentence, withCheckUnit } from "../../viewer/present/selfcheck.ts";
import { ENGLISH } from "../../viewer/present/statement.ts";
import { selfcheck as carryOut, type SelfcheckReport } from "../selfcheck/selfcheck.ts";
import type { CommandRegistration } from "./command.ts";
import { print } from "./print.ts";
import { wholeNumber } from "./options.ts";
import { stylesFor, widthOf } from "../../viewer/terminal/style.ts";
import { wrap } from "../../viewer/terminal/table.ts";

interface SelfcheckFlags {
  readonly quick?: boolean;
  readonly workers?: number;
  readonly seed?: string;
  readonly json?: boolean;
  readonly out?: readonly string[];
}

export const selfcheck: CommandRegistration = (program) => {
  program
    .command("selfcheck")
    .summary("check this installation against published figures")
    .description(
      "Runs the published worked examples, tables, closed forms and tests of the random numbers on this installation, now, and prints for each the published figure, the figure obtained and whether it is within its tolerance.",
    )
    .option("--quick", "seconds in place of a minute or two: fewer trials, fewer points of the long tables")
    .option(
      "--out <file>",
      "write a dated report for the quality file: .html or .json; may be given twice",
      reportFile,
      [],
    )
    .option("--json", "print the report (JSON) in place of the tables")
    .option("--workers <n>", "threads that draw trials", wholeNumber(1, 64))
    .option(
      "--seed <text>",
      "seed in place of each study's own: other draws, and so other Monte Carlo figures",
      seedText,
    )
    .addHelpText(
      "after",
      "\nExit codes: 0 every line passed, 1 one or more failed, 2 input that cannot be used, 130 interrupted.",
    )
    .action(async (flags: SelfcheckFlags) => {
      process.exitCode = await selfcheckCommand(flags);
    });
};

function reportFile(file: string, before: readonly string[]): readonly string[] {
  if (!/\.(html|json)$/.test(file)) throw new InvalidArgumentError("Expected a file name that ends in .html or .json.");
  return [...before, file];
}

function seedText(text: string): string {
  if (text.length === 0 || text.length > 100) throw new InvalidArgumentError("Expected a text of 1 to 100 characters.");
  return text;
}

async function selfcheckCommand({
  quick = false,
  workers = defaultWorkers(),
  seed,
  json = false,
  out = [],
}: SelfcheckFlags): Promise<number> {
  const outputs: { readonly file: string; readonly output: OutputFile }[] = [];
  const abort = new AbortController();
  const interrupt = (): void => abort.abort();
  process.once("SIGINT", interrupt);
  const progress = progressOf(process.stderr);
  if (!json) print(`${wrap(scopeSentence(quick ? "quick" : "full", ENGLISH), widthOf(process.stdout))}\n`);
  let lines: CheckLine[] = [];
  let title = "";
  const tellGroup = (): void => {
    progress.clear();
    if (!json && lines.length > 0) print(groupText(title, lines, process.stdout));
    lines = [];
  };
  try {
    for (const file of out) outputs.push({ file, output: await openOutput(file, "The report") });
    const report = await carryOut(checkGroups, {
      quick,
      workers,
      seed,
      signal: abort.signal,
      onEvent(event) {
        if (event.type === "line") lines.push(event.line);
        if (event.type === "step") progress.show(event);
        if (event.type !== "group") return;
        tellGroup();
        ({ title } = event);
      },
    });
    tellGroup();
    progress.clear();
    for (const { file, output } of outputs)
      await output.write(file.endsWith(".html") ? reportPage(report) : reportText(report));
    if (json) process.stdout.write(reportText(report));
    else print(`\n${endText(report, out)}`);
    return report.failed === 0 ? 0 : 1;
  } finally {
    for (const { output } of outputs) await output.abandon();
    progress.clear();
    process.off("SIGINT", interrupt);
  }
}

const reportText = (report: SelfcheckReport): string => `${JSON.stringify(report, null, 2)}\n`;

/** Longest texts of the columns that hold what was checked and the two figures; a longer one gets lines of its own. */
const LONGEST = [62, 30, 30] as const;
const lengthOf = (text: string): number => [...text].length;

/** A group as a table, with its sources and what its tolerances rest on below. */
function groupText(title: string, lines: readonly CheckLine[], stream: NodeJS.WriteStream): string {
  const styles = stylesFor(stream);
  const width = widthOf(stream);
  const notes = [...new Set(lines.map(noteOf))];
  const rows = lines.map((line) => {
    const { what, unit, passed, shown } = line;
    const cells = [what, withCheckUnit(shown.published, unit), withCheckUnit(shown.obtained, unit)];
    return {
      passed,
      cells,
      tolerance: shown.tolerance,
      note: `[${notes.indexOf(noteOf(line)) + 1}]`,
      long: cells.some((cell, i) => lengthOf(cell) > LONGEST[i]!),
    };
  });
  const heads = ["what", "published", "obtained"];
  const widths = heads.map((head, i) =>
    Math.max(head.length, ...rows.filter(({ long }) => !long).map(({ cells }) => lengthOf(cells[i]!))),
  );
  const limits = Math.max(
    "tolerance".length,
    ...rows.filter(({ long }) => !long).map(({ tolerance }) => lengthOf(tolerance)),
  );
  const pad = (text: string, to: number): string => text + " ".repeat(Math.max(0, to - lengthOf(text)));
  const across = (cells: readonly string[], tolerance: string, note: string): string =>
    `${cells.map((cell, i) => pad(cell, widths[i]!)).join("  ")}  ${pad(tolerance, limits)}  ${note}`;
  // A terminal that is narrower than the table gets every line in parts.
  const narrow = stream.isTTY && lengthOf(across(heads, "", "")) + limits + 12 > width;
  const body = rows.map(({ passed, cells, tolerance, note, long }) => {
    const mark = passed ? "✓     " : styles.bold("✗ FAIL");
    if (!long && !narrow) return `  ${mark} ${across(cells, tolerance, note)}`;
    return `  ${mark} ${cells[0]}  ${note}\n${["published ", "obtained  "].map((head, i) => `           ${head}${cells[i + 1]}`).join("\n")}\n           tolerance ${tolerance}`;
  });
  const foot = notes.map((note, i) => `  ${wrap(`[${i + 1}] ${note}`, width - 2, "      ")}`);
  return `\n${styles.bold(title)}\n${narrow ? "" : `         ${styles.dim(across(heads, "tolerance", "note"))}\n`}${body.join("\n")}\n${styles.dim(foot.join("\n"))}\n`;
}

const noteOf = ({ source, tolerance }: CheckLine): string => `${source}. Tolerance: ${tolerance.basis}.`;

function endText(report: SelfcheckReport, files: readonly string[]): string {
  const styles = stylesFor(process.stdout);
  const { installation, groups, seconds, startedAt } = report;
  const failed = groups.flatMap(({ lines }) => lines.filter(({ passed }) => !passed));
  return [
    ...groups.map(({ title, lines }) => {
      const bad = lines.filter(({ passed }) => !passed).length;
      return `  ${bad === 0 ? "✓" : "✗"} ${title}: ${checkTally({ passed: lines.length - bad, failed: bad }, ENGLISH)}`;
    }),
    ...(failed.length === 0
      ? []
      : [
          "",
          styles.bold("Failed:"),
          ...failed.map(({ what, shown }) => `  ✗ ${what}: published ${shown.published}, obtained ${shown.obtained}`),
        ]),
    "",
    styles.bold(`${failed.length === 0 ? "✓" : "✗"} ${checkTally(report, ENGLISH)}`),
    `Trialband ${installation.version}, commit ${installation.commit ?? "none"}, ${installation.runtime}, ${installation.system}`,
    `${startedAt}, ${seconds.toFixed(1)} s, ${installation.workers} worker(s)`,
    ...files.map((file) => `Wrote ${file}`),
    "",
  ].join("\n");
}

/** One line that shows how far the checks are, on a terminal only. */
function progressOf(stream: NodeJS.WriteStream): {
  show(event: Extract<CheckEvent, { type: "step" }>): void;
  clear(): void;
} {
  let shown = false;
  const clear = (): void => {
    if (shown) stream.write("\r\x1b[2K");
    shown = false;
  };
  return {
    clear,
    show({ title, done, all }) {
      if (stream.isTTY !== true) return;
      clear();
      shown = true;
      stream.write(
        `${"█".repeat(Math.round((24 * done) / all)).padEnd(24, "░")} ${done}/${all} ${title}`.slice(
          0,
          Math.max(20, stream.columns - 1),
        ),
      );
    },
  };
}
