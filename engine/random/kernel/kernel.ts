import { wasmExports, type WasmMemory } from "../../numerics/wasm-module.ts";
import { KERNEL_BYTES } from "./kernel-bytes.ts";

/** The kernel's memory, which modules of models import. */
export type KernelMemory = WasmMemory;

/** What the module in kernel.wat exports. Addresses are in bytes. */
interface Exports {
  readonly memory: KernelMemory;
  open(key0: number, key1: number, block: number, tag: number, counter0: number, counter1: number): void;
  uniforms(out: number, count: number, offset: number, scale: number): void;
  /** @returns the number of draws noted for `finishNormal` */
  normals(out: number, count: number, offset: number, scale: number): number;
  /** Terms of 24 bytes from `terms` on, those with a mean up to `away`, all up to `last`. Whole eights are written. */
  weightedSum(out: number, terms: number, away: number, last: number, count: number): void;
  /** Makes gamma variates of the normals at `x`, in twos. @returns the number of draws noted that it leaves to their sequences */
  gammas(x: number, uniforms: number, count: number, c: number, d: number): number;
  /** Makes t variates of the normals at `out`, in twos. */
  students(out: number, gammas: number, count: number, location: number, scale: number, freedom: number): void;
  /** Six sums at `sums` of an even number of trials, and the numbers of those away from the middle. @returns the end of `notes` */
  pairedSums(
    z: number,
    values: number,
    count: number,
    sums: number,
    notes: number,
    origin: number,
    scale: number,
    middleZ: number,
    inZ: number,
    middleV: number,
    inV: number,
  ): number;
  /** Seven sums at `sums` about one endpoint, of the trials from `notes` to before `last`, and those of z in `cells`; `kept` is room for words. */
  pairedEnd(
    notes: number,
    last: number,
    kept: number,
    z: number,
    values: number,
    sums: number,
    cells: number,
    most: number,
    sign: number,
    origin: number,
    scale: number,
    topOfZ: number,
    widthOfZ: number,
    topOfV: number,
    widthOfV: number,
    cellsFrom: number,
    density: number,
    bottomV: number,
    topV: number,
  ): void;
}

/** Addresses of the notes on unfinished draws and of the columns, and the size of a page of memory, as in kernel.wat. */
const NOTES = 8320;
const COLUMNS = 48384;
const PAGE = 65536;

/** Most columns that `outputs` has, and bytes that `keep` gives away: no column moves while a block goes through a model. */
export const MOST_OUTPUTS = 64;
const KEPT_BYTES = 2 ** 22;

export interface Kernel extends Exports {
  /** Address of a column if `array` is one of this kernel's, otherwise −1. */
  addressOf(array: Float64Array): number;
  /** Columns of a block's length; fills write whole fours. The next call may move them: finish with them first. */
  columns(count: number): readonly Float64Array[];
  /** Columns for what a model returns, at most `MOST_OUTPUTS`. They move with the others only. */
  outputs(count: number): readonly Float64Array[];
  /** Takes memory for good, with these numbers in it; nothing moves. @returns their address, or −1 if there is no more room */
  keep(numbers: ArrayLike<number>): number;
  /** Address of a column for temporary use, and its first `count` numbers. */
  readonly scratch: number;
  scratchColumn(count: number): Float64Array;
  /** The notes on unfinished draws. As words, four each: index, layer, …; as doubles, two each: …, position. */
  readonly noteWords: Int32Array;
  readonly noteDoubles: Float64Array;
}

/**
 * The block fills as a WebAssembly module with SIMD. The plain path of block-generator.ts is its reference: a test holds
 * that their numbers are identical, bit for bit, so no result depends on which of them runs.
 *
 * Returns `null` if the host has no WebAssembly with SIMD, or forbids it (a page's content security policy).
 *
 * @param edges edges of the ziggurat's layers
 * @param length doubles in a column
 */
export function openKernel(edges: Float64Array, length: number): Kernel | null {
  const exports = wasmExports(KERNEL_BYTES) as Exports | null;
  if (exports === null) return null; // the plain path gives identical bits
  const { memory, open, uniforms, normals, gammas, students, weightedSum, pairedSums, pairedEnd } = exports;
  // Room for the last whole four.
  const stride = 8 * (4 * Math.ceil(length / 4) + 4);
  let views = viewsOf(memory.buffer);

  function viewsOf(buffer: ArrayBuffer): {
    /** The memory's buffer, which the host takes long to answer with. */
    buffer: ArrayBuffer;
    noteWords: Int32Array;
    noteDoubles: Float64Array;
    scratch: Float64Array;
    columns: Float64Array[];
    outputs: Float64Array[];
  } {
    return {
      buffer,
      noteWords: new Int32Array(buffer, NOTES, 4 * (length + 4)),
      noteDoubles: new Float64Array(buffer, NOTES, 2 * (length + 4)),
      scratch: new Float64Array(buffer, COLUMNS, length),
      columns: [],
      outputs: [],
    };
  }

  const outputsFrom = COLUMNS + stride;
  const keptFrom = outputsFrom + MOST_OUTPUTS * stride;
  const columnsFrom = keptFrom + KEPT_BYTES;
  let kept = 0;
  const column = (from: number, index: number): Float64Array =>
    new Float64Array(views.buffer, from + index * stride, length);
  /** Memory up to this address: a page that nobody writes to takes none of the machine's. */
  function have(bytes: number): void {
    const short = bytes - views.buffer.byteLength;
    if (short <= 0) return;
    memory.grow(Math.ceil(short / PAGE));
    views = viewsOf(memory.buffer);
  }
  have(columnsFrom);
  // Doubled, since positions are on (−½, ½): exact, and so are the products made with them.
  new Float64Array(memory.buffer, 0, edges.length).set(edges.map((edge) => 2 * edge));
  return {
    memory,
    open,
    uniforms,
    normals,
    gammas,
    students,
    weightedSum,
    pairedSums,
    pairedEnd,
    scratch: COLUMNS,
    get noteWords() {
      return views.noteWords;
    },
    get noteDoubles() {
      return views.noteDoubles;
    },
    scratchColumn: (count) => (count === length ? views.scratch : views.scratch.subarray(0, count)),
    addressOf: (array) => (array.buffer === views.buffer ? array.byteOffset : -1),
    columns(count) {
      have(columnsFrom + count * stride);
      const { columns } = views;
      while (columns.length < count) columns.push(column(columnsFrom, columns.length));
      return columns.slice(0, count);
    },
    outputs(count) {
      const { outputs } = views;
      while (outputs.length < count) outputs.push(column(outputsFrom, outputs.length));
      return outputs.slice(0, count);
    },
    keep(numbers) {
      const bytes = 8 * numbers.length;
      if (kept + bytes > KEPT_BYTES) return -1;
      const address = keptFrom + kept;
      kept += bytes;
      new Float64Array(views.buffer, address, numbers.length).set(numbers);
      return address;
    },
  };
}
