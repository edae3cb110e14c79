import type { AnyNode, Node } from "acorn";
import { notAProgram, type FunctionNode } from "./values.ts";

const known = new WeakMap<FunctionNode, ReadonlySet<string>>();

/** Names that are assigned to in a function after their declaration. */
export function assignedIn(node: FunctionNode): ReadonlySet<string> {
  let found = known.get(node);
  if (found === undefined) known.set(node, (found = assignedWithin(node)));
  return found;
}

/** Names that are assigned to within a part of a function. */
export function assignedWithin(node: Node): ReadonlySet<string> {
  const names = new Set<string>();
  collect(node, names);
  return names;
}

function collect(node: Node, names: Set<string>): void {
  const within = node as AnyNode;
  if (within.type === "AssignmentExpression") {
    if (within.left.type === "Identifier") names.add(within.left.name);
    else if (within.left.type !== "MemberExpression") notAProgram("an assignment by a pattern");
  } else if (within.type === "UpdateExpression" && within.argument.type === "Identifier")
    names.add(within.argument.name);
  for (const part of Object.values(node) as unknown[])
    for (const child of Array.isArray(part) ? (part as unknown[]) : [part])
      if (typeof child === "object" && child !== null && "type" in child) collect(child as Node, names);
}
