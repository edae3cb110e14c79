import type { Spread } from "./arithmetic.ts";
import { PARTS, type Part } from "./options.ts";
import type { Results } from "./results.ts";
import { met, type Row } from "./row.ts";

/** Three figures that mean something. */
export function short(value: number): string {
  const size = Math.abs(value);
  return size >= 1000
    ? Math.round(value).toString()
    : size >= 100
      ? value.toFixed(0)
      : size >= 10
        ? value.toFixed(1)
        : value.toFixed(2);
}

const unitOf = (unit: Row["unit"]): string => (unit === "" ? "" : ` ${unit}`);

const spreadIn = ({ lower, upper }: Spread): string => `${short(lower)}–${short(upper)}`;

const measuredOf = ({ measured, spread, unit }: Row): string =>
  measured === null
    ? "not measured"
    : `${short(measured)}${unitOf(unit)}${spread === null ? "" : ` (${spreadIn(spread)})`}`;

const targetOf = ({ target, unit }: Row): string =>
  target === null ? "" : `${target.sense} ${target.limit}${unitOf(unit)}`;

const verdictOf = (row: Row): string => {
  const is = met(row);
  return is === null ? (row.target === null ? "recorded" : "–") : is ? "met" : "not met";
};

const TARGET_HEADS = ["what", "target", "measured (quartiles)", "", "how"];
const targetCells = (rows: readonly Row[]): string[][] =>
  rows.map((row) => [row.words, targetOf(row), measuredOf(row), verdictOf(row), row.note]);

/** Workloads down, contestants across. */
function timingCells({ timings }: Results): { heads: string[]; cells: string[][] } {
  const workloads = [...new Set(timings.map(({ workload }) => workload))];
  const titles = [...new Set(timings.map(({ title }) => title))];
  const cells = workloads.map((workload) => [
    workload in PARTS ? `${workload}: ${PARTS[workload as Part]}` : workload,
    ...titles.map((title) => {
      const found = timings.find((timing) => timing.workload === workload && timing.title === title);
      return found === undefined
        ? ""
        : `${short(found.milliseconds.median)} (${spreadIn(found.milliseconds)}) ms, ${found.residentMb} MB`;
    }),
  ]);
  return { heads: ["median (quartiles), greatest resident memory", ...titles], cells };
}

const machineLine = ({ machine, rounds, measuredAt, sources }: Results): string =>
  `${measuredAt.slice(0, 10)}, ${machine.cores} cores (${machine.processor}), ${machine.memoryGb} GB, ${machine.system}, Node ${machine.node.slice(1)}, ` +
  [...new Set(Object.values(machine.contestants))]
    .filter((name) => !name.startsWith("Node"))
    .map((name) => `${name}; `)
    .join("") +
  `${rounds} interleaved rounds; load before: ${machine.loadBefore}; sources ${sources}`;

function aligned(heads: readonly string[], cells: readonly (readonly string[])[]): string {
  const widths = heads.map((head, i) => Math.max(head.length, ...cells.map((line) => line[i]!.length)));
  const line = (texts: readonly string[]): string =>
    texts
      .map((text, i) => text.padEnd(widths[i]!))
      .join("  ")
      .trimEnd();
  return [line(heads), line(widths.map((width) => "─".repeat(width))), ...cells.map(line)].join("\n");
}

const markdown = (heads: readonly string[], cells: readonly (readonly string[])[]): string =>
  [heads, heads.map(() => "---"), ...cells].map((line) => `| ${line.join(" | ")} |`).join("\n");

/** For the terminal. */
export function tableText(results: Results): string {
  const { heads, cells } = timingCells(results);
  const timings = cells.length === 0 ? "" : `${aligned(heads, cells)}\n\n`;
  return `${machineLine(results)}\n\n${timings}${aligned(TARGET_HEADS, targetCells(results.rows))}\n`;
}

/** Parts that repeat for another model what is recorded of W1: tests/bench/README.md shows their targets alone. */
const REPEATING: ReadonlySet<Part> = new Set(["W2", "W3", "W6"]);

/** For tests/bench/README.md, between its markers. */
export function tableMarkdown(results: Results): string {
  const { heads, cells } = timingCells(results);
  const rows = results.rows.filter(({ part, target }) => target !== null || !REPEATING.has(part));
  return `${markdown(heads, cells)}\n\n${markdown(TARGET_HEADS, targetCells(rows))}\n\nMeasured ${machineLine(results)}. All rows are in \`tests/bench/results/latest.json\`.`;
}

export const MARKERS = ["<!-- bench -->", "<!-- /bench -->"] as const;

/** Puts a table between the markers. @throws {Error} a text without them */
export function withTable(text: string, table: string): string {
  const from = text.indexOf(MARKERS[0]);
  const to = text.indexOf(MARKERS[1]);
  if (from < 0 || to < from)
    throw new Error(`tests/bench/README.md: no ${MARKERS[0]} … ${MARKERS[1]}; accepted is one pair, in this order`);
  return `${text.slice(0, from + MARKERS[0].length)}\n\n${table}\n\n${text.slice(to)}`;
}
