import { refuse, type Statement, type Study } from "../../engine/index.ts";
import { sampleStatistics } from "../../engine/internal.ts";
import type { StatementMaker } from "../sweep/statements.ts";
import { inputsOf, type Lever } from "./document.ts";

type Point = NonNullable<Study["sweep"]>["points"][number];
type Figures = Readonly<Record<string, unknown>>;

/** A step of a lever, by their places. */
export interface Choice {
  readonly lever: number;
  readonly step: number;
}

/** What a step makes of the statements of a point, by the input. */
export type Changed = (
  point: Point,
  stated: Readonly<Record<string, Statement>>,
) => Readonly<Record<string, Statement>>;

/**
 * What every step of every lever makes of a point's statements.
 *
 * @param made reads statements whose figures depend on what is swept
 * @returns by lever and step; each may throw an `InputError` for a statement that it cannot change
 */
export const changesOf = (levers: readonly Lever[], made: StatementMaker): readonly (readonly Changed[])[] =>
  levers.map((lever, i) =>
    lever.steps.map((step, k): Changed => {
      if (lever.kind === "replace") {
        const statements = made((step as (typeof lever.steps)[number]).inputs, `levers.${i}.steps.${k}.inputs`);
        return ({ at, second }) => statements({ t: at, s: second ?? null });
      }
      const { to } = step as { readonly to: number };
      const place = `levers.${i}`;
      return (_, stated) =>
        Object.fromEntries(
          inputsOf(lever).map((input) => {
            const statement =
              stated[input] ??
              refuse(`${place}.inputs`, input, `an input that the study states: ${Object.keys(stated).join(", ")}`);
            const note = `${lever.name}: ${to}`;
            return [
              input,
              lever.kind === "readings"
                ? withReadings(statement, to, note, `${place}.inputs: ${input}`)
                : scaled(statement, factorOf(lever, to), note, `${place}.inputs: ${input}`),
            ];
          }),
        );
    }),
  );

/**
 * By how much a lever's uncertainty changes. A difference between two places of a bath is taken as proportional to their
 * distance. Fluctuations are taken as independent from one averaging window to the next, so that they fall with the root of
 * its length: common practice, to be held against the survey's own curve over the length of the window.
 */
function factorOf(lever: Exclude<Lever, { readonly kind: "readings" | "replace" }>, to: number): number {
  if (lever.kind === "scale") return to;
  return lever.kind === "zone" ? to / lever.now : Math.sqrt(lever.now / to);
}

/** Fields of a statement that are widths. */
const WIDTHS = ["halfWidth", "limitHalfWidth", "standardUncertainty", "expandedUncertainty"] as const;

/** A statement with its widths multiplied. What it rested on no longer says so: evidence goes, the source names the step. */
function scaled(statement: Statement, factor: number, note: string, place: string): Statement {
  const { evidence: _, ...stated } = statement as unknown as Figures;
  const widths = WIDTHS.filter((field) => typeof stated[field] === "number");
  if (widths.length === 0)
    return refuse(
      place,
      stated["distribution"],
      `a statement with one of ${WIDTHS.join(", ")}, or a lever of kind replace`,
    );
  return {
    ...stated,
    ...Object.fromEntries(widths.map((field) => [field, (stated[field] as number) * factor])),
    source: note,
  } as unknown as Statement;
}

/**
 * A mean of n indications in place of the present one: s stays, u is s/√n, and ν is n − 1, unless s is pooled and brings its
 * own (JCGM 100, 4.2).
 */
function withReadings(statement: Statement, n: number, note: string, place: string): Statement {
  const stated = statement as unknown as Figures;
  const kept = stated["unit"] === undefined ? {} : { unit: stated["unit"] };
  const planned = (estimate: number, deviation: number, ν: number): Statement =>
    ({
      distribution: "t",
      estimate,
      standardUncertainty: deviation / Math.sqrt(n),
      degreesOfFreedom: ν,
      evaluation: "A",
      ...kept,
      source: note,
    }) as unknown as Statement;
  if (stated["distribution"] === "readings") {
    const values = stated["values"] as readonly number[];
    const { mean, standardDeviation } = sampleStatistics(values);
    const [pooled, ν] = [stated["pooledStandardDeviation"], stated["pooledDegreesOfFreedom"]];
    return planned(mean, (pooled as number | undefined) ?? standardDeviation, (ν as number | undefined) ?? n - 1);
  }
  const { estimate, standardUncertainty: u, degreesOfFreedom: ν } = stated;
  if (stated["distribution"] === "t" && typeof u === "number" && typeof ν === "number")
    return planned(estimate as number, u * Math.sqrt(ν + 1), n - 1);
  return refuse(
    place,
    stated["distribution"],
    "readings, or a t distribution with standardUncertainty and degreesOfFreedom, one less than the indications",
  );
}
