import { existsSync, readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { describe, expect, test } from "vitest";
import { VERSION } from "../engine/index.ts";
import { filesOf, importsOf, root, type Import } from "./sources.ts";

/** The layout is the architecture: who may import whom. */
const FOLDERS = ["engine", "models", "library", "server", "viewer", "examples", "tests"] as const;
type Folder = (typeof FOLDERS)[number];

/** The engine as the floors above see it: what the package offers, and what only the rest of Trialband needs. */
const ENGINE = new Set(["engine/index.ts", "engine/internal.ts"]);

const imports = new Map<Folder, Import[]>(FOLDERS.map((folder) => [folder, filesOf(folder).flatMap(importsOf)]));

/** Imports of a folder that lead out of it and are not among those allowed. */
function strays(folder: Folder, allowed: (to: Import) => boolean): string[] {
  return imports
    .get(folder)!
    .filter((to) => to.ours && !to.target.startsWith(`${folder}/`) && !allowed(to))
    .map(({ file, target }) => `${file} imports ${target}`);
}

/**
 * What a page needs without the code that draws: the names of distributions, how a probability is rounded, and how people
 * write numbers, units and the names of quantities.
 */
const PLAIN = new Set([
  "engine/distributions/titles.ts",
  "engine/record/chance.ts",
  "models/evaluation/text/decimal.ts",
  "models/evaluation/text/quantity-name.ts",
  "models/evaluation/text/unit-name.ts",
]);

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

  test("models import only the engine's index, and nothing of Node", () => {
    expect(strays("models", ({ target }) => ENGINE.has(target))).toEqual([]);
    expect(imports.get("models")!.filter(({ target, ours }) => !ours && target.startsWith("node:"))).toEqual([]);
  });

  test("the library's doors stand on engine and models, and only its threads on Node", () => {
    expect(strays("library", ({ target }) => ENGINE.has(target) || target === "models/index.ts")).toEqual([]);
    const ofNode = imports.get("library")!.filter(({ target, ours }) => !ours && target.startsWith("node:"));
    expect(ofNode.length).toBeGreaterThan(0);
    expect(ofNode.filter(({ file }) => !file.startsWith("library/node/"))).toEqual([]);
    const packages = imports.get("library")!.filter(({ target, ours }) => !ours && !target.startsWith("node:"));
    expect(packages).toEqual([]);
  });

  test("server stands on engine, models and what the viewer writes for reports and terminals, never on the page", () => {
    const below = ({ target }: Import): boolean =>
      ENGINE.has(target) ||
      // The schemas of a record, which only a command that opens one loads.
      target === "engine/record/index.ts" ||
      // The version, which the command line prints without the rest of the engine.
      target === "engine/version.ts" ||
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
    const below = new Set([...ENGINE, "models/index.ts", ...PLAIN]);
    if (room === "viewer/api/") below.add("engine/record/index.ts");
    expect(
      found
        .filter(({ target }) => !may.some((folder) => target.startsWith(folder)) && !below.has(target))
        .map(({ file, target }) => `${file} imports ${target}`),
    ).toEqual([]);
  });

  test("the page takes only types, the names of distributions, the rounding of a probability and the reading of typed text from below; the worker of previews alone runs it, and the German of the page alone has it speak", () => {
    const previews = "viewer/page/what-if/worker.ts";
    // Sentences of a record in German are made from its figures, where the engine has their words.
    const german = "viewer/page/german.ts";
    const found = imports
      .get("viewer")!
      .filter(({ file, target }) => /^viewer\/(page|present)\//.test(file) && /^(engine|models)\//.test(target));
    expect(
      found
        .filter(
          ({ file, target, typeOnly }) =>
            file !== previews &&
            file !== german &&
            !PLAIN.has(target) &&
            !(typeOnly && (ENGINE.has(target) || (target === "models/index.ts" && file.startsWith("viewer/present/")))),
        )
        .map(({ file, target }) => `${file} imports ${target}`),
    ).toEqual([]);
  });

  test("the page takes only types from viewer/api, whose schemas it never loads", () => {
    const found = imports
      .get("viewer")!
      .filter(({ file, target }) => file.startsWith("viewer/page/") && target.startsWith("viewer/api/"));
    expect(found.length).toBeGreaterThan(0);
    expect(found.filter(({ typeOnly }) => !typeOnly).map(({ file, target }) => `${file} imports ${target}`)).toEqual(
      [],
    );
  });

  test("viewer/api takes types and the schemas of studies and records from the floors below", () => {
    const found = imports
      .get("viewer")!
      .filter(
        ({ file, target, typeOnly }) =>
          file.startsWith("viewer/api/") && /^(engine|models)\//.test(target) && !typeOnly,
      );
    expect([...new Set(found.map(({ target }) => target))].filter((target) => !ENGINE.has(target))).toEqual([
      "engine/record/index.ts",
    ]);
  });

  test("what prints the version loads nothing but the version and the list of commands", () => {
    const loaded = new Set<string>();
    const open = ["server/cli/main.ts"];
    for (let file = open.pop(); file !== undefined; file = open.pop()) {
      if (loaded.has(file)) continue;
      loaded.add(file);
      const found = importsOf(file).filter(({ ours, typeOnly, later }) => ours && !typeOnly && !later);
      open.push(...found.map(({ target }) => target));
    }
    expect([...loaded].toSorted()).toEqual([
      "engine/version.ts",
      "server/cli/command-line.ts",
      "server/cli/index.ts",
      "server/cli/main.ts",
    ]);
  });

  test("examples import only the public surface", () => {
    expect(strays("examples", () => false)).toEqual([]);
    const packages = imports
      .get("examples")!
      .filter(({ ours }) => !ours)
      .map(({ target }) => target);
    expect(
      packages.filter((name) => !/^(trialband(\/(models|evaluation|node|workers))?|node:[a-z/]+)$/.test(name)),
    ).toEqual([]);
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
  "engine/curve": "coverage errors.ts evaluator linear model.ts native prepared random record statistics trials",
  "engine/dependence": "distributions elementary errors.ts numerics random study",
  "engine/distributions": "elementary errors.ts immutable.ts model.ts numerics random units",
  "engine/elementary": "",
  "engine/evaluator": "closest-name.ts errors.ts model.ts native random",
  "engine/explanation":
    "convolution coverage dependence distributions elementary evaluator linear numerics prepared random record statistics trials validation",
  "engine/implicit": "errors.ts model.ts numerics",
  "engine/joint": "coverage numerics record statistics tolerance.ts validation",
  "engine/linear": "coverage dependence distributions errors.ts evaluator model.ts numerics record",
  "engine/low-discrepancy":
    "coverage distributions errors.ts evaluator model.ts numerics prepared random study trials version.ts",
  "engine/native": "model.ts random",
  "engine/numerics": "elementary",
  "engine/paired": "distributions elementary numerics random record statistics",
  "engine/prepared":
    "closest-name.ts convolution coverage dependence distributions errors.ts linear model.ts paired random record study trials validation",
  "engine/random": "elementary numerics",
  "engine/record": "distributions immutable.ts model.ts quantity.ts study",
  "engine/remarks": "dependence numerics record statistics trials",
  "engine/run":
    "conformity convolution coverage curve distributions elementary errors.ts evaluator explanation joint linear model.ts numerics paired prepared record sensitivity sentences statistics study trials validation version.ts",
  "engine/sensitivity": "distributions errors.ts evaluator numerics prepared random record statistics study trials",
  "engine/sentences":
    "conformity convolution dependence distributions errors.ts explanation paired record remarks sensitivity tolerance.ts validation",
  "engine/statistics": "elementary numerics record",
  "engine/study": "distributions errors.ts immutable.ts model.ts random schema-problems.ts tolerance.ts",
  "engine/trials": "coverage dependence errors.ts evaluator joint model.ts paired random record statistics validation",
  "engine/units": "",
  "engine/validation": "coverage linear numerics record",
  "library/node": "engine/index.ts library/workers",
  "library/workers": "engine/index.ts",
  "models/bath": "engine/index.ts models/platinum models/safety",
  "models/calibration": "engine/index.ts models/bath models/evaluation models/platinum models/safety",
  "models/equation": "engine/index.ts models/evaluation models/platinum models/stated-quantity.ts",
  "models/evaluation": "engine/index.ts models/platinum models/safety",
  "models/general": "engine/index.ts models/platinum models/stated-quantity.ts",
  "models/history": "engine/index.ts models/evaluation models/interlaboratory models/platinum",
  "models/interlaboratory": "engine/index.ts models/platinum",
  "models/planning": "engine/index.ts models/sweep",
  "models/platinum": "engine/index.ts models/safety",
  "models/published": "engine/index.ts",
  "models/safety": "engine/index.ts",
  "models/sweep": "engine/index.ts models/equation models/platinum models/safety",
  "viewer/api": "engine/index.ts engine/record models/index.ts",
  "viewer/page": "engine/distributions engine/index.ts models/evaluation models/index.ts viewer/api viewer/present",
  "viewer/present": "engine/distributions engine/index.ts engine/record models/index.ts",
  "viewer/report": "engine/index.ts models/index.ts viewer/present",
  "viewer/terminal": "engine/index.ts models/index.ts viewer/present",
  "server/access": "server/errors.ts server/intake viewer/api",
  "server/dossier": "engine/index.ts server/errors.ts server/intake server/record server/report server/verify",
  "server/documents":
    "engine/index.ts models/index.ts server/canonical.ts server/dossier server/errors.ts server/export server/intake server/one-thread.ts server/record server/report viewer/api viewer/present",
  "server/checks":
    "engine/index.ts server/errors.ts server/intake server/one-thread.ts server/shelves server/store viewer/api",
  "server/cli":
    "engine/index.ts engine/version.ts models/index.ts server/access server/errors.ts server/export server/http server/intake server/openapi server/output-file.ts server/own-model server/package-root.ts server/dossier server/queue server/record server/report server/routes server/runs server/selfcheck server/serve.ts server/shelves server/store server/verify viewer/api viewer/present viewer/report viewer/terminal",
  "server/export":
    "engine/index.ts models/index.ts server/errors.ts server/output-file.ts server/record server/runs server/shelves viewer/present",
  "server/http": "server/access server/errors.ts server/intake viewer/api viewer/present",
  "server/intake": "engine/index.ts models/index.ts server/errors.ts viewer/present",
  "server/openapi": "engine/index.ts engine/record server/access server/errors.ts viewer/api viewer/report",
  "server/own-model":
    "engine/index.ts server/errors.ts server/export server/package-root.ts server/queue server/record server/runs server/shelves server/verify",
  "server/programs": "engine/index.ts models/index.ts",
  "server/queue":
    "engine/index.ts server/access server/canonical.ts server/errors.ts server/package-root.ts server/record server/runs server/shelves viewer/api",
  "server/record": "engine/index.ts engine/record server/canonical.ts server/errors.ts server/intake",
  "server/report": "engine/index.ts models/index.ts server/errors.ts server/record viewer/present viewer/report",
  "server/routes":
    "engine/index.ts engine/record models/index.ts server/access server/canonical.ts server/checks server/documents server/errors.ts server/export server/http server/intake server/one-thread.ts server/openapi server/package-root.ts server/record server/report server/runs server/selfcheck server/shelves server/store server/verify server/watch viewer/api viewer/present",
  "server/runs":
    "engine/index.ts server/errors.ts server/nobody-waits.ts server/one-thread.ts server/package-root.ts server/record server/shelves server/store viewer/api",
  "server/selfcheck":
    "engine/index.ts models/index.ts server/errors.ts server/intake server/package-root.ts server/record server/runs server/shelves server/verify viewer/api viewer/present viewer/report",
  "server/shelves":
    "engine/index.ts models/index.ts server/errors.ts server/intake server/output-file.ts server/package-root.ts server/programs server/record server/store viewer/api viewer/present",
  "server/store": "engine/index.ts server/canonical.ts server/errors.ts server/intake server/record viewer/api",
  "server/watch": "engine/index.ts models/index.ts server/errors.ts server/intake viewer/api",
  "server/verify": "engine/index.ts server/canonical.ts server/errors.ts server/record server/runs server/shelves",
};

const roomOf = (path: string): string => {
  if (ENGINE.has(path)) return "engine/index.ts";
  const parts = path.split("/");
  return parts.length > 2 ? parts.slice(0, 2).join("/") : path;
};

/** Imports from one room into another, as `room imports room`, with a file for each. */
const fromRoomToRoom = (): Map<string, string> =>
  new Map(
    (["engine", "models", "library", "viewer", "server"] as const)
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
    const found = (["engine", "models", "library", "viewer", "server"] as const).flatMap((folder) =>
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
  test.each(["engine", "models", "library", "viewer", "server"] as const)("%s", (folder) => {
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
    for (const folder of ["engine", "models", "library", "viewer", "server"] as const)
      for (const { file, target, ours } of imports.get(folder)!) {
        const [from, to] = [roomOf(file), roomOf(target)];
        if (!ours || !target.endsWith(".ts") || from === to) continue;
        graph.set(from, (graph.get(from) ?? new Set()).add(to));
      }
    expect(onCircles(graph)).toEqual([]);
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
  "tests/browser": "the same figures, bit for bit, in every browser",
  "tests/campaign": "what a server survives: kills, floods, forgeries",
  "tests/contracts": "one suite that every distribution runs",
  "tests/packaging": "what a stranger does with the package",
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

  test("a file of long tests alone says so in its name and at its head", () => {
    const wrong = filesOf("tests")
      .filter((file) => file.endsWith(".test.ts"))
      .filter(
        (file) =>
          file.endsWith(".long.test.ts") !== /^\/\/ @module-tag long$/m.test(readFileSync(join(root, file), "utf8")),
      );
    expect(wrong).toEqual([]);
  });

  test("every folder apart is there", () => {
    expect(Object.keys(APART).filter((folder) => !existsSync(join(root, folder)))).toEqual([]);
  });
});

test("the engine's version is the package's", () => {
  expect(VERSION).toBe((JSON.parse(readFileSync(join(root, "package.json"), "utf8")) as { version: string }).version);
});
