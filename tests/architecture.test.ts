import { existsSync, readdirSync, readFileSync, statSync } from "node:fs";
import { dirname, join, relative, resolve } from "node:path";
import ts from "typescript";
import { describe, expect, test } from "vitest";
import { VERSION } from "../engine/index.ts";

/** The layout is the architecture: who may import whom, and what engine and models never touch. */
const root = resolve(import.meta.dirname, "..");
const FOLDERS = ["engine", "models", "server", "viewer", "examples", "tests"] as const;
type Folder = (typeof FOLDERS)[number];

interface Import {
  readonly file: string;
  /** Path from the root for files of ours, the bare name for packages. */
  readonly target: string;
  readonly ours: boolean;
  readonly typeOnly: boolean;
}

function filesOf(folder: string): string[] {
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

const sourceOf = (file: string, text = readFileSync(join(root, file), "utf8")): ts.SourceFile =>
  ts.createSourceFile(file, text, ts.ScriptTarget.Latest, true);

function everyNode(source: ts.SourceFile): ts.Node[] {
  const nodes: ts.Node[] = [];
  const visit = (node: ts.Node): void => {
    nodes.push(node);
    ts.forEachChild(node, visit);
  };
  visit(source);
  return nodes;
}

function importsOf(file: string): Import[] {
  return everyNode(sourceOf(file)).flatMap((node): Import[] => {
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
    return [{ file, target, ours, typeOnly }];
  });
}

const imports = new Map<Folder, Import[]>(FOLDERS.map((folder) => [folder, filesOf(folder).flatMap(importsOf)]));

/** Imports of a folder that lead out of it and are not among those allowed. */
function strays(folder: Folder, allowed: (to: Import) => boolean): string[] {
  return imports
    .get(folder)!
    .filter((to) => to.ours && !to.target.startsWith(`${folder}/`) && !allowed(to))
    .map(({ file, target }) => `${file} imports ${target}`);
}

/** The names of distributions, and how a probability is rounded: what a page shows without the code that draws. */
const PLAIN = new Set(["engine/distributions/titles.ts", "engine/record/chance.ts"]);

describe("who may import whom", () => {
  test("the files are found", () => {
    for (const folder of ["engine", "models", "server", "viewer", "tests"] as const)
      expect(imports.get(folder)!.length, folder).toBeGreaterThan(5);
  });

  test("engine imports nothing of ours, and nothing of Node", () => {
    expect(strays("engine", () => false)).toEqual([]);
    const packages = imports
      .get("engine")!
      .filter(({ ours }) => !ours)
      .map(({ target }) => target);
    expect(packages.filter((name) => !/^(zod|seedrandom|@stdlib\/[a-z0-9-]+)$/.test(name))).toEqual([]);
  });

  test("models import only engine/index.ts, and nothing of Node", () => {
    expect(strays("models", ({ target }) => target === "engine/index.ts")).toEqual([]);
    expect(imports.get("models")!.filter(({ target, ours }) => !ours && target.startsWith("node:"))).toEqual([]);
  });

  test("server stands on engine, models and what the viewer writes for reports and terminals, never on the page", () => {
    const below = ({ target }: Import): boolean =>
      target === "engine/index.ts" ||
      // The schemas of a record, which only a command that opens one loads.
      target === "engine/record/index.ts" ||
      target === "models/index.ts" ||
      /^viewer\/(present|report|terminal|api)\//.test(target);
    expect(strays("server", below)).toEqual([]);
  });

  test.each([
    { room: "viewer/api/", may: ["viewer/api/"] },
    { room: "viewer/present/", may: ["viewer/present/"] },
    { room: "viewer/report/", may: ["viewer/report/", "viewer/present/"] },
    { room: "viewer/terminal/", may: ["viewer/terminal/", "viewer/present/"] },
    { room: "viewer/page/", may: ["viewer/page/", "viewer/present/", "viewer/api/"] },
  ])("$room imports nothing of the other renderers and nothing of the server", ({ room, may }) => {
    const found = imports.get("viewer")!.filter(({ file, ours }) => ours && file.startsWith(room));
    expect(found.length).toBeGreaterThan(0);
    const below = new Set(["engine/index.ts", "models/index.ts", ...PLAIN]);
    expect(
      found
        .filter(({ target }) => !may.some((folder) => target.startsWith(folder)) && !below.has(target))
        .map(({ file, target }) => `${file} imports ${target}`),
    ).toEqual([]);
  });

  test("the page takes only types, the names of distributions and the rounding of a probability from the engine; the worker of previews alone runs it", () => {
    const previews = "viewer/page/what-if/worker.ts";
    const found = imports
      .get("viewer")!
      .filter(({ file, target }) => /^viewer\/(page|present)\//.test(file) && /^(engine|models)\//.test(target));
    expect(
      found
        .filter(
          ({ file, target, typeOnly }) =>
            file !== previews &&
            !PLAIN.has(target) &&
            !(
              typeOnly &&
              (target === "engine/index.ts" || (target === "models/index.ts" && file.startsWith("viewer/present/")))
            ),
        )
        .map(({ file, target }) => `${file} imports ${target}`),
    ).toEqual([]);
  });

  test("viewer/api takes only types from the floors below, and the page only types from viewer/api", () => {
    const found = imports
      .get("viewer")!
      .filter(
        ({ file, target }) =>
          (file.startsWith("viewer/api/") && /^(engine|models)\//.test(target)) ||
          (file.startsWith("viewer/page/") && target.startsWith("viewer/api/")),
      );
    expect(found.length).toBeGreaterThan(0);
    expect(found.filter(({ typeOnly }) => !typeOnly).map(({ file, target }) => `${file} imports ${target}`)).toEqual(
      [],
    );
  });

  test("examples import only the public surface", () => {
    expect(strays("examples", ({ target }) => target === "engine/index.ts" || target === "models/index.ts")).toEqual(
      [],
    );
    const packages = imports
      .get("examples")!
      .filter(({ ours }) => !ours)
      .map(({ target }) => target);
    expect(packages.filter((name) => !/^(trialband(\/models)?|zod|node:[a-z/]+)$/.test(name))).toEqual([]);
  });

  test("nothing imports tests", () => {
    for (const folder of FOLDERS) {
      if (folder === "tests") continue;
      expect(imports.get(folder)!.filter(({ target, ours }) => ours && target.startsWith("tests/"))).toEqual([]);
    }
  });

  test("every import of ours leads to a file", () => {
    const all = [...imports.values()]
      .flat()
      .filter(({ ours, target }) => ours && /\.(ts|mts|js|mjs|json)$/.test(target));
    expect(
      all
        .filter(({ target }) => !existsSync(join(root, target)))
        .map(({ file, target }) => `${file} imports ${target}`),
    ).toEqual([]);
  });
});

/**
 * What each room may import besides itself, one line a room. In lines of the engine, names are within the engine. A name that
 * ends in .ts is that file alone. What is not here is not allowed, and what is no longer needed goes.
 */
const ROOMS: Readonly<Record<string, string>> = {
  "engine/conformity": "distributions errors.ts linear model.ts numerics record statistics study tolerance.ts",
  "engine/convolution": "dependence distributions elementary numerics record",
  "engine/coverage": "elementary numerics statistics study",
  "engine/dependence": "distributions elementary errors.ts numerics random study",
  "engine/distributions": "elementary errors.ts immutable.ts model.ts numerics random units",
  "engine/elementary": "",
  "engine/explanation":
    "convolution coverage dependence distributions elementary linear numerics random record run statistics trials validation",
  "engine/implicit": "errors.ts model.ts numerics",
  "engine/joint": "coverage errors.ts linear model.ts numerics random record run statistics trials validation",
  "engine/linear": "coverage dependence distributions errors.ts model.ts numerics record trials",
  "engine/low-discrepancy": "coverage distributions errors.ts model.ts numerics random run study trials version.ts",
  "engine/numerics": "elementary",
  "engine/paired": "distributions elementary numerics random record statistics",
  "engine/random": "elementary numerics",
  "engine/record": "distributions immutable.ts model.ts quantity.ts study",
  "engine/run":
    "conformity convolution coverage dependence distributions elementary errors.ts explanation joint linear model.ts numerics paired random record sensitivity sentences statistics study trials validation version.ts",
  "engine/sensitivity": "distributions errors.ts numerics random record run statistics study trials",
  "engine/sentences":
    "conformity convolution dependence distributions errors.ts explanation paired record run sensitivity tolerance.ts validation",
  "engine/statistics": "elementary numerics record",
  "engine/study": "distributions errors.ts immutable.ts model.ts random schema-problems.ts tolerance.ts",
  "engine/trials": "coverage dependence errors.ts joint model.ts numerics paired random record statistics validation",
  "engine/units": "",
  "engine/validation": "coverage linear numerics record",
  "models/bath": "engine/index.ts models/platinum models/safety",
  "models/equation": "engine/index.ts models/platinum",
  "models/evaluation": "engine/index.ts models/platinum models/safety",
  "models/general": "engine/index.ts",
  "models/platinum": "engine/index.ts models/safety",
  "models/published": "engine/index.ts",
  "models/safety": "engine/index.ts",
  "viewer/api": "engine/index.ts models/index.ts",
  "viewer/page": "engine/distributions engine/index.ts models/index.ts viewer/api viewer/present",
  "viewer/present": "engine/distributions engine/index.ts models/index.ts engine/record",
  "viewer/report": "engine/index.ts viewer/present",
  "viewer/terminal": "engine/index.ts models/index.ts viewer/present",
  "server/cli":
    "engine/index.ts models/index.ts server/errors.ts server/http server/intake server/output-file.ts server/record server/runs server/selfcheck server/serve.ts server/shelves server/store viewer/api viewer/present viewer/report viewer/terminal",
  "server/http": "server/errors.ts viewer/api",
  "server/intake": "engine/index.ts models/index.ts server/errors.ts viewer/present",
  "server/record":
    "engine/index.ts engine/record server/canonical.ts server/errors.ts server/intake server/runs server/shelves",
  "server/routes":
    "engine/index.ts models/index.ts server/errors.ts server/intake server/package-root.ts server/record server/runs server/selfcheck server/shelves viewer/api",
  "server/runs":
    "engine/index.ts server/errors.ts server/package-root.ts server/record server/shelves server/store viewer/api",
  "server/selfcheck":
    "engine/index.ts models/index.ts server/errors.ts server/intake server/package-root.ts server/record server/runs server/shelves viewer/api viewer/present viewer/report",
  "server/shelves":
    "engine/index.ts models/index.ts server/errors.ts server/intake server/output-file.ts server/package-root.ts viewer/api",
  "server/store": "engine/index.ts server/canonical.ts server/errors.ts viewer/api",
};

const roomOf = (path: string): string => {
  const parts = path.split("/");
  return parts.length > 2 ? parts.slice(0, 2).join("/") : path;
};

/** Imports from one room into another, as `room imports room`, with a file for each. */
const fromRoomToRoom = (): Map<string, string> =>
  new Map(
    (["engine", "models", "viewer", "server"] as const)
      .flatMap((folder) => imports.get(folder)!)
      .filter(({ file, target, ours }) => ours && target.endsWith(".ts") && roomOf(file) !== roomOf(target))
      .filter(({ file }) => file.split("/").length > 2)
      .map(({ file, target }) => [`${roomOf(file)} imports ${roomOf(target)}`, file] as const),
  );

describe("rooms", () => {
  const allowed = new Set(
    Object.entries(ROOMS).flatMap(([room, names]) =>
      names
        .split(" ")
        .filter((name) => name !== "")
        .map((name) => `${room} imports ${room.startsWith("engine/") ? "engine/" : ""}${name}`),
    ),
  );

  test("every room has a line", () => {
    const found = (["engine", "models", "viewer", "server"] as const).flatMap((folder) =>
      filesOf(folder)
        .filter((file) => file.split("/").length > 2 && file.endsWith(".ts"))
        .map(roomOf),
    );
    expect([...new Set(found)].toSorted()).toEqual(Object.keys(ROOMS).toSorted());
  });

  test("a room imports only what its line allows", () => {
    const strangers = [...fromRoomToRoom()].filter(([pair]) => !allowed.has(pair));
    expect(strangers.map(([pair, file]) => `${pair} (${file})`)).toEqual([]);
  });

  test("no line allows what nobody needs", () => {
    const needed = fromRoomToRoom();
    expect([...allowed].filter((pair) => !needed.has(pair))).toEqual([]);
  });
});

/** The circles among files, each as its files in the order of their imports; imports of types count too. */
function circles(of: ReadonlyMap<string, readonly string[]>): string[] {
  const found: string[] = [];
  const done = new Set<string>();
  const walk = (file: string, path: readonly string[]): void => {
    const before = path.indexOf(file);
    if (before >= 0) {
      found.push([...path.slice(before), file].join(" → "));
      return;
    }
    if (done.has(file)) return;
    for (const next of of.get(file) ?? []) walk(next, [...path, file]);
    done.add(file);
  };
  for (const file of of.keys()) walk(file, []);
  return found;
}

describe("no circle of files", () => {
  test.each(["engine", "models", "viewer", "server"] as const)("%s", (folder) => {
    const graph = new Map(filesOf(folder).map((file) => [file, [] as string[]]));
    for (const { file, target, ours } of imports.get(folder)!)
      if (ours && target !== file) graph.get(file)!.push(target);
    expect(circles(graph)).toEqual([]);
  });

  test("a circle is found", () => {
    const graph = new Map([
      ["a", ["b"]],
      ["b", ["c"]],
      ["c", ["b"]],
    ]);
    expect(circles(graph)).toEqual(["b → c → b"]);
  });
});

/**
 * Rooms that still import each other in a circle, though none of their files do. In the engine, rooms that `run` calls
 * take the type of what `prepare` returns. A record is sealed by the run that makes it, and verified by another run.
 */
const IN_A_CIRCLE: readonly string[] = [
  "engine/conformity",
  "engine/explanation",
  "engine/joint",
  "engine/linear",
  "engine/run",
  "engine/sensitivity",
  "engine/sentences",
  "engine/trials",
  "engine/validation",
  "server/record",
  "server/runs",
];

/** The nodes that a walk along the edges leads back to. */
function onCircles(graph: ReadonlyMap<string, ReadonlySet<string>>): string[] {
  const reached = (from: string): Set<string> => {
    const seen = new Set<string>();
    const open = [...(graph.get(from) ?? [])];
    for (let next = open.pop(); next !== undefined; next = open.pop()) {
      if (seen.has(next)) continue;
      seen.add(next);
      open.push(...(graph.get(next) ?? []));
    }
    return seen;
  };
  return [...graph.keys()].filter((node) => reached(node).has(node)).toSorted();
}

describe("no circle of rooms", () => {
  test("rooms, and files beside them, import each other in one direction", () => {
    const graph = new Map<string, Set<string>>();
    for (const folder of ["engine", "models", "viewer", "server"] as const)
      for (const { file, target, ours } of imports.get(folder)!) {
        const [from, to] = [roomOf(file), roomOf(target)];
        if (!ours || !target.endsWith(".ts") || from === to) continue;
        graph.set(from, (graph.get(from) ?? new Set()).add(to));
      }
    expect(onCircles(graph)).toEqual(IN_A_CIRCLE);
  });

  test("a circle is found, and what only leads to it is not on it", () => {
    const graph = new Map([
      ["a", new Set(["b"])],
      ["b", new Set(["c"])],
      ["c", new Set(["b", "d"])],
    ]);
    expect(onCircles(graph)).toEqual(["b", "c"]);
  });
});

/** Folders of tests that have no room of their own in the source, each with the reason. */
const APART: Readonly<Record<string, string>> = {
  "tests/bench": "the benchmark, which measures the whole",
  "tests/browser": "the same bits in every browser",
  "tests/campaign": "what a server survives: kills, floods, forgeries",
  "tests/contracts": "one suite that every distribution runs",
  "tests/types": "what must not compile",
};

describe("tests mirror the tree", () => {
  const folders = new Set(
    filesOf("tests")
      .filter((file) => file.endsWith(".test.ts"))
      .map(dirname)
      .filter((folder) => folder !== "tests"),
  );

  test("a test lies in the folder of what it tests", () => {
    const strangers = [...folders].filter(
      (folder) => !Object.hasOwn(APART, folder) && !existsSync(join(root, folder.slice("tests/".length))),
    );
    expect(strangers).toEqual([]);
  });

  test("every folder apart is there", () => {
    expect(Object.keys(APART).filter((folder) => !existsSync(join(root, folder)))).toEqual([]);
  });
});

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

test("the engine's version is the package's", () => {
  expect(VERSION).toBe((JSON.parse(readFileSync(join(root, "package.json"), "utf8")) as { version: string }).version);
});
