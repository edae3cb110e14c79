import { existsSync, readdirSync, readFileSync, statSync } from "node:fs";
import { dirname, join, relative, resolve } from "node:path";
import ts from "typescript";

/** The sources as the tests of the layout read them: their files, their imports, the nodes of their trees. */
export const root = resolve(import.meta.dirname, "..");

export interface Import {
  readonly file: string;
  /** Path from the root for files of ours, the bare name for packages. */
  readonly target: string;
  readonly ours: boolean;
  readonly typeOnly: boolean;
  /** Loaded when the code comes to it: `import(…)`. */
  readonly later: boolean;
}

export function filesOf(folder: string): string[] {
  const path = join(root, folder);
  if (!existsSync(path)) return [];
  return readdirSync(path, { recursive: true, encoding: "utf8" })
    .map((name) => join(folder, name))
    .filter(
      (name) =>
        /\.(ts|mts|js|mjs)$/.test(name) &&
        !/(^|\/)(node_modules|dist)\//.test(name) &&
        statSync(join(root, name)).isFile(),
    )
    .toSorted();
}

export const sourceOf = (file: string, text = readFileSync(join(root, file), "utf8")): ts.SourceFile =>
  ts.createSourceFile(file, text, ts.ScriptTarget.Latest, true);

export function everyNode(source: ts.SourceFile): ts.Node[] {
  const nodes: ts.Node[] = [];
  const visit = (node: ts.Node): void => {
    nodes.push(node);
    ts.forEachChild(node, visit);
  };
  visit(source);
  return nodes;
}

export function importsOf(file: string): Import[] {
  const text = readFileSync(join(root, file), "utf8");
  const source = ts.createSourceFile(file, text, ts.ScriptTarget.Latest);
  // Only `import(…)`, of a type or of a module, stands within something else.
  const nodes = /\bimport\s*\(/.test(text) ? everyNode(source) : source.statements;
  return nodes.flatMap((node): Import[] => {
    let specifier: ts.Node | undefined;
    let typeOnly = false;
    if (ts.isImportDeclaration(node)) {
      specifier = node.moduleSpecifier;
      const named = node.importClause?.namedBindings;
      const everyNameIsType =
        named !== undefined && ts.isNamedImports(named) && named.elements.every((element) => element.isTypeOnly);
      typeOnly =
        node.importClause?.phaseModifier === ts.SyntaxKind.TypeKeyword ||
        (everyNameIsType && node.importClause?.name === undefined);
    } else if (ts.isExportDeclaration(node)) {
      specifier = node.moduleSpecifier;
      typeOnly = node.isTypeOnly;
    } else if (ts.isImportTypeNode(node)) {
      specifier = ts.isLiteralTypeNode(node.argument) ? node.argument.literal : undefined;
      typeOnly = true;
    } else if (ts.isCallExpression(node) && node.expression.kind === ts.SyntaxKind.ImportKeyword)
      specifier = node.arguments[0];
    if (specifier === undefined || !ts.isStringLiteralLike(specifier)) return [];
    const ours = specifier.text.startsWith(".");
    const target = ours ? relative(root, resolve(root, dirname(file), specifier.text)) : specifier.text;
    return [{ file, target, ours, typeOnly, later: ts.isCallExpression(node) }];
  });
}
