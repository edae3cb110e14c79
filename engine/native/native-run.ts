import { MOST_OUTPUTS, type Kernel, type KernelMemory } from "../random/kernel/kernel.ts";
import { NotEmitted } from "./emit-values.ts";
import { moduleOf } from "./emit-module.ts";
import type { Program } from "./program.ts";
import { placeTables } from "./tables.ts";

/** Runs a program over the first `count` numbers of columns by their addresses. @returns whether all outputs are finite */
export type NativeRun = (inputs: readonly number[], outputs: readonly number[], count: number) => boolean;

/** Greatest numbers of inputs, and of bytes of a module: what is larger takes long to compile. */
const MOST_INPUTS = 500;
const MOST_BYTES = 2 ** 18;

/** Present in every host, but declared by none of TypeScript's libraries without a DOM. */
declare const WebAssembly: {
  readonly Module: new (bytes: Uint8Array) => object;
  readonly Instance: new (
    module: object,
    imports: { readonly kernel: { readonly memory: KernelMemory } },
  ) => { readonly exports: { readonly run: (...addresses: number[]) => number } };
};

/** A program as a module of WebAssembly that works in the kernel's memory; `null` if that is not to be had. */
export function nativeRun(
  kernel: Kernel,
  program: Program,
  inputs: readonly string[],
  measurands: readonly string[],
): NativeRun | null {
  if (inputs.length > MOST_INPUTS || measurands.length > MOST_OUTPUTS) return null;
  if (!measurands.every((name) => Object.hasOwn(program.outputs, name))) return null;
  const tables = placeTables(kernel, program.tables);
  if (tables === null) return null;
  try {
    const bytes = moduleOf(program, inputs, measurands, tables);
    if (bytes.length > MOST_BYTES) return null;
    const { run } = new WebAssembly.Instance(new WebAssembly.Module(bytes), { kernel: { memory: kernel.memory } })
      .exports;
    return (from, to, count) => run(count, ...from, ...to) === 0;
  } catch (error) {
    // A page may forbid it: the plain path gives identical bits.
    if (error instanceof NotEmitted || (error as Error).name === "CompileError") return null;
    throw error;
  }
}
