// The reference of the library, from the docstrings: writes it to dist/docs, checks every link in it and that every public
// name has a docstring, and serves it.
//   npm run docs                writes, checks, serves on this machine and prints the address
//   npm run docs -- --check     writes and checks: a broken link or a name without a docstring ends it with 1
import { createReadStream, existsSync } from "node:fs";
import { readdir, readFile, writeFile } from "node:fs/promises";
import { createServer } from "node:http";
import { extname, join, relative, resolve } from "node:path";
import { Application, ReflectionKind } from "typedoc";

const OUT = "dist/docs";
const DOORS = {
  trialband: "engine/index",
  "trialband/models": "library/models",
  "trialband/evaluation": "library/evaluation",
  "trialband/node": "library/node/index",
  "trialband/workers": "library/workers/index",
};

// From the declarations that a program gets, in which a type that comes from a schema has the meaning of its fields.
if (!existsSync("dist/types/engine/index.d.ts")) await import("./declarations.mjs");
// The reader of docstrings takes what a project has.
const tsconfig = "dist/types/tsconfig.json";
const compilerOptions = { target: "es2023", module: "nodenext", strict: true, noEmit: true, types: [] };
await writeFile(tsconfig, JSON.stringify({ compilerOptions, include: ["**/*.d.ts"] }));
const app = await Application.bootstrap({
  name: "Trialband, the library",
  entryPoints: Object.values(DOORS).map((file) => `dist/types/${file}.d.ts`),
  tsconfig,
  skipErrorChecking: true,
  readme: "none",
  projectDocuments: ["examples/library/README.md"],
  disableSources: true,
  excludeExternals: false,
  includeVersion: true,
  hideGenerator: true,
  logLevel: "Warn",
  validation: { invalidLink: true, notExported: false, notDocumented: false },
});
const project = await app.convert();
if (project === undefined) process.exit(1);
for (const child of project.children ?? []) {
  const found = Object.entries(DOORS).find(([, file]) =>
    child.sources?.some(({ fullFileName }) => fullFileName.endsWith(`${file}.d.ts`)),
  );
  if (found !== undefined) child.name = found[0];
}
await app.generateDocs(project, OUT);
if (app.logger.hasErrors()) process.exit(1);

/** Links that lead nowhere: to a page that is not there, or a place that its page does not have. */
async function brokenLinks() {
  const pages = (await readdir(OUT, { recursive: true })).filter((name) => name.endsWith(".html"));
  const ids = new Map();
  const links = [];
  for (const page of pages) {
    const text = await readFile(join(OUT, page), "utf8");
    ids.set(page, new Set([...text.matchAll(/\sid="([^"]*)"/g)].map(([, id]) => id)));
    for (const [, href] of text.matchAll(/<a\s[^>]*?href="([^"]*)"/g)) links.push([page, href]);
  }
  return links.flatMap(([page, href]) => {
    if (/^[a-z]+:/.test(href)) return [];
    const [path, id] = href.split("#");
    const target = path === "" ? page : relative(".", resolve("/", page, "..", path)).replace(/^(\.\.\/)+/, "");
    const file = path === "" ? page : join(page, "..", path);
    if (!existsSync(join(OUT, file))) return [`${page}: ${href} (${target})`];
    if (id && file.endsWith(".html") && !ids.get(file)?.has(decodeURIComponent(id))) return [`${page}: ${href}`];
    return [];
  });
}

const broken = [...new Set(await brokenLinks())];
for (const link of broken) process.stderr.write(`broken link: ${link}\n`);
/** Every name of a door, those of its namespaces among them (`platinum.iec60751.resistance`), with what stands behind it. */
const namesIn = (parent, before) =>
  (parent.children ?? []).flatMap((one) => [
    { path: `${before}${one.name}`, one },
    ...(one.kind === ReflectionKind.Namespace ? namesIn(one, `${before}${one.name}.`) : []),
  ]);
/** A function has its word on one of its signatures; a name that stands for another one, on that. */
const speaks = (one) =>
  one.hasComment() || one.isReference() || (one.signatures ?? []).some((signature) => signature.hasComment());

const names = (project.children ?? []).flatMap((door) => namesIn(door, `${door.name}: `));
const silent = names.filter(({ one }) => !speaks(one));
for (const { path } of silent) process.stderr.write(`no docstring: ${path}\n`);
process.stdout.write(`${names.length} names; ${silent.length} without a docstring; ${broken.length} broken links\n`);
const failed = silent.length > 0 || broken.length > 0;
if (process.argv.includes("--check")) process.exit(failed ? 1 : 0);

const TYPES = {
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript",
  ".css": "text/css",
  ".svg": "image/svg+xml",
  ".json": "application/json",
};
createServer(({ url }, response) => {
  const path = decodeURIComponent(new URL(url, "http://docs").pathname);
  const file = join(OUT, path.endsWith("/") ? `${path}index.html` : path);
  if (!existsSync(file) || relative(OUT, file).startsWith("..")) return response.writeHead(404).end("No such page.");
  response.writeHead(200, { "content-type": TYPES[extname(file)] ?? "text/plain; charset=utf-8" });
  createReadStream(file).pipe(response);
}).listen(Number(process.env["PORT"] ?? 0), "127.0.0.1", function () {
  process.stdout.write(`http://127.0.0.1:${this.address().port}/  (Ctrl+C ends it)\n`);
});
