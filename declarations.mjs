// Writes the declarations of the package's doors to dist/types. They stand on nothing: a type that comes from a schema is
// written out as it is, with what the schema says of each field, so that a program that uses the library needs neither our
// sources nor the library of the schemas, and its editor shows the meaning of every field of a record.
import { mkdir, rm, writeFile } from "node:fs/promises";
import { dirname, relative, resolve } from "node:path";
import ts from "typescript";

const DOORS = [
  "engine/index.ts",
  "engine/internal.ts",
  "library/models.ts",
  "library/evaluation.ts",
  "library/node/index.ts",
  "library/workers/index.ts",
];
const OUT = "dist/types";

const { options } = ts.getParsedCommandLineOfConfigFile(
  "tsconfig.json",
  { noEmit: false, declaration: true, emitDeclarationOnly: true, rootDir: ".", outDir: OUT },
  { ...ts.sys, onUnRecoverableConfigFileDiagnostic: (problem) => fail([problem]) },
);
const program = ts.createProgram(DOORS, options);
const checker = program.getTypeChecker();
const ours = (file) => !file.fileName.includes("node_modules") && !file.isDeclarationFile;
const pathOf = (file) => relative(process.cwd(), resolve(file.fileName));

/** A type's text with every object in it left empty, from the innermost out: what stands between two objects stays. */
function withoutBraces(text) {
  const emptied = text.replace(/\{[^{}]*\}/g, "");
  return emptied === text ? text : withoutBraces(emptied);
}

function fail(problems) {
  const host = { getCanonicalFileName: (name) => name, getCurrentDirectory: process.cwd, getNewLine: () => "\n" };
  process.stderr.write(ts.formatDiagnostics(problems, host));
  process.exit(1);
}

// ---- Types that come from schemas, by file and name.

/** Every alias of ours whose type comes from a schema. */
const fromSchemas = program
  .getSourceFiles()
  .filter(ours)
  .flatMap((file) =>
    file.statements
      .filter((node) => ts.isTypeAliasDeclaration(node) && /\bz\.(output|input)</.test(node.type.getText()))
      .filter((node) => node.typeParameters === undefined)
      .map((node) => ({
        file: pathOf(file),
        name: node.name.text,
        exported: node.modifiers?.some(({ kind }) => kind === ts.SyntaxKind.ExportKeyword) ?? false,
        type: checker.getDeclaredTypeOfSymbol(checker.getSymbolAtLocation(node.name)),
      })),
  );

const PLAIN =
  ts.TypeFlags.Any |
  ts.TypeFlags.Unknown |
  ts.TypeFlags.StringLike |
  ts.TypeFlags.NumberLike |
  ts.TypeFlags.BooleanLike |
  ts.TypeFlags.BigIntLike |
  ts.TypeFlags.Null |
  ts.TypeFlags.Undefined |
  ts.TypeFlags.Void |
  ts.TypeFlags.Never;

/** What a schema says of a field: the comment above it, or its `.describe(…)`. */
function meaningOf(symbol) {
  const comment = ts.displayPartsToString(symbol.getDocumentationComment(checker));
  if (comment !== "") return comment;
  for (const declaration of symbol.declarations ?? []) {
    const described = /\.describe\(\s*((?:"(?:[^"\\]|\\.)*"\s*\+?\s*)+),?\s*\)$/.exec(declaration.getText());
    if (described === null) continue;
    return [...described[1].matchAll(/"((?:[^"\\]|\\.)*)"/g)].map(([quoted]) => JSON.parse(quoted)).join("");
  }
  return "";
}

/** Texts of a type: in full, and with names for the parts that have one. */
const joined = (strings, ...parts) => {
  const put = (which) =>
    strings.map((text, i) => text + (i < parts.length ? (parts[i][which] ?? parts[i]) : "")).join("");
  return { full: put("full"), short: put("short") };
};
const listed = (parts, between) => ({
  full: parts.map(({ full }) => full).join(between),
  short: parts.map(({ short }) => short).join(between),
});

/** Writes a type out. @param nameOf a name for the full text of a part, or `undefined` */
function writeOut(root, nameOf) {
  const open = [];
  const write = (type, depth) => {
    if (type.flags & PLAIN) {
      const text = checker.typeToString(type, undefined, ts.TypeFormatFlags.NoTruncation);
      return { full: text, short: text };
    }
    // Any JSON: a type that refers to itself, of which nothing is promised.
    if (type.aliasSymbol?.name === "JSONType" || open.includes(type)) return { full: "unknown", short: "unknown" };
    open.push(type);
    const found = named(written(type, depth));
    open.pop();
    return found;
  };
  const named = ({ full, short }) => ({ full, short: nameOf(full) ?? short });
  const group = (type, depth) => {
    const text = write(type, depth);
    const needs = (one) => / [|&] /.test(withoutBraces(one)) || one.startsWith("readonly ");
    return {
      full: needs(text.full) ? `(${text.full})` : text.full,
      short: needs(text.short) ? `(${text.short})` : text.short,
    };
  };
  const written = (type, depth) => {
    if (type.isUnion()) return unionOf(type.types, depth);
    if (type.isIntersection())
      return listed(
        type.types.map((part) => group(part, depth)),
        " & ",
      );
    if (checker.isTupleType(type)) {
      const parts = checker.getTypeArguments(type).map((part, i) => {
        const rest = type.target.elementFlags[i] & ts.ElementFlags.Variable;
        return rest ? joined`...${group(part, depth)}[]` : write(part, depth);
      });
      return joined`readonly [${listed(parts, ", ")}]`;
    }
    if (checker.isArrayType(type)) return joined`readonly ${group(checker.getTypeArguments(type)[0], depth)}[]`;
    if (checker.getSignaturesOfType(type, ts.SignatureKind.Call).length > 0)
      throw new Error(`a function comes from a schema: ${checker.typeToString(type)}`);
    const pad = "  ".repeat(depth + 1);
    const lines = [
      ...checker
        .getIndexInfosOfType(type)
        .map((info) => joined`${pad}readonly [name: ${write(info.keyType, depth)}]: ${write(info.type, depth + 1)};`),
      ...checker.getPropertiesOfType(type).map((symbol) => {
        const optional = (symbol.flags & ts.SymbolFlags.Optional) !== 0;
        const name = /^[A-Za-z_$][\w$]*$/.test(symbol.name) ? symbol.name : JSON.stringify(symbol.name);
        const meaning = meaningOf(symbol).replaceAll("*/", "*\\/").replaceAll("\n", " ");
        const comment = meaning === "" ? "" : `${pad}/** ${meaning} */\n`;
        const value = fieldType(checker.getTypeOfSymbol(symbol), optional, depth + 1);
        return joined`${comment}${pad}readonly ${name}${optional ? "?" : ""}: ${value};`;
      }),
    ];
    return lines.length === 0 ? joined`{}` : joined`{\n${listed(lines, "\n")}\n${"  ".repeat(depth)}}`;
  };
  const unionOf = (types, depth) => {
    const both = types.filter((type) => type.flags & ts.TypeFlags.BooleanLiteral).length === 2;
    const parts = types
      .filter((type) => !(both && type.flags & ts.TypeFlags.BooleanLiteral))
      .map((type) => group(type, depth));
    if (both) parts.push(joined`boolean`);
    const last = ({ full }) => full === "null" || full === "undefined";
    const first = parts.filter((part) => !last(part));
    const known = listed(first, " | ");
    // A name for all that is no null or undefined.
    const main = first.length > 1 ? named(known) : known;
    return listed([main, ...parts.filter(last)], " | ");
  };
  /** With exact optional fields, the mark of a missing field is no `undefined`. */
  const fieldType = (type, optional, depth) => {
    if (!optional || !type.isUnion()) return write(type, depth);
    const kept = type.types.filter(
      (part) => !(part.flags & ts.TypeFlags.Undefined) || part === checker.getUndefinedType(),
    );
    return kept.length === 1 ? write(kept[0], depth) : unionOf(kept, depth);
  };
  return write(root, 0);
}

/** The text of a type at no depth, by which equal types are found. */
const flat = (text) => text.replace(/\n\s*/g, " ");
const names = new Map();
for (const alias of fromSchemas) {
  const { full } = writeOut(alias.type, () => undefined);
  if (alias.exported && full.length > 40 && !names.has(flat(full))) names.set(flat(full), alias);
}

/** From one file to another, as a declaration names it. */
function specifier(from, to) {
  const path = relative(dirname(from), to).replace(/\.ts$/, ".js");
  return path.startsWith(".") ? path : `./${path}`;
}

function writtenOut(alias) {
  const used = new Map();
  const { short } = writeOut(alias.type, (full) => {
    const found = names.get(flat(full));
    if (found === undefined || found === alias) return undefined;
    if (found.file !== alias.file) used.set(found.name, found.file);
    return found.name;
  });
  return { text: short, used };
}

/** Where the brace that opens at `from` closes; comments may hold braces, and quoted keys too. */
function closing(text, from) {
  let depth = 0;
  for (let at = from; at < text.length; at++) {
    if (text.startsWith("/**", at)) at = text.indexOf("*/", at) + 1;
    else if (text[at] === '"') at = text.indexOf('"', at + 1);
    else if (text[at] === "{") depth++;
    else if (text[at] === "}" && --depth === 0) return at + 1;
  }
  throw new Error("a brace is not closed");
}

// ---- The declarations, with these types in place, and what nobody needs left out.

const emitted = new Map();
const { diagnostics } = program.emit(
  undefined,
  (name, text) => emitted.set(relative(OUT, name), text),
  undefined,
  true,
);
const problems = [...ts.getPreEmitDiagnostics(program), ...diagnostics];
if (problems.length > 0) fail(problems);

for (const [path, text] of emitted) emitted.set(path, withoutSchemas(path, text));

function withoutSchemas(path, text) {
  const source = ts.createSourceFile(path, text, ts.ScriptTarget.Latest, true);
  const edits = [];
  const imports = new Map();
  const file = path.replace(/\.d\.ts$/, ".ts");
  for (const node of source.statements) {
    if (ts.isImportDeclaration(node) && node.moduleSpecifier.text === "zod")
      edits.push([node.getFullStart(), node.end, ""]);
    const alias =
      ts.isTypeAliasDeclaration(node) && fromSchemas.find((one) => one.file === file && one.name === node.name.text);
    if (alias) {
      const { text: type, used } = writtenOut(alias);
      for (const [name, from] of used) imports.set(name, from);
      const head = alias.exported ? "export " : "";
      edits.push([
        node.getStart(),
        node.end,
        type.startsWith("{") && closing(type, 0) === type.length
          ? `${head}interface ${alias.name} ${type}`
          : `${head}type ${alias.name} = ${type};`,
      ]);
      continue;
    }
    const visit = (part) => {
      const named = ts.isTypeReferenceNode(part) ? part.typeName : ts.isImportTypeNode(part) ? part : null;
      if (named !== null && /^(z\.|import\("zod)/.test(named.getText()))
        edits.push([part.getStart(), part.end, "unknown"]);
      else ts.forEachChild(part, visit);
    };
    visit(node);
  }
  let result = text;
  for (const [from, to, put] of edits.toSorted(([a], [b]) => b - a))
    result = result.slice(0, from) + put + result.slice(to);
  const already = new Set(
    source.statements
      .filter((node) => ts.isImportDeclaration(node))
      .flatMap(({ importClause }) => importClause?.namedBindings?.elements ?? [])
      .map(({ name }) => name.text),
  );
  const lines = [...imports]
    .filter(([name]) => !already.has(name))
    .map(([name, from]) => `import type { ${name} } from "${specifier(file, from)}";\n`);
  return lines.join("") + result;
}

/** Statements that are neither exported nor used by another one go, again and again, and names that nobody imports. */
function pruned(path, text, wanted) {
  for (;;) {
    const source = ts.createSourceFile(path, text, ts.ScriptTarget.Latest, true);
    const counts = new Map();
    const count = (node) => {
      if (ts.isIdentifier(node)) counts.set(node.text, (counts.get(node.text) ?? 0) + 1);
      ts.forEachChild(node, count);
    };
    count(source);
    const edits = [];
    for (const node of source.statements) {
      const declared = declaredBy(node);
      const exported = node.modifiers?.some(({ kind }) => kind === ts.SyntaxKind.ExportKeyword) ?? false;
      if (ts.isImportDeclaration(node)) {
        const elements = node.importClause?.namedBindings?.elements;
        if (elements === undefined) continue;
        const kept = elements.filter(({ name }) => counts.get(name.text) > 1);
        if (kept.length === elements.length) continue;
        const type = node.importClause.getText().startsWith("type ") ? "type " : "";
        const line = `import ${type}{ ${kept.map((one) => one.getText()).join(", ")} } from ${node.moduleSpecifier.getText()};`;
        edits.push([node.getFullStart(), node.end, kept.length === 0 ? "" : `\n${line}`]);
      } else if (declared.length > 0 && declared.every((name) => counts.get(name) === 1 && !(exported && wanted(name))))
        edits.push([node.getFullStart(), node.end, ""]);
    }
    if (edits.length === 0) return text;
    for (const [from, to, put] of edits.toReversed()) text = text.slice(0, from) + put + text.slice(to);
  }
}

function declaredBy(node) {
  if (ts.isVariableStatement(node)) return node.declarationList.declarations.map(({ name }) => name.text);
  return (ts.isTypeAliasDeclaration(node) ||
    ts.isInterfaceDeclaration(node) ||
    ts.isFunctionDeclaration(node) ||
    ts.isClassDeclaration(node)) &&
    node.name !== undefined
    ? [node.name.text]
    : [];
}

/** Imports and re-exports of a file: from where, and which names, or all. */
function uses(path, text) {
  const source = ts.createSourceFile(path, text, ts.ScriptTarget.Latest, true);
  const found = [];
  const visit = (node) => {
    if ((ts.isImportDeclaration(node) || ts.isExportDeclaration(node)) && node.moduleSpecifier !== undefined) {
      const elements = (node.importClause?.namedBindings ?? node.exportClause)?.elements;
      const all = elements === undefined;
      found.push([node.moduleSpecifier.text, all ? null : elements.map((one) => (one.propertyName ?? one.name).text)]);
    } else if (ts.isImportTypeNode(node)) found.push([node.argument.literal.text, null]);
    ts.forEachChild(node, visit);
  };
  visit(source);
  return found
    .filter(([from]) => from.startsWith("."))
    .map(([from, of]) => [relative(".", resolve(dirname(path), from)).replace(/\.(ts|js)$/, ".d.ts"), of]);
}

const declarationOf = (door) => door.replace(/\.ts$/, ".d.ts");
for (let before = -1, size = 0; size !== before;) {
  before = size;
  /** By file, the names that others import; `*` for all but the schemas, which nobody imports by a star. */
  const wanted = new Map(DOORS.map((door) => [declarationOf(door), new Set(["*"])]));
  for (const [path, text] of emitted)
    for (const [from, of] of uses(path, text))
      wanted.set(from, new Set([...(wanted.get(from) ?? []), ...(of ?? ["*"])]));
  for (const [path, text] of emitted) {
    const of = wanted.get(path);
    if (of === undefined) emitted.delete(path);
    else
      emitted.set(
        path,
        pruned(path, text, (name) => of.has(name) || (of.has("*") && !name.endsWith("Schema"))),
      );
  }
  size = [...emitted.values()].reduce((sum, text) => sum + text.length, 0);
}

await rm(OUT, { recursive: true, force: true });
for (const [path, text] of emitted) {
  const js = text
    .replace(/((?:from|import)\s*\(?\s*")(\.[^"]*)\.ts"/g, '$1$2.js"')
    .replace(/^\/\/# sourceMappingURL.*$/m, "");
  await mkdir(dirname(`${OUT}/${path}`), { recursive: true });
  await writeFile(`${OUT}/${path}`, js.trimStart());
}

// What was written is checked as a program would: strictly, with nothing skipped.
const check = ts.createProgram(
  DOORS.map((door) => `${OUT}/${declarationOf(door)}`),
  {
    ...options,
    paths: {},
    noEmit: true,
    declaration: false,
    emitDeclarationOnly: false,
    skipLibCheck: false,
    types: ["node"],
  },
);
const wrong = ts.getPreEmitDiagnostics(check);
if (wrong.length > 0) fail(wrong);
const leaks = [...emitted]
  .filter(([, text]) => /\bz\.|"zod"/.test(text.replace(/\/\*[\s\S]*?\*\//g, "")))
  .map(([path]) => path);
if (leaks.length > 0) throw new Error(`declarations still name the library of the schemas: ${leaks.join(", ")}`);
