import { InputError, refuse, show, type Problem } from "../../engine/index.ts";
import { writtenRows } from "../evaluation/table/index.ts";
import { daySchema } from "../evaluation/text/document.ts";
import type { HistoryCalibration, HistoryQuantity } from "./document.ts";

/** A figure as tables write it, with a decimal comma where there is no point. */
const numberIn = (cell: string): number => {
  const text = cell.trim().replace("−", "-");
  return text === "" ? NaN : Number(text.includes(".") ? text : text.replace(",", "."));
};

/**
 * The calibrations of a table: a row each, with `date`, a column for each quantity by its name, and beside it `u(NAME)` with
 * standard or `U(NAME)` with expanded uncertainties. An empty cell is a quantity that was not measured that day.
 *
 * @throws {InputError} a column that is not there, cells that are no figures, with row and column
 */
export function calibrationsOfTable(
  text: string,
  file: string,
  quantities: readonly Pick<HistoryQuantity, "name" | "coverageFactor">[],
): readonly HistoryCalibration[] {
  const [head, ...rows] = writtenRows(text, file);
  if (head === undefined) return refuse(file, "an empty table", "a heading and a row for each calibration");
  const heads = head.cells.map((cell) => cell.trim());
  const find = (wanted: string): number => heads.findIndex((cell) => cell === wanted);
  const required = (wanted: string, place = find(wanted)): number =>
    place >= 0 ? place : refuse(`${file}, heading`, heads, `a column ${wanted}`);
  const date = required("date");
  const columns = quantities.map(({ name, coverageFactor }) => {
    const [u, U] = [find(`u(${name})`), find(`U(${name})`)];
    if (u < 0 && U < 0) refuse(`${file}, heading`, heads, `a column u(${name}) or U(${name})`);
    return { name, value: required(name), u: u < 0 ? U : u, k: u < 0 ? coverageFactor : null };
  });
  const problems: Problem[] = [];
  const calibrations = rows.map(({ row, cells }): HistoryCalibration => {
    const figure = (column: number): number => {
      const cell = cells[column] ?? "";
      const found = numberIn(cell);
      if (!Number.isFinite(found))
        problems.push({ place: `${file}, row ${row}, ${heads[column]}`, value: show(cell), accepted: "a number" });
      return found;
    };
    const day = (cells[date] ?? "").trim();
    if (!daySchema.safeParse(day).success)
      problems.push({ place: `${file}, row ${row}, date`, value: show(day), accepted: "a day as YYYY-MM-DD" });
    return {
      date: day,
      source: `${file}, row ${row}`,
      results: Object.fromEntries(
        columns.flatMap(({ name, value, u, k }) => {
          if ((cells[value] ?? "").trim() === "") return [];
          const uncertainty =
            k === null ? { standardUncertainty: figure(u) } : { expandedUncertainty: figure(u), coverageFactor: k };
          return [[name, { value: figure(value), ...uncertainty }] as const];
        }),
      ),
    };
  });
  if (problems.length > 0) throw new InputError(problems);
  return calibrations;
}
