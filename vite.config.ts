import { defineConfig } from "vite";

/** Builds the page to dist/viewer; the relative base lets it be served from any folder. */
export default defineConfig({
  root: "viewer/page",
  base: "./",
  build: {
    outDir: "../../dist/viewer",
    emptyOutDir: true,
    target: "es2022",
    modulePreload: { polyfill: false },
  },
});
