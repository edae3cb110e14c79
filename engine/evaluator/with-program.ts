import type { Model } from "../model.ts";
import { BLOCK_TRIALS } from "../random/block.ts";
import { kernelOfThread } from "../random/block-generator.ts";
import type { Kernel } from "../random/kernel/kernel.ts";
import { nativeRun, type NativeRun } from "../native/native-run.ts";
import { programOf } from "../native/programs.ts";

/**
 * Runs a model over `count` trials: reads the inputs from `columns` and writes the measurands to `outputs`, both one
 * array each in the model's order.
 *
 * @returns the first trial whose outputs are not all finite numbers, or for which the model throws; or −1
 */
export type Evaluator = (columns: readonly Float64Array[], outputs: readonly Float64Array[], count: number) => number;

/** A program is given up if it left more blocks than these to the plain path, and more than a quarter of all. */
const MOST_LEFT = 20;

/** A model's program for one list of inputs. */
interface Native {
  /** Blocks before it is opened. */
  waiting: number;
  run: NativeRun | null;
  /** Whether its values of one block were those of the plain path: a program of another model's text would give others. */
  checked: boolean;
  taken: number;
  left: number;
}

/** By the model's function and the names of its inputs and measurands: the next run goes on where this one ends. */
const natives = new WeakMap<Model["evaluate"], Map<string, Native>>();

function nativeOf(model: Model, after: number): Native {
  let found = natives.get(model.evaluate);
  if (found === undefined) natives.set(model.evaluate, (found = new Map()));
  const names = [...Object.keys(model.inputs), "", ...Object.keys(model.measurands)].join();
  let native = found.get(names);
  if (native === undefined)
    found.set(names, (native = { waiting: after, run: null, checked: false, taken: 0, left: 0 }));
  return native;
}

/**
 * A model's evaluator that goes over to its program once the model has run often, if there is one. Values are those of
 * the plain path, bit for bit: it takes every block again in which an output is not finite, and finds the trial.
 */
export function withProgram(plain: Evaluator, model: Model): Evaluator {
  const provided = programOf(model.evaluate);
  if (provided === undefined) return plain;
  const inputs = Object.keys(model.inputs);
  const measurands = Object.keys(model.measurands);
  const native = nativeOf(model, provided.after);
  const from: Known = { columns: [], addresses: [] };
  const to: Known = { columns: [], addresses: [] };

  const open = (): NativeRun | null => {
    const kernel = kernelOfThread();
    if (kernel === null) return null;
    try {
      const program = provided.program();
      return program === null ? null : nativeRun(kernel, program, inputs, measurands);
    } catch {
      // An expression too deep to be read, for one: no reason to end a run that the plain path can do.
      return null;
    }
  };

  return (columns, outputs, count) => {
    if (native.waiting > 0) {
      native.waiting -= 1;
      if (native.waiting === 0) native.run = open();
    }
    const { run } = native;
    if (run === null || count === 0 || count > BLOCK_TRIALS) return plain(columns, outputs, count);
    const kernel = kernelOfThread()!;
    const results = kernel.outputs(measurands.length);
    if (!addressesIn(kernel, columns, inputs.length, from)) return plain(columns, outputs, count);
    addressesIn(kernel, results, results.length, to);
    native.taken += 1;
    if (run(from.addresses, to.addresses, count)) {
      if (!native.checked) {
        const failed = plain(columns, outputs, count);
        native.checked = failed < 0 && outputs.every((array, i) => equalTo(array, results[i]!, count));
        if (!native.checked) native.run = null;
        return failed;
      }
      for (let i = 0; i < outputs.length; i++)
        outputs[i]!.set(count === BLOCK_TRIALS ? results[i]! : results[i]!.subarray(0, count));
      return -1;
    }
    native.left += 1;
    if (native.left > MOST_LEFT && 4 * native.left > native.taken) native.run = null;
    return plain(columns, outputs, count);
  };
}

/** Columns of the last block, and their addresses: the host takes long to answer where an array lies. */
interface Known {
  readonly columns: Float64Array[];
  readonly addresses: number[];
}

/** Finds the addresses of columns. @returns whether all lie in the kernel's memory */
function addressesIn(kernel: Kernel, columns: readonly Float64Array[], count: number, known: Known): boolean {
  for (let i = 0; i < count; i++) {
    const column = columns[i]!;
    if (known.columns[i] !== column) {
      known.columns[i] = column;
      known.addresses[i] = kernel.addressOf(column);
    }
    if (known.addresses[i]! < 0) return false;
  }
  return true;
}

function equalTo(expected: Float64Array, found: Float64Array, count: number): boolean {
  for (let i = 0; i < count; i++) if (!Object.is(expected[i], found[i])) return false;
  return true;
}
