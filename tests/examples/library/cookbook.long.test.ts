// @module-tag long
// The cookbook, recipe by recipe: its types by the settings that the tutorial states, and its figures as the command of its
// first lines gives them, against what follows from its equation on paper. Needs dist/.
import { once } from "node:events";
import { mkdtempSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { createServer } from "node:http";
import type { AddressInfo } from "node:net";
import { tmpdir } from "node:os";
import { extname, join, resolve } from "node:path";
import ts from "typescript";
import { build } from "vite";
import { afterAll, describe, expect, test } from "vitest";
import { propagate, roundResult, type RunRecord } from "trialband";
import several from "../../../examples/library/several.ts";
import { writeTrials } from "../../../examples/library/stream-trials.ts";
import table from "../../../examples/library/table.ts";
import { trialband } from "../../server/cli/trialband.ts";
import { violationsInBothThemes } from "../../viewer/page/axe.ts";
import { newPage, skipBrowser } from "../../viewer/page/chromium.ts";

const COOKBOOK = resolve("examples/library");
const DOORS = {
  trialband: resolve("engine/index.ts"),
  "trialband/workers": resolve("library/workers/index.ts"),
};
const folder = mkdtempSync(join(tmpdir(), "trialband-cookbook-"));
afterAll(() => rmSync(folder, { recursive: true }));

const recipes = readdirSync(COOKBOOK, { recursive: true, encoding: "utf8" }).filter((name) => name.endsWith(".ts"));
const readme = readFileSync(join(COOKBOOK, "README.md"), "utf8");

/** What both programs of the compiler are made of, parsed once. */
const parsed = new Map<string, ts.SourceFile | undefined>();

/** What the compiler says of the recipes by the tutorial's settings. @param changed other text for one of them */
function complaints(changed?: { readonly name: string; readonly text: string }): string[] {
  const [, block] = /```json file=tsconfig\.json\n([\s\S]*?)```/.exec(readme)!;
  const { compilerOptions } = JSON.parse(block!) as { readonly compilerOptions: object };
  // The recipes are run as they are, and those of Node.js and of the page have the types of these.
  const more = { noEmit: true, allowImportingTsExtensions: true, lib: ["es2023", "dom"], types: ["node"] };
  const paths = Object.fromEntries(Object.entries(DOORS).map(([name, file]) => [name, [file]]));
  const { options, errors } = ts.convertCompilerOptionsFromJson({ ...compilerOptions, ...more, paths }, process.cwd());
  expect(errors).toEqual([]);
  const host = ts.createCompilerHost(options);
  const { getSourceFile } = host;
  host.getSourceFile = (file, how) => {
    if (changed !== undefined && file === join(COOKBOOK, changed.name))
      return ts.createSourceFile(file, changed.text, how, true);
    if (!parsed.has(file)) parsed.set(file, getSourceFile(file, how));
    return parsed.get(file);
  };
  const files = recipes.map((name) => join(COOKBOOK, name));
  const program = ts.createProgram(files, options, host);
  return files.flatMap((file) => {
    const source = program.getSourceFile(file)!;
    return [...program.getSyntacticDiagnostics(source), ...program.getSemanticDiagnostics(source)].map(
      ({ messageText }) => `${file.slice(COOKBOOK.length + 1)}: ${ts.flattenDiagnosticMessageText(messageText, " ")}`,
    );
  });
}

test("every recipe stands in the table of the cookbook", () => {
  const listed = [...readme.matchAll(/^\| \[([\w./-]+)\]/gm)].map(([, name]) => name!);
  expect(new Set(recipes.map((name) => name.replace(/^page\/.*/, "page/")))).toEqual(new Set(listed));
});

test("the compiler has nothing to complain of, and would of a name that is not declared", () => {
  expect(complaints()).toEqual([]);
  const text = readFileSync(join(COOKBOOK, "sensitivity.ts"), "utf8").replace("a * b + c", "a * bb + c");
  expect(complaints({ name: "sensitivity.ts", text })).toEqual([
    expect.stringMatching(/^sensitivity\.ts: Cannot find name 'bb'/),
  ]);
});

/** The record that the command of a recipe prints. */
async function recordOf(name: string): Promise<RunRecord> {
  const { status, stdout, stderr } = await trialband("run", join(COOKBOOK, name), "--json");
  expect(status, stderr).toBe(0);
  return JSON.parse(stdout) as RunRecord;
}

describe("the figures of a recipe", () => {
  test("implicit.ts: the root of ½·g·t² − s − d·s², and u(s) by its derivatives", async () => {
    const { linear } = (await recordOf("implicit.ts")).measurands["height"]!;
    const times = [1.012, 1.009, 1.015, 1.011, 1.008];
    const t = times.reduce((sum, each) => sum + each, 0) / 5;
    // JCGM 100, 4.2.3; of a triangular distribution u = a/√6 (JCGM 100, 4.3.9).
    const ut = Math.sqrt(times.reduce((sum, each) => sum + (each - t) ** 2, 0) / (5 * 4));
    const ud = 0.002 / Math.sqrt(6);
    const s = (Math.sqrt(1 + 4 * 0.01 * 4.903325 * t * t) - 1) / (2 * 0.01);
    const slope = 1 + 2 * 0.01 * s;
    expect(linear.estimate).toBeCloseTo(s, 10);
    expect(linear.standardUncertainty).toBeCloseTo(Math.hypot((9.80665 * t * ut) / slope, (s * s * ud) / slope), 7);
  });

  test("ode.ts: the time that the cooling takes, ∫ dT over its rate, is that of the study", async () => {
    const { estimate } = (await recordOf("ode.ts")).measurands["temperature"]!.linear;
    const pace = (T: number): number => 1 / ((T - 296.15) / 60 + 3e-11 * (T ** 4 - 296.15 ** 4));
    const n = 1000;
    const h = (407.15 - estimate) / n;
    // Simpson's rule.
    let time = pace(estimate) + pace(407.15);
    for (let i = 1; i < n; i++) time += (i % 2 === 1 ? 4 : 2) * pace(estimate + i * h);
    expect((time * h) / 3).toBeCloseTo(20, 6);
  });

  test("table.ts: the line of the table, the bend at it, and the word where it ends", async () => {
    const { linear } = (await recordOf("table.ts")).measurands["temperature"]!;
    expect(linear.estimate).toBeCloseTo(40 - 0.003, 12);
    // Between the slopes of the two lines that meet there.
    const { sensitivityCoefficient } = linear.contributions.find(({ input }) => input === "reading")!;
    expect(sensitivityCoefficient).toBeGreaterThan(1 - 0.007 / 40);
    expect(sensitivityCoefficient).toBeLessThan(1 - 0.003 / 40);
    expect(table.model.evaluate({ reading: 100, between: 0 })).toBeCloseTo(100 + (-0.006 + 0.002) / 2, 12);
    expect(() => table.model.evaluate({ reading: 161, between: 0 })).toThrow(
      "161 lies outside the table, from -40 to 160",
    );
  });

  test("several.ts: both resistances, and the covariance that their exact sum demands", async () => {
    const { measurands, joint } = await recordOf("several.ts");
    const root = Math.sqrt(350 ** 2 - 4 * 350 * 71.428);
    expect(measurands["larger"]!.linear.estimate).toBeCloseTo((350 + root) / 2, 10);
    expect(measurands["smaller"]!.linear.estimate).toBeCloseTo((350 - root) / 2, 10);
    // R_1 + R_2 = S: u²(S) is the sum of the four elements (JCGM 100, 5.2.2).
    const sum = joint!.linear.covariance.flat().reduce((total, each) => total + each, 0);
    expect(sum / 0.05 ** 2).toBeCloseTo(1, 7);
  });

  test("sensitivity.ts: the indices of a·b + c, which are known, where every coefficient of a and b is 0", async () => {
    const { sensitivity, linear } = (await recordOf("sensitivity.ts")).measurands["y"]!;
    expect(linear.contributions.map(({ sensitivityCoefficient }) => sensitivityCoefficient)).toEqual([0, 0, 1]);
    // V(a·b) = V(c) = 1: alone a and b explain nothing, together a half; c explains its half alone.
    const known = { a: [0, 0.5], b: [0, 0.5], c: [0.5, 0.5] };
    expect(sensitivity!.factors.map(({ name }) => name).toSorted()).toEqual(Object.keys(known));
    for (const { name, firstOrder, total } of sensitivity!.factors)
      [firstOrder!, total!].forEach(({ value, standardError }, i) => {
        const off = Math.abs(value - known[name as "a"][i]!);
        expect(off, `${name}, ${i}`).toBeLessThan(5 * standardError);
        expect(standardError, name).toBeLessThan(0.02);
      });
  });

  test("own-distribution.ts: the standard deviation of its density", async () => {
    const { monteCarlo, linear } = (await recordOf("own-distribution.ts")).measurands["temperature"]!;
    // ∫ x²·(0.2 + x⁴)/0.8 from −1 to 1; E(a²) of the half-width; a product of independent factors.
    const swing = (2 * (0.2 / 3 + 1 / 7)) / 0.8;
    const u = Math.sqrt(0.002 ** 2 + swing * (0.02 ** 2 + 0.004 ** 2 / 3));
    expect(linear.estimate).toBeCloseTo(72, 9);
    // Five standard errors of a standard deviation from 100 000 trials, and a thousandth for the lines between the points.
    const error = 5 / Math.sqrt(2 * 100_000) + 1e-3;
    expect(Math.abs(monteCarlo.standardUncertainty! / u - 1)).toBeLessThan(error);
  });

  test("stream-trials.ts: every trial of the record is in the file, and each obeys the model", async () => {
    const path = join(folder, "trials.csv");
    const count = 12_000;
    await writeTrials(path, count);
    const [head, ...lines] = readFileSync(path, "utf8").trimEnd().split("\n");
    expect(head).toBe("series/ohm,parallel/ohm,larger/ohm,smaller/ohm");
    expect(lines).toHaveLength(count);
    let sum = 0;
    for (const line of lines) {
      const [series, parallel, larger, smaller] = line.split(",").map(Number) as [number, number, number, number];
      if (!(Math.abs(larger + smaller - series) < 1e-9)) expect(line).toBe("larger and smaller that add up to series");
      if (!(Math.abs((larger * smaller) / series - parallel) < 1e-9))
        expect(line).toBe("a product of series · parallel");
      sum += larger;
    }
    const record = propagate({ ...several, study: { ...several.study, trials: count } });
    expect(sum / count).toBeCloseTo(record.measurands.larger.monteCarlo.estimate!, 10);
  });
});

describe.skipIf(skipBrowser)("page/", () => {
  const TYPES: Readonly<Record<string, string>> = { ".html": "text/html; charset=utf-8", ".js": "text/javascript" };

  test("built and opened it shows the result of one thread, has no barrier, and can be cancelled", async () => {
    const site = join(folder, "page");
    await build({
      configFile: false,
      root: join(COOKBOOK, "page"),
      base: "./",
      logLevel: "error",
      resolve: {
        alias: Object.entries(DOORS).map(([name, file]) => ({ find: new RegExp(`^${name}$`), replacement: file })),
      },
      worker: { format: "es" },
      build: { outDir: site, target: "es2022", minify: false },
    });
    const server = createServer(({ url }, response) => {
      const file = join(site, url === "/" ? "index.html" : url!);
      response.writeHead(200, { "content-type": TYPES[extname(file)] ?? "text/plain" }).end(readFileSync(file));
    });
    await once(server.listen(0, "127.0.0.1"), "listening");
    const page = await newPage();
    try {
      const address = `http://127.0.0.1:${(server.address() as AddressInfo).port}/`;
      await page.goto(address);
      await page.locator("#progress").waitFor({ state: "hidden" });
      const { symbol, unit, monteCarlo, validation } = propagate(several).measurands.larger;
      const { estimate, uncertainty } = roundResult(monteCarlo.estimate!, monteCarlo.standardUncertainty!, 2);
      expect(await page.getByRole("status").textContent()).toBe(
        `${symbol} = ${estimate} ${unit}, u = ${uncertainty} ${unit}. ${validation.sentence}`,
      );
      expect(await violationsInBothThemes(page)).toEqual([]);

      // Workers that never answer: what a person cancels.
      await page.addInitScript(() => {
        class Silent extends EventTarget {
          postMessage(): void {}
          terminate(): void {}
        }
        Object.assign(globalThis, { Worker: Silent });
      });
      await page.goto(address);
      await page.getByRole("button", { name: "Cancel" }).click();
      await page.getByText("The run was cancelled.").waitFor();
      expect(await page.locator("#cancel").isHidden()).toBe(true);
    } finally {
      await page.close();
      server.close();
    }
  });
});
