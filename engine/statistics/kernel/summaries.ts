import { wasmExports, type WasmMemory } from "../../numerics/wasm-module.ts";
import { SUMMARIES_BYTES } from "./summaries-bytes.ts";

/** What the module in summaries.wat exports. Addresses are in bytes, counts of values even. */
export interface Summaries {
  readonly memory: WasmMemory;
  /** Finds the bins of the values at `VALUES`. @returns Σ (value − shift) */
  bin(count: number, low: number, density: number, last: number, shift: number): number;
  /** Puts the values at `BINNED` in the order of the bins found, and Σ (value − mean)^k, k = 1 to 4, at 0. */
  arrange(count: number, bins: number, mean: number): void;
  whiten(
    column: number,
    mean: number,
    out: number,
    others: number,
    stride: number,
    weights: number,
    earlier: number,
    scale: number,
    sums: number,
    count: number,
  ): void;
  /** @returns Σ (a − shiftA)·(b − shiftB) of two columns */
  products(a: number, shiftA: number, b: number, shiftB: number, count: number): number;
  raise(column: number, mean: number, scale: number, greatest: number, count: number): void;
  /** Writes the values from `low` to `high` to `between`; their end is the first word. @returns how many are below `low` */
  gather(values: number, count: number, low: number, high: number, between: number): number;
  mesh(
    a: number,
    b: number,
    count: number,
    counts: number,
    cells: number,
    lowA: number,
    scaleA: number,
    lowB: number,
    scaleB: number,
  ): void;
}

/** Places in the memory, as in summaries.wat. */
export const COUNTS = 64;
export const VALUES = 98_304;
export const BINNED = 425_984;
export const JOINT = 753_664;
/** Most values that are binned at once, and most bins. */
export const MOST_VALUES = 40_960;
export const MOST_BINS = 8192 - COUNTS;

const PAGE = 65_536;

/** Makes the memory as long as this. Arrays over it are to be made anew. */
export function haveBytes({ memory }: Summaries, bytes: number): void {
  const short = bytes - memory.buffer.byteLength;
  if (short > 0) memory.grow(Math.ceil(short / PAGE));
}

let opened: Summaries | null | undefined;

/** This thread's instance; `null` where the plain loops have to do, which give identical bits. */
export const summariesOfThread = (): Summaries | null => (opened ??= wasmExports(SUMMARIES_BYTES) as Summaries | null);
