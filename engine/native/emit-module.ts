import { assembler, type Assembler } from "./assembler.ts";
import { emitSteps } from "./emit-steps.ts";
import { emitNumeric, type Emission } from "./emit-values.ts";
import type { Program } from "./program.ts";
import { asciiName, list, section, unsigned } from "./wasm-code.ts";

/** What every module begins with: a zero and "asm", version 1. */
const MAGIC = [0x00, 0x61, 0x73, 0x6d, 0x01, 0x00, 0x00, 0x00];
const I32 = 0x7f;
const V128 = 0x7b;
const DOUBLE = 8;
const PAIR = 16;

/**
 * A module of WebAssembly with one function, `run(count, inputs…, outputs…)`, which takes the addresses of columns and
 * runs a program over `count` trials.
 *
 * Two trials go through it at once, one in each lane of a vector, as long as they take the same way through the program.
 * Where they do not, each goes by itself, in both lanes. A trial that does not go through the program gets NaN. The
 * function returns 1 if any output is not finite, else 0.
 *
 * @param inputs names of the inputs in the order of their columns
 * @param measurands names in the order of theirs
 * @param tables addresses of the program's tables in the memory that is imported
 */
export function moduleOf(
  program: Program,
  inputs: readonly string[],
  measurands: readonly string[],
  tables: readonly number[],
): Uint8Array<ArrayBuffer> {
  const parameters = 1 + inputs.length + measurands.length;
  const code = assembler(parameters);
  emitRun(code, program, inputs, measurands, tables);
  const kinds = code.locals.map((type) => [1, type === "vector" ? V128 : I32]);
  const body = [...list(kinds), ...code.bytes, 0x0b];
  return Uint8Array.from([
    ...MAGIC,
    ...section(1, list([[0x60, ...list(Array.from({ length: parameters }, () => [I32])), ...list([[I32]])]])),
    ...section(2, list([[...asciiName("kernel"), ...asciiName("memory"), 0x02, 0x00, 0x01]])),
    ...section(3, list([[0]])),
    ...section(7, list([[...asciiName("run"), 0x00, 0x00]])),
    ...section(10, list([[...unsigned(body.length), ...body]])),
  ]);
}

function emitRun(
  code: Assembler,
  program: Program,
  inputs: readonly string[],
  measurands: readonly string[],
  tables: readonly number[],
): void {
  const count = 0;
  const inputAddress = (i: number): number => 1 + i;
  const outputAddress = (i: number): number => 1 + inputs.length + i;
  const at = code.local("whole");
  const end = code.local("whole");
  // 0 for two trials at once; 1 for one trial in both lanes.
  const single = code.local("whole");
  const bad = code.local("vector");
  const address = (column: number): void => {
    code.get(column);
    code.get(at);
    code.plain("i32Add");
  };
  const values = inputs.map(() => code.local("vector"));
  const results = measurands.map(() => code.local("vector"));
  const emission = (giveUp: number): Emission => ({
    code,
    program,
    take: emitSteps,
    inputs: new Map(inputs.map((name, i) => [name, values[i]!])),
    tables,
    giveUp,
    locals: Array.from({ length: program.locals }, () => code.local("vector")),
    blocks: new Map(),
    words: [code.local("whole"), code.local("whole")],
    mask: code.local("vector"),
  });

  code.get(count);
  code.whole(3);
  code.plain("i32Shl");
  code.set(end);
  const trials = code.open("loop");
  {
    const done = code.open("block");
    const giveUp = code.open("block");
    {
      // A last trial without a second goes alone.
      code.get(at);
      code.whole(PAIR);
      code.plain("i32Add");
      code.get(end);
      code.plain("i32GreaterU");
      code.get(single);
      code.plain("i32Or");
      code.tee(single);
      code.open("if");
      inputs.forEach((_, i) => {
        address(inputAddress(i));
        code.memory("loadSplat64", 0);
        code.set(values[i]!);
      });
      code.otherwise();
      inputs.forEach((_, i) => {
        address(inputAddress(i));
        code.memory("load", 0);
        code.set(values[i]!);
      });
      code.close();
      const to = emission(giveUp);
      emitSteps(to, program.body);
      measurands.forEach((name, i) => {
        emitNumeric(to, program.outputs[name]!);
        code.set(results[i]!);
      });
      for (const result of results) {
        code.get(bad);
        code.get(result);
        code.get(result);
        code.vector("sub");
        code.splat(0);
        code.vector("ne");
        code.vector("or");
        code.set(bad);
      }
      code.get(single);
      code.plain("i32Eqz");
      code.open("if");
      results.forEach((result, i) => {
        address(outputAddress(i));
        code.get(result);
        code.memory("store", 0);
      });
      next(PAIR);
      code.leave(done);
      code.close();
      results.forEach((result, i) => {
        address(outputAddress(i));
        code.get(result);
        code.lane("storeLane64", 0, 0);
      });
      next(DOUBLE);
      code.leave(done);
    }
    code.close();
    // Given up: two trials go on one by one, one is left to the plain path.
    code.get(single);
    code.open("if");
    results.forEach((_, i) => {
      address(outputAddress(i));
      code.splat(Number.NaN);
      code.lane("storeLane64", 0, 0);
    });
    code.splatWhole(-1);
    code.set(bad);
    next(DOUBLE);
    code.otherwise();
    code.whole(1);
    code.set(single);
    code.close();
    code.close();
  }
  code.get(at);
  code.get(end);
  code.plain("i32LessU");
  code.leave(trials, "if");
  code.close();
  code.get(bad);
  code.vector("anyTrue");

  /** Goes on by so many bytes; the second of two trials that go one by one is the last that does. */
  function next(bytes: number): void {
    code.get(at);
    code.whole(bytes);
    code.plain("i32Add");
    code.tee(at);
    code.whole(DOUBLE);
    code.plain("i32And");
    code.get(single);
    code.plain("i32And");
    code.whole(0);
    code.plain("i32GreaterU");
    code.set(single);
  }
}
