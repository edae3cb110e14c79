/**
 * Functions written out by name, as `engine/evaluator` does and for the same reason: reading sixty inputs by computed
 * names costs ten times the arithmetic of a point. A page that forbids generated code gets loops with the same values.
 * Names are those of quantities, plain identifiers that were checked before, so they can stand in source text.
 */

type Values = Readonly<Record<string, number>>;

/** Where an input of a point's model comes from. */
export interface Assignment {
  readonly field: string;
  /** Input of the study, or `null`: not stated at this point, taken as zero. */
  readonly from: string | null;
  /** Whether the study must state it. */
  readonly sure: boolean;
  /** Whether its sign changes. */
  readonly turned: boolean;
}

type Copy = (given: Values, x: Record<string, number>) => void;

/** Copies one point's inputs out of those of the study. */
export const copierOf = (assignments: readonly Assignment[]): Copy =>
  written(
    () =>
      new Function(
        "given",
        "x",
        assignments
          .map(({ field, from, sure, turned }) => {
            const value = from === null ? "0" : sure ? `given.${from}` : `(given.${from} ?? 0)`;
            return `x.${field} = ${turned ? "-" : ""}${value};`;
          })
          .join(" "),
      ) as Copy,
    () => (given, x) => {
      for (const { field, from, turned } of assignments) {
        const found = from === null ? 0 : (given[from] ?? 0);
        x[field] = turned ? -found : found;
      }
    },
  );

/** Makes an object of values under their names, always of one shape. */
export const objectOf = (names: readonly string[]): ((values: Float64Array) => Record<string, number>) =>
  written(
    () =>
      new Function("v", `return { ${names.map((name, i) => `${name}: v[${i}]`).join(", ")} };`) as (
        values: Float64Array,
      ) => Record<string, number>,
    () => (values) => Object.fromEntries(names.map((name, i) => [name, values[i]!])),
  );

function written<F>(generated: () => F, plain: () => F): F {
  try {
    return generated();
  } catch (cause) {
    if (!(cause instanceof EvalError)) throw cause;
    return plain();
  }
}
