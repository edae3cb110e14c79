import { parse, type AnyNode, type Expression, type Node, type Statement } from "acorn";
import { topLevelNames } from "./top-level-names.ts";
import { notAProgram, type FunctionNode } from "./values.ts";

/** The text of a bundled module, and what its names stand for once it has run. */
export interface ModuleText {
  readonly source: string;
  /** What a name at the module's top level stands for; the functions in it are those of the text. */
  valueOf(name: string): unknown;
}

/** How a name at the top level of a module is declared. */
export type Declaration =
  | { readonly kind: "function"; readonly node: FunctionNode }
  /** `null` where a pattern gives the name its value. */
  | { readonly kind: "variable"; readonly value: Expression | null };

/** Reads the parts of a module's text that are asked for, each once: parsing all of it would take longer than most runs. */
export interface ModuleScope extends ModuleText {
  /** `null` for a name that the module does not declare. */
  declarationOf(name: string): Declaration | null;
  /** The function of the text, if it stands at the module's top level, so that its free names are the module's. */
  nodeOf(value: unknown): FunctionNode;
}

export function moduleScope(text: ModuleText): ModuleScope {
  const { source } = text;
  const names = topLevelNames(source);
  const statements = new Map<number, Statement>();
  const declarations = new Map<string, Declaration | null>();
  const functions = new Map<unknown, FunctionNode>();

  /** The statement that begins here. @throws {NotAProgram} text that is none by itself */
  function statementAt(from: number): Statement {
    const known = statements.get(from);
    if (known !== undefined) return known;
    const end = /^[^\s})\]]/m.exec(source.slice(source.indexOf("\n", from) + 1));
    const to = source.includes("\n", from) ? source.indexOf("\n", from) + 1 + (end?.index ?? source.length) : undefined;
    let parsed: Statement;
    try {
      // Spaces in place of what stands before would make places those of the source; that they are shifted is simpler.
      const { body } = parse(source.slice(from, to), { ecmaVersion: 2022, sourceType: "module" });
      const first = body[0]!;
      parsed = (first.type === "ExportNamedDeclaration" ? first.declaration! : first) as Statement;
    } catch {
      return notAProgram("a statement that cannot be read by itself");
    }
    statements.set(from, parsed);
    return parsed;
  }

  function declare(name: string): Declaration | null {
    const places = names.get(name);
    if (places === undefined) return null;
    if (places.length > 1) return notAProgram(`${name}, which is declared twice`);
    const statement = statementAt(places[0]!);
    if (statement.type === "FunctionDeclaration") return { kind: "function", node: statement };
    if (statement.type !== "VariableDeclaration") return notAProgram(`${name}, which is no variable`);
    for (const { id, init } of statement.declarations)
      if (id.type === "Identifier" && id.name === name) return { kind: "variable", value: init ?? null };
    return { kind: "variable", value: null };
  }

  function findFunction(value: unknown): FunctionNode {
    if (typeof value !== "function") return notAProgram("a call of what is no function");
    const written = Function.prototype.toString.call(value);
    const at = source.indexOf(written);
    if (at < 0 || source.includes(written, at + 1)) return notAProgram("a function whose text is not found");
    const starts = [...names.values()].flat().filter((start) => start <= at);
    if (starts.length === 0) return notAProgram("a function outside any statement");
    const from = Math.max(...starts);
    const found = functionIn(statementAt(from), at - from, at - from + written.length);
    return found ?? notAProgram("a function inside another");
  }

  return {
    source,
    valueOf: (name) => text.valueOf(name),
    declarationOf(name) {
      let found = declarations.get(name);
      if (found === undefined) declarations.set(name, (found = declare(name)));
      return found;
    },
    nodeOf(value) {
      let found = functions.get(value);
      if (found === undefined) functions.set(value, (found = findFunction(value)));
      return found;
    },
  };
}

const isFunction = (node: Node): node is FunctionNode =>
  node.type === "FunctionDeclaration" || node.type === "FunctionExpression" || node.type === "ArrowFunctionExpression";

/** The function from `from` to `to` that no other function is about; a method's text begins with its name. */
function functionIn(node: Node, from: number, to: number): FunctionNode | null {
  if (isFunction(node)) return node.start === from && node.end === to ? node : null;
  const within = node as AnyNode;
  if (within.type === "Property" && within.method && within.start === from && within.end === to)
    return within.value as FunctionNode;
  for (const part of Object.values(node) as unknown[])
    for (const child of Array.isArray(part) ? (part as unknown[]) : [part])
      if (typeof child === "object" && child !== null && "type" in child) {
        const found = functionIn(child as Node, from, to);
        if (found !== null) return found;
      }
  return null;
}
