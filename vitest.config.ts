import { configDefaults, defineConfig } from "vitest/config";

/** Large trial counts, many seeds and whole repetitions: `npm run test:long`. */
const LONG = "**/*.long.test.ts";
/** These put other modules in the place of the project's own, which must not reach the files after them. */
const APART = "tests/server/selfcheck";

export default defineConfig(({ mode }) => {
  const files = mode === "long" ? LONG : "**/*.test.ts";
  // A limit for what hangs: a busy machine takes twenty times as long as a quiet one.
  const shared = { testTimeout: 600_000, hookTimeout: 600_000 };
  const exclude = [...configDefaults.exclude, ...(mode === "long" ? [] : [LONG])];
  return {
    test: {
      globalSetup: ["tests/setup/global.ts"],
      // Two cores: more files at once only take turns.
      maxWorkers: 2,
      projects: [
        {
          test: {
            ...shared,
            name: "together",
            include: [`tests/${files}`],
            exclude: [...exclude, `${APART}/**`],
            // A worker loads a module once for all its files: anew for each would take a quarter of the whole time.
            isolate: false,
          },
        },
        { test: { ...shared, name: "apart", include: [`${APART}/${files}`], exclude } },
      ],
    },
  };
});
