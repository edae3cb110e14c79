import { defineConfig } from "vite";

/** Builds the page to dist/viewer; the relative base lets it be served from any folder. */
export default defineConfig({
  root: "viewer/page",
  base: "./",
  // The worker of previews loads the reader of equations only when a study has one.
  worker: { format: "es" },
  build: {
    outDir: "../../dist/viewer",
    emptyOutDir: true,
    target: "es2022",
    modulePreload: { polyfill: false },
    rolldownOptions: { input: ["viewer/page/index.html", "viewer/page/sign-in.html"] },
  },
});
