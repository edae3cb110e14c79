import type { Numeric, Program, Step } from "./program.ts";

/** Where a part has its locals and blocks in the whole, and what its inputs are there. */
interface Moved {
  readonly locals: number;
  readonly blocks: number;
  readonly input: (name: string) => Numeric;
}

/**
 * A program as part of another: its locals and blocks beside those of other parts, its inputs values of the whole.
 * Functions and tables are not moved: the parts of a whole have the same ones.
 */
export function partOf(
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
