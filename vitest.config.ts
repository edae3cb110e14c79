import { readdirSync, readFileSync } from "node:fs";
import { resolve } from "node:path";
import { defineConfig } from "vitest/config";
import { MODULE_CACHE } from "./tests/setup/module-cache.ts";

/**
 * What takes seconds runs with `npm run test:long`: tests marked `LONG` (`tests/setup/long.ts`), and whole files marked
 * `@module-tag long`, which are named `*.long.test.ts`. `npm test` runs all others.
 */
const LONG = {
  name: "long",
  description: "takes seconds: large trial counts, many seeds, whole walks through the page",
};
/** These count the threads of a process, or the memory that its runs share. */
const COUNTING = new Set([
  "tests/server/runs/pool/closing.test.ts",
  "tests/server/runs/pool/rooms.test.ts",
  "tests/server/runs/kept-runs.test.ts",
]);
/** These put another module in the place of the project's own, which must not reach the files after them. */
const mocks = (file: string): boolean => /\bvi\.mock\(/.test(readFileSync(file, "utf8"));
const standsApart = (file: string): boolean => COUNTING.has(file) || mocks(file);

/** The package's doors, as their sources. */
const DOORS = Object.entries({
  trialband: "engine/index.ts",
  "trialband/models": "library/models.ts",
  "trialband/evaluation": "library/evaluation.ts",
  "trialband/node": "library/node/index.ts",
  "trialband/workers": "library/workers/index.ts",
}).map(([name, file]) => ({ find: new RegExp(`^${name}$`), replacement: resolve(file) }));

const holdsLong = (file: string): boolean => /setup\/long\.ts"|@module-tag long/.test(readFileSync(file, "utf8"));

export default defineConfig(({ mode }) => {
  const long = mode === "long";
  const files = readdirSync("tests", { recursive: true, encoding: "utf8" })
    .map((name) => `tests/${name}`)
    .filter((file) => file.endsWith(".test.ts"))
    .filter((file) => (long ? holdsLong(file) : !file.endsWith(".long.test.ts")));
  const apart = files.filter(standsApart);
  const shared = {
    // A limit for what hangs: a busy machine takes twenty times as long as a quiet one.
    testTimeout: 600_000,
    hookTimeout: 600_000,
    // The same for what is polled: the default of one second is less than an answer takes there.
    expect: { poll: { timeout: 60_000 } },
    tags: [LONG],
    // Of the settings above the projects it would not reach them.
    tagsFilter: [long ? LONG.name : `!${LONG.name}`],
  };
  return {
    // As programs name them; what is built of them is tested by `npm run packaging`.
    resolve: { alias: DOORS },
    test: {
      globalSetup: ["tests/setup/global.ts"],
      // What a module is transformed to is kept by the digest of its text, so that the next run begins sooner: a fifth of
      // what imports cost.
      experimental: { fsModuleCache: true, fsModuleCachePath: MODULE_CACHE },
      // Two cores: more files at once only take turns.
      maxWorkers: 2,
      projects: [
        {
          test: {
            ...shared,
            name: "together",
            include: files.filter((file) => !apart.includes(file)),
            // A worker loads a module once for all its files: anew for each would take a quarter of the whole time.
            isolate: false,
          },
        },
        { test: { ...shared, name: "apart", include: apart } },
      ],
    },
  };
});
