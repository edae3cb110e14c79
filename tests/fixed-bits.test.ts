import ts from "typescript";
import { describe, expect, test } from "vitest";
import { everyNode, filesOf, sourceOf } from "./sources.ts";

/** What engine and models never touch: functions of Math whose bits the host chooses, clocks, processes, pages. */

/** Functions of Math whose last bits ECMAScript leaves open. */
const LOOSE = /^(a?(cos|sin|tan)h?|atan2|cbrt|exp|expm1|hypot|log|log10|log1p|log2|pow|random|sumPrecise|f16round)$/;
/** Globals of a clock, a process or a page. */
const GLOBALS = new Set([
  "Date",
  "performance",
  "process",
  "console",
  "document",
  "window",
  "navigator",
  "globalThis",
  "fetch",
  "require",
  "Buffer",
  "setTimeout",
]);

/** Names that a file declares or receives itself, which are then no globals there. */
function declared(nodes: readonly ts.Node[]): Set<string> {
  const names = nodes.flatMap((node) =>
    (ts.isVariableDeclaration(node) ||
      ts.isParameter(node) ||
      ts.isBindingElement(node) ||
      ts.isFunctionDeclaration(node) ||
      ts.isImportSpecifier(node)) &&
    node.name !== undefined &&
    ts.isIdentifier(node.name)
      ? [node.name.text]
      : [],
  );
  return new Set(names);
}

/** Whether an identifier stands for a value of its own, not for a property, a field's name or a type. */
function isReference(node: ts.Identifier): boolean {
  const { parent } = node;
  if (ts.isPropertyAccessExpression(parent) && parent.name === node) return false;
  if (ts.isPropertyAssignment(parent) && parent.name === node) return false;
  return (
    !ts.isPropertySignature(parent) &&
    !ts.isPropertyDeclaration(parent) &&
    !ts.isMethodSignature(parent) &&
    !ts.isMethodDeclaration(parent) &&
    !ts.isTypeReferenceNode(parent)
  );
}

const isPowerOfTwo = ({ left, right }: ts.BinaryExpression): boolean => {
  const exponent =
    ts.isPrefixUnaryExpression(right) && right.operator === ts.SyntaxKind.MinusToken ? right.operand : right;
  return ts.isNumericLiteral(left) && left.text === "2" && ts.isNumericLiteral(exponent);
};

function offences(file: string, text?: string): string[] {
  const source = sourceOf(file, text);
  const nodes = everyNode(source);
  const own = declared(nodes);
  const at = (node: ts.Node, what: string): string =>
    `${file}:${source.getLineAndCharacterOfPosition(node.getStart()).line + 1} ${what}`;
  return nodes.flatMap((node) => {
    if (ts.isBinaryExpression(node)) {
      const operator = node.operatorToken.kind;
      const power =
        operator === ts.SyntaxKind.AsteriskAsteriskToken || operator === ts.SyntaxKind.AsteriskAsteriskEqualsToken;
      if (power && !isPowerOfTwo(node)) return [at(node, node.getText())];
    }
    if (ts.isPropertyAccessExpression(node) && node.expression.getText() === "Math" && LOOSE.test(node.name.text))
      return [at(node, node.getText())];
    // Math passed about, or taken apart, would hide what is used of it.
    if (
      ts.isIdentifier(node) &&
      node.text === "Math" &&
      isReference(node) &&
      !ts.isPropertyAccessExpression(node.parent)
    )
      return [at(node, "Math itself")];
    if (ts.isIdentifier(node) && GLOBALS.has(node.text) && isReference(node) && !own.has(node.text))
      return [at(node, node.text)];
    return [];
  });
}

describe("engine and models are pure, with fixed bits", () => {
  test.each(["engine", "models"])(
    "%s: no loose Math, no ** but powers of two, no clock, process, console or page",
    (folder) => {
      expect(filesOf(folder).flatMap((file) => offences(file))).toEqual([]);
    },
  );

  test("the check finds each of these, and nothing in what is allowed", () => {
    const bad = [
      "x ** 2",
      "y **= 2",
      "2 ** n",
      "3 ** 2",
      "Math.log(x)",
      "Math.hypot(1, 2)",
      "Math.random()",
      "const { sin } = Math",
      "f(Math)",
      "new Date()",
      "process.env",
      "console.log(1)",
      "document.title",
      "performance.now()",
    ];
    for (const code of bad) expect(offences("bad.ts", code), code).toHaveLength(1);
    const good = [
      "2 ** -52",
      "2 ** 26",
      "Math.sqrt(x) + Math.abs(y) * Math.PI",
      "function read(document: unknown) { return document; }",
      "a.process + b.Date",
      "type T = { document: string }",
      "// console.log(Math.log(1)) ** 3",
      "`${x} ** 2`",
    ];
    for (const code of good) expect(offences("good.ts", code), code).toEqual([]);
  });
});
