import { execFile } from "node:child_process";
import { existsSync } from "node:fs";
import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { dirname, join, relative, resolve } from "node:path";
import { Fault } from "../errors.ts";
import { packageRoot } from "../package-root.ts";

/** What a door of the package is, as declarations in an installation and as sources where nothing is built of them. */
const DOORS: Readonly<Record<string, string>> = {
  trialband: "engine/index",
  "trialband/models": "library/models",
  "trialband/evaluation": "library/evaluation",
};

/**
 * What the TypeScript compiler says of a file and of what it imports: `file:line:column: message`. The compiler is the one
 * installed for the file's folder, else one beside Trialband; it runs in a process of its own, as `tsc`, which every version
 * of it has.
 *
 * @throws {Fault} `not-installed` without a compiler
 */
export async function typeComplaints(path: string): Promise<readonly string[]> {
  const compiler = compilerFor(path);
  const folder = await mkdtemp(join(tmpdir(), "trialband-check-"));
  try {
    const project = join(folder, "tsconfig.json");
    await writeFile(project, JSON.stringify({ compilerOptions: optionsFor(), files: [path] }));
    const said = await outputOf(compiler, ["-p", project, "--pretty", "false"]);
    return said
      .split("\n")
      .filter((line) => line.trim() !== "")
      .map((line) =>
        line.replace(/^(\S.*?)\((\d+),(\d+)\): error TS\d+: /, (_, file: string, row: string, column: string) => {
          const named = relative(process.cwd(), resolve(folder, file));
          return `${named}:${row}:${column}: `;
        }),
      );
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

function optionsFor(): object {
  const root = packageRoot();
  const built = existsSync(join(root, "dist/types/engine/index.d.ts"));
  const door = (file: string): string => join(root, built ? `dist/types/${file}.d.ts` : `${file}.ts`);
  return {
    target: "es2023",
    lib: ["es2023"],
    module: "esnext",
    moduleResolution: "bundler",
    strict: true,
    noEmit: true,
    allowImportingTsExtensions: true,
    resolveJsonModule: true,
    skipLibCheck: true,
    types: [],
    paths: Object.fromEntries(Object.entries(DOORS).map(([name, file]) => [name, [door(file)]])),
  };
}

function compilerFor(path: string): string {
  for (const from of [join(dirname(path), "model.ts"), join(packageRoot(), "package.json")]) {
    try {
      return join(dirname(createRequire(from).resolve("typescript/package.json")), "bin/tsc");
    } catch {
      // The next place.
    }
  }
  throw new Fault(
    "not-installed",
    "The types of a model are checked by the TypeScript compiler, which is not installed. Install it in the model's folder: npm install --save-dev typescript",
  );
}

/** What the compiler prints. It ends with another code than 0 if it complains, and prints nothing if it does not. */
const outputOf = (compiler: string, args: readonly string[]): Promise<string> =>
  new Promise((settle, fail) => {
    execFile(process.execPath, [compiler, ...args], { maxBuffer: 1 << 26 }, (error, stdout, stderr) => {
      if (error !== null && stdout.trim() === "")
        fail(new Fault("internal", `The compiler failed: ${stderr || error.message}`));
      else settle(stdout);
    });
  });
