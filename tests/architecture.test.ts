import { existsSync, readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { describe, expect, test } from "vitest";
import { VERSION } from "../engine/index.ts";
import { circles, onCircles } from "./circles.ts";
import { ROOMS } from "./rooms.ts";
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
