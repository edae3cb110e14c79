// What a stranger does with the package: packs it, installs it in an empty folder, and uses it from plain modules, CommonJS,
// TypeScript under both ways of resolution, a page made by a bundler, and the command line. Nothing of this folder's
// node_modules is seen from there.
//   npm run packaging               after npm run build
//   npm run packaging -- --keep     keeps the folder and prints where it is
import { execFileSync } from "node:child_process";
import { cpSync, existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { createServer } from "node:http";
import { tmpdir } from "node:os";
import { extname, join, resolve } from "node:path";
import { chromium } from "playwright-core";
import { followTutorial } from "./tutorial.mjs";

const root = resolve(import.meta.dirname, "../..");
const folder = mkdtempSync(join(tmpdir(), "trialband-packaging-"));
/** What the program takes of its host, where neither a page's types nor Node's are there. */
const HOST = `declare class AbortController {
  readonly signal: { readonly aborted: boolean; addEventListener(type: string, listener: () => void): void };
}
`;
const tool = (name) => join(root, "node_modules", name);
let failed = 0;

function run(program, args, cwd = folder) {
  return execFileSync(program, args, { cwd, encoding: "utf8", stdio: ["ignore", "pipe", "pipe"] });
}

async function check(title, work) {
  try {
    const said = await work();
    process.stdout.write(`ok      ${title}${said === undefined ? "" : `: ${said}`}\n`);
  } catch (error) {
    failed += 1;
    const said = [error.stdout, error.stderr, error.message].filter(Boolean).join("\n");
    process.stdout.write(`FAILED  ${title}\n${said.replaceAll(/^/gm, "        ")}\n`);
  }
}

const expect = (condition, said) => {
  if (!condition) throw new Error(said);
};

const tarball = (() => {
  const [{ filename }] = JSON.parse(
    run("npm", ["pack", "--ignore-scripts", "--json", "--pack-destination", folder], root),
  );
  return join(folder, filename);
})();

await check("publint", () =>
  run(process.execPath, [tool("publint/src/cli.js"), tarball, "--strict"])
    .split("\n")
    .at(-2),
);
await check("are the types wrong", () => {
  // The package is for modules; CommonJS requires them, of which this program only warns.
  run(process.execPath, [tool("@arethetypeswrong/cli/dist/index.js"), tarball, "--profile", "esm-only", "--no-color"]);
});

const program = join(folder, "program");
cpSync(join(root, "tests/packaging/programs"), program, { recursive: true });
writeFileSync(join(program, "package.json"), JSON.stringify({ private: true, type: "module" }));
await check("install in an empty folder", () => {
  run("npm", ["install", "--no-audit", "--no-fund", "--prefer-offline", tarball], program);
  const modules = join(program, "node_modules");
  const installed = readdirSync(modules).filter((name) => !name.startsWith("."));
  const strangers = installed.filter((name) => !["trialband", "piscina", "@napi-rs"].includes(name));
  expect(strangers.length === 0, `a library user also installs ${strangers.join(", ")}`);
  return installed.join(", ");
});

let bits = "";
await check("plain modules, every door, on threads too", () => {
  bits = run(process.execPath, ["esm.mjs"], program);
  return bits.slice(0, 12);
});
await check("CommonJS", () => void run(process.execPath, ["--no-warnings", "required.cjs"], program));
await check("the command line", () => {
  const bin = join(program, "node_modules/trialband/bin.mjs");
  expect(/^\d+\.\d+\.\d+\n$/.test(run(process.execPath, [bin, "--version"], program)), "no version");
  expect(run(process.execPath, [bin, "--help"], program).includes("propagates the distributions"), "no help");
  const study = join(program, "node_modules/trialband/examples/verdicts/kept.json");
  expect(run(process.execPath, [bin, "run", study, "--trials", "20000"], program).includes("validated"), "no verdict");
});

for (const [title, options] of Object.entries({
  node16: { module: "node16", moduleResolution: "node16", lib: ["ES2022"] },
  bundler: { module: "esnext", moduleResolution: "bundler", lib: ["ES2022", "DOM"] },
  "bundler, with every strictness": {
    module: "esnext",
    moduleResolution: "bundler",
    lib: ["ES2022", "DOM"],
    exactOptionalPropertyTypes: true,
    noPropertyAccessFromIndexSignature: true,
    isolatedModules: true,
    verbatimModuleSyntax: true,
  },
}))
  await check(`TypeScript, ${title}`, () => {
    const compilerOptions = {
      target: "es2022",
      strict: true,
      noUncheckedIndexedAccess: true,
      skipLibCheck: false,
      types: [],
      outDir: "out",
      ...options,
    };
    const at = join(program, "typed");
    // A program of plain computing has no AbortController without a page's or Node's types.
    writeFileSync(join(at, "host.d.ts"), options.lib.includes("DOM") ? "" : HOST);
    writeFileSync(join(at, "tsconfig.json"), JSON.stringify({ compilerOptions, files: ["main.ts", "host.d.ts"] }));
    run(process.execPath, [tool("typescript/bin/tsc"), "-p", at], program);
    run(process.execPath, [join(at, "out/main.js")], program);
  });

await check("a page made by a bundler, with workers", async () => {
  const page = join(program, "page");
  run(process.execPath, [tool("vite/bin/vite.js"), "build", page, "--base", "./", "--logLevel", "warn"], program);
  const sizes = readdirSync(join(page, "dist/assets")).map(
    (name) => readFileSync(join(page, "dist/assets", name)).length,
  );
  const said = `${Math.round(Math.max(...sizes) / 1000)} kB the largest file`;
  const executablePath = [process.env["TRIALBAND_CHROMIUM"], "/usr/bin/chromium", "/usr/bin/chromium-browser"].find(
    (path) => path !== undefined && existsSync(path),
  );
  if (executablePath === undefined) return `${said}; NOT OPENED, no Chromium here`;
  const text = await opened(join(page, "dist"), executablePath);
  expect(text === `${bits} ${bits} enough`, `the page says ${text}; expected ${bits} twice and a cancel`);
  return `${said}; the bits of Node.js`;
});

await check("the tutorial, to the letter", () => {
  const empty = join(folder, "tutorial");
  mkdirSync(empty);
  return followTutorial(root, empty, tarball);
});
await check("a folder of one's own: trialband init", () => {
  const own = join(folder, "own");
  const bin = join(program, "node_modules/trialband/bin.mjs");
  run(process.execPath, [bin, "init", own], program);
  run("npm", ["install", "--no-audit", "--no-fund", "--prefer-offline"], own);
  run("npx", ["--no", "trialband", "check", "density.json"], own);
  expect(run("npx", ["--no", "trialband", "run", "density.json"], own).includes("density of the body"), "no result");
});

if (process.argv.includes("--keep")) process.stdout.write(`${folder}\n`);
else rmSync(folder, { recursive: true, force: true });
process.exitCode = failed === 0 ? 0 : 1;

async function opened(site, executablePath) {
  const types = { ".html": "text/html", ".js": "text/javascript" };
  const server = createServer(({ url }, response) => {
    const file = join(site, url === "/" ? "index.html" : url);
    response.writeHead(existsSync(file) ? 200 : 404, { "content-type": types[extname(file)] ?? "text/plain" });
    response.end(existsSync(file) ? readFileSync(file) : "");
  });
  await new Promise((ready) => server.listen(0, "127.0.0.1", ready));
  const browser = await chromium.launch({ executablePath, args: ["--no-sandbox"] });
  try {
    const page = await browser.newPage();
    await page.goto(`http://127.0.0.1:${server.address().port}/`);
    await page.locator("body[data-done]").waitFor({ timeout: 60_000 });
    return await page.locator("#said").textContent();
  } finally {
    await browser.close();
    server.close();
  }
}
