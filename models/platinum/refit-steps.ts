import type { BinaryOperation, Numeric, Step } from "../../engine/internal.ts";

const number = (value: number): Numeric => ({ op: "number", value });
const binary =
  (op: BinaryOperation) =>
  (left: Numeric, right: Numeric): Numeric => ({ op, left, right });
const [add, sub, mul, div] = (["add", "sub", "mul", "div"] as const).map(binary) as [
  ReturnType<typeof binary>,
  ReturnType<typeof binary>,
  ReturnType<typeof binary>,
  ReturnType<typeof binary>,
];
const negative = (of: Numeric): Numeric => ({ op: "neg", of });
const choose = (op: "lt" | "gt", left: Numeric, yes: Numeric, no: Numeric): Numeric => ({
  op: "choose",
  test: { op, left, right: number(0) },
  yes,
  no,
});

/**
 * `Refit` with weights of 1 as steps of a program: the same operations in the same order, with its loops written out, so
 * that the values are identical, bit for bit. A fit that `Refit` does not solve is left to the plain path.
 *
 * @param temperatures of the points, °C, and `resistances`, Ω: locals, which are read more than once
 * @param heldC as of `Refit`
 * @param factor as of `Refit`
 * @param keep puts a value into a local of its own, after the steps so far
 * @param step adds a step
 * @returns R₀ and the products R₀A, R₀B and, if fitted, R₀C
 */
export function refitSteps(
  temperatures: readonly Numeric[],
  resistances: readonly Numeric[],
  heldC: number | null,
  factor: readonly (readonly number[])[] | null,
  keep: (value: Numeric) => Numeric,
  step: (step: Step) => void,
): readonly Numeric[] {
  const n = temperatures.length;
  const cubics = temperatures.map((t) => keep(choose("lt", t, mul(mul(mul(sub(t, number(100)), t), t), t), number(0))));
  const design = [
    cubics.map((cubic) => keep(add(number(1), mul(number(heldC ?? 0), cubic)))),
    [...temperatures],
    temperatures.map((t) => keep(mul(t, t))),
    ...(heldC === null ? [[...cubics]] : []),
  ];
  const right = [...resistances];
  const columns = [...design, right];
  if (factor !== null) for (const column of columns) forward(factor, column, keep);

  const p = design.length;
  const diagonal: Numeric[] = [];
  for (let k = 0; k < p; k++) {
    const v = design[k]!;
    const norm = keepNorm(v, k, keep);
    step({ step: "if", test: { op: "eq", left: norm, right: number(0) }, yes: [{ step: "giveUp" }], no: [] });
    diagonal.push(norm);
    const head = keep(sub(v[k]!, norm));
    v[k] = head;
    const scale = keep(div(number(1), mul(norm, head)));
    for (const column of columns.slice(k + 1)) {
      const along = keep(
        mul(
          sumFrom(k, n, (i) => mul(v[i]!, column[i]!)),
          scale,
        ),
      );
      for (let i = k; i < n; i++) column[i] = keep(add(column[i]!, mul(along, v[i]!)));
    }
  }
  const q: Numeric[] = [];
  for (let k = p - 1; k >= 0; k--) {
    let rest = right[k]!;
    for (let c = k + 1; c < p; c++) rest = sub(rest, mul(design[c]![k]!, q[c]!));
    q[k] = keep(div(rest, diagonal[k]!));
  }
  const unsolved = { op: "not", of: { op: "gt", left: q[0]!, right: number(0) } } as const;
  step({ step: "if", test: unsolved, yes: [{ step: "giveUp" }], no: [] });
  return q;
}

/** The column's length from row k on, with the sign that does not cancel. */
function keepNorm(column: readonly Numeric[], k: number, keep: (value: Numeric) => Numeric): Numeric {
  const length = keep({ op: "sqrt", of: sumFrom(k, column.length, (i) => mul(column[i]!, column[i]!)) });
  return keep(choose("gt", column[k]!, negative(length), length));
}

function sumFrom(from: number, to: number, term: (i: number) => Numeric): Numeric {
  let sum = number(0);
  for (let i = from; i < to; i++) sum = add(sum, term(i));
  return sum;
}

/** L⁻¹x in place. */
function forward(L: readonly (readonly number[])[], x: Numeric[], keep: (value: Numeric) => Numeric): void {
  for (let i = 0; i < x.length; i++) {
    let rest = x[i]!;
    for (let j = 0; j < i; j++) rest = sub(rest, mul(number(L[i]![j]!), x[j]!));
    x[i] = keep(div(rest, number(L[i]![i]!)));
  }
}
