import { writeFile, mkdtemp, rm } from "node:fs/promises";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { plainEvaluatorOf } from "../../../engine/evaluator/evaluator.ts";
import type { Model } from "../../../engine/index.ts";
import type { Program } from "../../../engine/internal.ts";
import { nativeRun } from "../../../engine/native/native-run.ts";
import { kernelOfThread, withColumns } from "../../../engine/random/block-generator.ts";
import { moduleScope, programOfModel } from "../../../server/programs/index.ts";
import { ACCESSOR } from "../../../server/programs/module-access.ts";
import { bundleModule } from "../../../server/shelves/bundle.ts";

export interface LoadedModule {
  readonly exported: Readonly<Record<string, unknown>>;
  readonly programOf: (model: Model) => Program | null;
}

/** A module of this text, bundled and loaded as that of a user's own model. */
export async function moduleFrom(text: string): Promise<LoadedModule> {
  const folder = await mkdtemp(join(tmpdir(), "trialband-programs-"));
  try {
    const file = join(folder, "model.ts");
    await writeFile(file, text);
    const { url, source } = await bundleModule(file);
    const exported = await importByHost(url);
    const scope = moduleScope({ source, valueOf: exported[ACCESSOR] as (name: string) => unknown });
    return { exported, programOf: (model) => programOfModel(model, scope) };
  } finally {
    await rm(folder, { recursive: true });
  }
}

/** A module by the host itself: the test runner rewrites the text of what it imports. */
export async function importByHost(url: string): Promise<Readonly<Record<string, unknown>>> {
  const folder = await mkdtemp(join(tmpdir(), "trialband-import-"));
  try {
    const file = join(folder, "import.cjs");
    await writeFile(file, "module.exports = (url) => import(url);");
    const importing = createRequire(import.meta.url)(file) as (url: string) => Promise<Record<string, unknown>>;
    return await importing(url);
  } finally {
    await rm(folder, { recursive: true });
  }
}

export interface Compared {
  /** Trials whose outputs are those of the plain path, bit for bit. */
  readonly equal: number;
  /** Trials that the program left to the plain path, although they have a result. */
  readonly left: number;
  /** Trials with any other output. */
  readonly different: number;
  /** Whether the program said rightly if all outputs are finite. */
  readonly told: boolean;
}

/** Runs a model's program and its plain evaluator over the same trials. `null` if the program cannot be run. */
export function compared(model: Model, program: Program, trials: readonly (readonly number[])[]): Compared | null {
  const inputs = Object.keys(model.inputs);
  const measurands = Object.keys(model.measurands);
  const kernel = kernelOfThread()!;
  const run = nativeRun(kernel, program, inputs, measurands);
  if (run === null) return null;
  const plain = plainEvaluatorOf(model);
  return withColumns(inputs.length, (columns) => {
    inputs.forEach((_, i) => trials.forEach((values, t) => (columns[i]![t] = values[i]!)));
    const native = kernel.outputs(measurands.length);
    const [from, to] = [columns, native].map((arrays) => arrays.map((array) => kernel.addressOf(array)));
    const finite = run(from!, to!, trials.length);
    const one = measurands.map(() => new Float64Array(1));
    let [equal, left, different] = [0, 0, 0];
    trials.forEach((_, t) => {
      const failed = plain(
        columns.map((column) => column.subarray(t, t + 1)),
        one,
        1,
      );
      const results = native.map((array) => array[t]!);
      if (failed >= 0) {
        if (results.every(Number.isFinite)) different += 1;
        else equal += 1;
      } else if (results.every((value, m) => Object.is(value, one[m]![0]))) equal += 1;
      else if (results.every(Number.isNaN)) left += 1;
      else different += 1;
    });
    const all = native.every((array) => array.subarray(0, trials.length).every(Number.isFinite));
    return { equal, left, different, told: finite === all };
  });
}
