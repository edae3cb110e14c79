import type { Numeric, Program, Step } from "../../engine/internal.ts";

/** What an input of a point's model is in the study. */
export type InputOf = (name: string) => Numeric;

/** Where the steps of one point have their locals and blocks in those of all. */
interface Moved {
  readonly locals: number;
  readonly blocks: number;
  readonly input: InputOf;
}

/**
 * A point's program as part of that of all points: its locals and blocks beside those of the others, its inputs those of
 * the study. Functions and tables are the same for all points.
 */
export function stepsOfPoint(
  { body, outputs }: Program,
  moved: Moved,
): { readonly body: readonly Step[]; readonly outputs: Program["outputs"] } {
  return { body: inPlace(body, moved), outputs: inPlace(outputs, moved) };
}

/** Greatest number of a block of a program, and one more. */
export const blocksOf = (node: unknown): number =>
  typeof node !== "object" || node === null
    ? 0
    : Math.max(
        "block" in node && typeof node.block === "number" ? node.block + 1 : 0,
        ...Object.values(node).map(blocksOf),
      );

/** The same nodes, moved; every node is plain data. */
function inPlace<T>(node: T, moved: Moved): T {
  if (Array.isArray(node)) return node.map((one: unknown) => inPlace(one, moved)) as T;
  if (typeof node !== "object" || node === null) return node;
  if ("op" in node && node.op === "input") return moved.input((node as unknown as { readonly name: string }).name) as T;
  return Object.fromEntries(
    Object.entries(node).map(([key, value]) => [
      key,
      key === "local" ? value + moved.locals : key === "block" ? value + moved.blocks : inPlace(value, moved),
    ]),
  ) as T;
}
