// A client that a general-purpose generator makes from the document: its types compile against a program of a page, and
// that program runs a study.
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { build } from "esbuild";
import openapiTS, { astToString, type OpenAPI3 } from "openapi-typescript";
import ts from "typescript";
import { afterAll, beforeAll, expect, test } from "vitest";
import { documentOf } from "../../../server/openapi/document.ts";
import { everyOperation } from "../../../server/routes/operations.ts";
import { serve, type Serving } from "../../../server/serve.ts";
import { LONG } from "../../setup/long.ts";

const root = join(import.meta.dirname, "../../..");
const PROGRAM = join(import.meta.dirname, "run-study.ts");
/** Where the program finds the generated types, which it knows by a name alone. */
const GENERATED = join(import.meta.dirname, "trialband-api.d.ts");

const folder = mkdtempSync(join(tmpdir(), "trialband-client-"));
let types: string;
let serving: Serving;
beforeAll(async () => {
  const document = JSON.parse(JSON.stringify(documentOf(everyOperation()))) as OpenAPI3;
  types = astToString(await openapiTS(document));
  serving = await serve({ host: "127.0.0.1", port: 0, workers: 1, store: null, warn: () => undefined });
});
afterAll(async () => {
  await serving.close();
  rmSync(folder, { recursive: true });
});

/** What the compiler says of a program with the generated types beside it, which are in memory alone. */
function compile(change: (program: string) => string = (program) => program): string[] {
  const options: ts.CompilerOptions = {
    strict: true,
    exactOptionalPropertyTypes: true,
    noUncheckedIndexedAccess: true,
    noEmit: true,
    skipLibCheck: true,
    target: ts.ScriptTarget.ES2023,
    module: ts.ModuleKind.NodeNext,
    moduleResolution: ts.ModuleResolutionKind.NodeNext,
    lib: ["lib.es2023.d.ts", "lib.dom.d.ts", "lib.dom.iterable.d.ts"],
    types: [],
    paths: { "trialband-api": [GENERATED] },
  };
  const host = ts.createCompilerHost(options);
  const { readFile, fileExists, getSourceFile } = host;
  const changed = new Map([
    [GENERATED, types],
    [PROGRAM, change(readFile(PROGRAM)!)],
  ]);
  host.fileExists = (path) => changed.has(path) || fileExists(path);
  host.readFile = (path) => changed.get(path) ?? readFile(path);
  host.getSourceFile = (path, ...rest) => {
    const text = changed.get(path);
    return text === undefined ? getSourceFile(path, ...rest) : ts.createSourceFile(path, text, options.target!);
  };
  const program = ts.createProgram([PROGRAM], options, host);
  return ts.getPreEmitDiagnostics(program).map(({ messageText }) => ts.flattenDiagnosticMessageText(messageText, "\n"));
}

test("its types compile with a program that starts a run, waits and reads the record", LONG, () => {
  expect(types).toContain("startRun");
  expect(compile()).toEqual([]);
});

test.each([
  ["a route that does not exist", '"/api/runs/{id}"', '"/api/run/{id}"'],
  ["a field that a record does not have", "validation.validated", "validation.valid"],
  ["a request without its study", "body: { study,", "body: {"],
])("they do not compile with %s", LONG, (_what, part, other) => {
  expect(compile((program) => program.replace(part, other)).length).toBeGreaterThan(0);
});

test("the program runs a study on a server", async () => {
  const outfile = join(folder, "client.mjs");
  await build({ entryPoints: [PROGRAM], bundle: true, platform: "node", format: "esm", outfile, absWorkingDir: root });
  const { runStudy } = (await import(pathToFileURL(outfile).href)) as {
    runStudy(server: string, study: string, trials: number): Promise<{ trials: number; validated: boolean }>;
  };
  expect(await runStudy(serving.url, "published/additive-normal", 20_000)).toEqual({ trials: 20_000, validated: true });
  await expect(runStudy(serving.url, "published/none", 20_000)).rejects.toThrow(/no-such-study/);
});
