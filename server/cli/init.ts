import { existsSync } from "node:fs";
import { mkdir, readFile } from "node:fs/promises";
import { join, relative, resolve } from "node:path";
import { Fault } from "../errors.ts";
import { packageRoot } from "../package-root.ts";
import type { CommandRegistration } from "./command.ts";
import { print } from "./print.ts";
import { writeNew } from "./write-new.ts";

export const init: CommandRegistration = (program) => {
  program
    .command("init")
    .argument("[folder]", "where to; it is made if it is not there", ".")
    .summary("begin a folder of one's own: a study, a model, the set-up of TypeScript")
    .description(
      "Writes a study with a model in TypeScript to a folder, with what an editor and the compiler need. Nothing that is there is changed: a file of the same name is refused before anything is written.",
    )
    .addHelpText(
      "after",
      `
The folder's package.json leads to this installation by its place, so that nothing is fetched under Trialband's name. One
that is there already is left as it is.

Exit codes: 0 done, 1 a file cannot be written.

Example:
  trialband init ../density && cd ../density && npm install && npx --no trialband run density.json`,
    )
    .action(async (folder: string) => initFolder(resolve(folder)));
};

/** @throws {Fault} `cannot-write`: a file that is there, or a folder that cannot be made */
async function initFolder(folder: string): Promise<void> {
  const files = await filesFor(folder);
  const there = Object.keys(files).filter((name) => existsSync(join(folder, name)));
  if (there.length > 0)
    throw new Fault(
      "cannot-write",
      `${folder} has ${there.join(", ")} already. Nothing was written; name another folder.`,
    );
  await mkdir(folder, { recursive: true }).catch((error: NodeJS.ErrnoException) => {
    throw new Fault("cannot-write", `${folder} cannot be made: ${error.message}`);
  });
  for (const [name, text] of Object.entries(files)) await writeNew(join(folder, name), text, 0o644);
  const here = relative(process.cwd(), folder);
  const steps = [
    ...(here === "" ? [] : [`cd ${here}`]),
    ...(Object.hasOwn(files, "package.json") ? ["npm install"] : [await missingLine()]),
    "npx --no trialband check density.json",
    "npx --no trialband run density.json",
  ];
  print(`Written: ${Object.keys(files).join(", ")}\n\nNext:\n${steps.map((step) => `  ${step}\n`).join("")}`);
}

/** Versions of the packages that a folder of one's own needs, as this installation's package.json states them. */
async function versions(): Promise<{ readonly esbuild: string; readonly typescript: string }> {
  const manifest = JSON.parse(await readFile(join(packageRoot(), "package.json"), "utf8")) as {
    readonly peerDependencies: Readonly<Record<string, string>>;
    readonly devDependencies: Readonly<Record<string, string>>;
  };
  return { esbuild: manifest.peerDependencies["esbuild"]!, typescript: manifest.devDependencies["typescript"]! };
}

async function missingLine(): Promise<string> {
  const { esbuild, typescript } = await versions();
  return `npm install --save-dev "esbuild@${esbuild}" "typescript@${typescript}"`;
}

async function filesFor(folder: string): Promise<Readonly<Record<string, string>>> {
  const { esbuild, typescript } = await versions();
  const json = (value: unknown): string => `${JSON.stringify(value, null, 2)}\n`;
  const manifest = {
    private: true,
    type: "module",
    scripts: { check: "trialband check density.json", run: "trialband run density.json" },
    dependencies: { trialband: `file:${relative(folder, packageRoot()) || "."}` },
    devDependencies: { esbuild, typescript },
  };
  return {
    // One that is there has a dependency on Trialband, or npx --no would not find it.
    ...(existsSync(join(folder, "package.json")) ? {} : { "package.json": json(manifest) }),
    "tsconfig.json": json(TYPESCRIPT),
    "density.ts": MODEL,
    "density.json": json(STUDY),
    ...(existsSync(join(folder, ".gitignore")) ? {} : { ".gitignore": "node_modules\n.trialband\n" }),
  };
}

/** What an editor shows is what `trialband check` says. */
const TYPESCRIPT = {
  compilerOptions: {
    target: "es2023",
    lib: ["es2023"],
    types: [],
    module: "nodenext",
    moduleResolution: "nodenext",
    strict: true,
    noEmit: true,
    allowImportingTsExtensions: true,
    resolveJsonModule: true,
  },
};

const MODEL = `import { defineModel } from "trialband";

export default defineModel({
  id: "density",
  title: "Density of a body from its mass and volume",
  equation: "ρ = m / V",
  source: "definition of density",
  measurands: { density: { symbol: "ρ", meaning: "density of the body", unit: "kg/m³" } },
  inputs: {
    mass: { symbol: "m", meaning: "mass of the body", unit: "kg" },
    volume: { symbol: "V", meaning: "volume of the body", unit: "m³" },
  },
  evaluate: ({ mass, volume }) => mass / volume,
});
`;

const STUDY = {
  $schema: "./node_modules/trialband/dist/study.schema.json",
  title: "Density of a check weight",
  model: "./density.ts",
  inputs: {
    mass: {
      distribution: "normal",
      estimate: 1.00002,
      expandedUncertainty: 0.00005,
      coverageFactor: 2,
      source: "certificate of the weight",
    },
    volume: { distribution: "rectangular", estimate: 0.000125, halfWidth: 0.000004, source: "drawing of the weight" },
  },
  coverage: { probability: 0.95 },
  trials: "adaptive",
  seed: "density",
};
