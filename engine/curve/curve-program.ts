import type { CalibrationCurve, Model } from "../model.ts";
import { blocksOf, partOf } from "../native/program-part.ts";
import type { Numeric, Program, Step } from "../native/program.ts";
import { programOf } from "../native/programs.ts";

/**
 * A model followed by its curve at some arguments, as one program.
 *
 * @param names of the outputs, one for each argument
 * @returns `null` if one of the two is not to be had as a program
 */
export function programOfCurve(
  model: Model,
  curve: CalibrationCurve,
  places: readonly number[],
  names: readonly string[],
): Program | null {
  const fitted = programOf(model.evaluate)?.program() ?? null;
  const along = programOf(curve.evaluate)?.program() ?? null;
  if (fitted === null || along === null || fitted.tables.length + along.tables.length > 0) return null;
  if (fitted.functions.length + along.functions.length > 0) return null;
  const body: Step[] = [...fitted.body];
  let { locals } = fitted;
  const keep = (value: Numeric): Numeric => {
    const local = locals++;
    body.push({ step: "set", local, value });
    return { op: "local", local };
  };
  const parameters = new Map(Object.entries(fitted.outputs).map(([name, value]) => [name, keep(value)]));
  const [before, own] = [blocksOf(fitted.body), blocksOf(along.body)];
  const outputs: Record<string, Numeric> = {};
  places.forEach((at, i) => {
    const argument: Numeric = { op: "number", value: at };
    const part = partOf(along, {
      locals,
      blocks: before + i * own,
      input: (name) => (name === "argument" ? argument : parameters.get(name)!),
    });
    locals += along.locals;
    body.push(...part.body);
    outputs[names[i]!] = keep(part.outputs["value"]!);
  });
  return { locals, body, outputs, tables: [], functions: [] };
}
