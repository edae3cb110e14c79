import { blocksOf, partOf, programOf, type Numeric, type Program, type Step } from "../../engine/internal.ts";
import { IEC_60751 } from "../platinum/callendar-van-dusen.ts";
import { refitSteps } from "../platinum/refit-steps.ts";
import type { ComposedPoints } from "./composed-points.ts";

/**
 * The model of all points as a program: that of one point for each, and the fit; the operations of `evaluate` in the same
 * order, so that the values are identical, bit for bit.
 *
 * @param names of the errors
 * @param coefficients those that are fitted, or none
 * @returns `null` if there is no program of one point
 */
export function programOfPoints(
  composed: ComposedPoints,
  names: readonly string[],
  coefficients: readonly string[],
  factor: readonly (readonly number[])[] | null,
): Program | null {
  const { point, parameters } = composed;
  const one = point.observation === null ? null : (programOf(point.observation.evaluate)?.program() ?? null);
  if (one === null) return null;
  const body: Step[] = [];
  const outputs: Record<string, Numeric> = {};
  const blocks = blocksOf(one);
  let locals = 0;
  const step = (taken: Step): void => void body.push(taken);
  const keep = (value: Numeric): Numeric => {
    if (value.op === "number" || value.op === "local") return value;
    const local = locals++;
    step({ step: "set", local, value });
    return { op: "local", local };
  };
  const temperatures: Numeric[] = [];
  const resistances: Numeric[] = [];
  names.forEach((name, i) => {
    const found = partOf(one, { locals, blocks: i * blocks, input: inputAt(composed, i) });
    locals += one.locals;
    body.push(...found.body);
    outputs[name] = keep(found.outputs["error"]!);
    if (parameters.fit === null) return;
    temperatures.push(keep(found.outputs["temperature"]!));
    const nominal: Numeric = { op: "number", value: parameters.fit.nominalResistance };
    resistances.push(keep({ op: "mul", left: nominal, right: found.outputs["ratio"]! }));
  });
  if (parameters.fit !== null) {
    const q = refitSteps(temperatures, resistances, parameters.fit.fitC ? null : IEC_60751.C, factor, keep, step);
    coefficients.forEach((name, k) => {
      outputs[name] = k === 0 ? q[0]! : { op: "div", left: q[k]!, right: q[0]! };
    });
  }
  return { locals, body, outputs, tables: one.tables, functions: one.functions };
}

/** What `copierOf` writes, as values. */
function inputAt({ assignments }: ComposedPoints, i: number): (name: string) => Numeric {
  const zero: Numeric = { op: "number", value: 0 };
  const values = new Map(
    assignments[i]!.map(({ field, from, sure, turned }): [string, Numeric] => {
      const value: Numeric = from === null ? zero : { op: "input", name: from, otherwise: sure ? null : zero };
      return [field, turned ? { op: "neg", of: value } : value];
    }),
  );
  return (name) => values.get(name)!;
}
