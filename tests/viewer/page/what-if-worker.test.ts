// The worker that previews "what if": its figures are the engine's own.
import { describe, expect, test } from "vitest";
import { propagate, type RunRecord, readStudy } from "../../../engine/index.ts";
import { models } from "../../../models/index.ts";
import {
  FIRST_TRIALS,
  REFINED_TRIALS,
  type Computed,
  type JudgedOthers,
  type PreviewAnswer,
  type Previews,
  type Preview,
} from "../../../viewer/page/what-if/protocol.ts";
import { readExample } from "../../read-example.ts";
import { skipBrowser } from "./chromium.ts";
import { pageUnderTest } from "./page-under-test.ts";
import { LONG } from "../../setup/long.ts";

const CASES = ["harrowfen/steriliser-134", "published/polar-010-correlated", "published/comparison-loss-10-correlated"];
/** A study with every width that a statement has half as large again. */
const change = (document: Record<string, unknown>): Record<string, unknown> => {
  const inputs = document["inputs"] as Record<string, Record<string, unknown>>;
  const widened = Object.entries(inputs).map(([name, statement]) => {
    const field = ["halfWidth", "standardUncertainty", "expandedUncertainty"].find((one) => one in statement);
    return [name, field === undefined ? statement : { ...statement, [field]: 1.5 * (statement[field] as number) }];
  });
  return { ...document, inputs: Object.fromEntries(widened) };
};

function engineRun(document: Record<string, unknown>, trials: number): RunRecord["measurands"] {
  const found = models.find(({ id }) => id === document["model"])!;
  const model = "build" in found ? found.build((document["parameters"] ?? {}) as Record<string, unknown>) : found;
  return propagate(model, readStudy({ ...document, trials, sweep: null, sensitivity: null, conformity: {} }))
    .measurands;
}

/** What a preview keeps of a record's measurands. */
const kept = (measurands: RunRecord["measurands"] | Preview): unknown =>
  Object.entries(measurands).map(([name, { linear, monteCarlo, validation }]) => [
    name,
    [linear.estimate, linear.standardUncertainty, linear.coverageFactor, linear.expandedUncertainty, linear.interval],
    [
      monteCarlo.estimate,
      monteCarlo.standardUncertainty,
      monteCarlo.intervals,
      monteCarlo.histogram,
      monteCarlo.trials,
    ],
    [validation.validated, validation.numericalTolerance, validation.coverageFactorNeeded],
  ]);

describe.skipIf(skipBrowser)("the worker of previews", () => {
  const it = pageUnderTest();

  /** Asks a worker of the built page, as the page does, and gathers its answers until it has refined them. */
  async function ask(
    questions: readonly { readonly stated: unknown; readonly changed: unknown; readonly others?: readonly unknown[] }[],
  ): Promise<PreviewAnswer[]> {
    const run = it.server.addFinished("harrowfen/pasteuriser-72");
    await it.page.goto(`${it.home}#run=${run}`);
    await it.page.locator("#try-open").click();
    await it.page.locator("#preview-table").waitFor();
    return it.page.evaluate(
      ([asked, most]) => {
        const address = performance
          .getEntriesByType("resource")
          .find(({ name }) => /\/worker-[^/]*\.js$/.test(name))!.name;
        const worker = new Worker(address, { type: "module" });
        return new Promise<PreviewAnswer[]>((resolve) => {
          const answers: PreviewAnswer[] = [];
          worker.addEventListener("message", ({ data }: MessageEvent<PreviewAnswer>) => {
            answers.push(data);
            const last = asked.at(-1)!.others === undefined ? "stated" : "judged";
            if (
              data.id === asked.length &&
              ("message" in data || (last in data && "trials" in data && data.trials === most))
            )
              resolve(answers);
          });
          asked.forEach((question, i) => worker.postMessage({ id: i + 1, others: [], ...question }, []));
        });
      },
      [questions, REFINED_TRIALS] as const,
    );
  }

  test.each(CASES)(
    "%s: both previews are, bit for bit, what the engine gives for as many trials of the seed",
    LONG,
    async (id) => {
      const document = readExample(id);
      const [computed, ...others] = await ask([
        { stated: document, changed: change(document), others: [change(document), { ...document, inputs: {} }] },
      ]);
      const answers = others.filter((one) => "stated" in one) as Previews[];
      const judged = others.filter((one) => "judged" in one) as JudgedOthers[];
      // What is computed without trials comes first, and is what a record of the engine has.
      const { stated: own, changed: other, others: keptOnes } = (computed as Computed).computed;
      // A kept change that cannot be computed leaves the others.
      expect(keptOnes[1]).toBeNull();
      for (const [found, run] of [
        [own, engineRun(document, FIRST_TRIALS)],
        [other!, engineRun(change(document), FIRST_TRIALS)],
        [keptOnes[0]!, engineRun(change(document), FIRST_TRIALS)],
      ] as const) {
        for (const [name, { linear, linearised }] of Object.entries(found)) {
          expect(linear.interval).toEqual(run[name]!.linear.interval);
          const { sentence: _, ...figures } = run[name]!.linearised!;
          expect(linearised).toEqual("decisive" in figures ? { ...figures, decisive: null } : figures);
        }
      }
      expect(answers.map(({ trials }) => trials)).toEqual([FIRST_TRIALS, REFINED_TRIALS]);
      for (const { trials, stated, changed } of answers) {
        expect(kept(stated)).toEqual(kept(engineRun(document, trials)));
        expect(kept(changed!)).toEqual(kept(engineRun(change(document), trials)));
      }
      // The kept changes are drawn too, those that can be.
      expect(judged.map(({ trials }) => trials)).toEqual([FIRST_TRIALS, REFINED_TRIALS]);
      judged.forEach(({ judged: [one, none] }, i) => {
        expect(kept(one!)).toEqual(kept(answers[i]!.changed!));
        expect(none).toBeNull();
      });
    },
  );

  test("a newer question takes the place of one that waits", LONG, async () => {
    const document = readExample("harrowfen/steriliser-134");
    const answers = await ask(
      [1, 2, 3, 4].map((changed) => ({ stated: document, changed: changed === 4 ? null : change(document) })),
    );
    expect(answers.filter(({ id }) => id === 4)).toHaveLength(3);
    expect(answers.filter(({ id }) => id === 2 || id === 3)).toEqual([]);
    expect((answers.at(-1) as Previews).changed).toBeNull();
  });

  test("a study that cannot be used is told with its place", LONG, async () => {
    const document = readExample("harrowfen/steriliser-134");
    const [answer] = await ask([{ stated: document, changed: { ...document, inputs: {} } }]);
    expect(answer).toMatchObject({
      id: 1,
      problems: expect.arrayContaining([expect.objectContaining({ place: "inputs.probeResistance" })]) as unknown,
    });
  });

  test("the page records how long the first answer took, from a width that is taken to its frame", LONG, async () => {
    const run = it.server.addFinished("harrowfen/pasteuriser-72");
    await it.page.goto(`${it.home}#run=${run}`);
    await it.page.locator("#try-open").click();
    await it.page.locator("#preview-table").waitFor();
    const count = (): Promise<number> =>
      it.page.evaluate(() => performance.getEntriesByName("what-if answer", "measure").length);
    await it.page.waitForFunction(() => performance.getEntriesByName("what-if answer", "measure").length === 1);
    await it.page.locator("#try-width-bathAxial").focus();
    await it.page.keyboard.type("×1.1");
    await it.page.keyboard.press("Enter");
    await it.page.waitForFunction(() => performance.getEntriesByName("what-if answer", "measure").length === 2);
    await it.page.locator("#preview-mark", { hasText: "200 000 trials" }).waitFor();
    // Refining is not a first answer.
    expect(await count()).toBe(2);
  });
});
