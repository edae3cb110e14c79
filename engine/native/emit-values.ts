import type { Assembler } from "./assembler.ts";
import type { Condition, Numeric, Program, Step, Whole } from "./program.ts";

/** What the instructions of a program are made with. Each local of a program is a vector: a double, 32 bits or a condition a lane. */
export interface Emission {
  readonly code: Assembler;
  readonly program: Program;
  /** Takes the steps of a function. */
  readonly take: (to: Emission, steps: readonly Step[]) => void;
  /** Locals with the inputs' values by name. */
  readonly inputs: ReadonlyMap<string, number>;
  /** Addresses of the tables. */
  readonly tables: readonly number[];
  /** The block whose end is for trials that do not go on together, or not at all. */
  readonly giveUp: number;
  /** The assembler's locals by the program's, here those of one function. */
  readonly locals: readonly number[];
  /** Open blocks of the program by their numbers. */
  readonly blocks: Map<number, number>;
  /** Two 32-bit integers and a vector for temporary use. */
  readonly words: readonly [number, number];
  readonly mask: number;
}

/** A program that cannot be emitted for this list of inputs. */
export class NotEmitted extends Error {}

const TWO_32 = 2 ** 32;
const HIGH_WORDS = [4, 5, 6, 7, 12, 13, 14, 15, 4, 5, 6, 7, 12, 13, 14, 15];
const LOW_WORDS = [0, 1, 2, 3, 8, 9, 10, 11, 0, 1, 2, 3, 8, 9, 10, 11];

/** Leaves a vector of two doubles. */
export function emitNumeric(to: Emission, node: Numeric): void {
  const { code } = to;
  switch (node.op) {
    case "number":
      return code.splat(node.value);
    case "local":
      return code.get(to.locals[node.local]!);
    case "input": {
      const local = to.inputs.get(node.name);
      if (local !== undefined) return code.get(local);
      if (node.otherwise === null) throw new NotEmitted(`no input ${node.name}`);
      return emitNumeric(to, node.otherwise);
    }
    case "table":
      return emitTable(to, node.table, node.at);
    case "signed":
    case "unsigned":
      emitWhole(to, node.of);
      return code.vector(node.op === "signed" ? "fromSigned" : "fromUnsigned");
    case "choose":
      return emitChoice(to, node);
    case "remainder":
      return emitRemainder(to, node.of, node.by);
    case "call":
      return emitCall(to, node.called, node.operands);
    case "add":
    case "sub":
    case "mul":
    case "div":
    case "min":
    case "max":
      emitNumeric(to, node.left);
      emitNumeric(to, node.right);
      return code.vector(node.op);
    default:
      emitNumeric(to, node.of);
      return code.vector(node.op);
  }
}

/** x − trunc(x/by)·by, without rounding for a power of two; a zero has the sign of x. */
function emitRemainder(to: Emission, of: Numeric, by: number): void {
  const { code } = to;
  const x = code.local("vector");
  emitNumeric(to, of);
  code.tee(x);
  code.get(x);
  code.splat(1 / by);
  code.vector("mul");
  code.vector("trunc");
  code.splat(by);
  code.vector("mul");
  code.vector("sub");
  code.get(x);
  code.splat(-0);
  code.vector("and");
  code.vector("or");
}

function emitTable(to: Emission, table: number, at: Whole): void {
  const { code, words } = to;
  const { length } = to.program.tables[table]!;
  const address = to.tables[table]!;
  emitWhole(to, at);
  code.tee(to.mask);
  code.extract(0);
  code.tee(words[0]);
  code.whole(length);
  code.plain("i32GreaterEqualU");
  code.get(to.mask);
  code.extract(1);
  code.tee(words[1]);
  code.whole(length);
  code.plain("i32GreaterEqualU");
  code.plain("i32Or");
  code.leave(to.giveUp, "if");
  code.get(words[1]);
  code.whole(3);
  code.plain("i32Shl");
  code.get(words[0]);
  code.whole(3);
  code.plain("i32Shl");
  code.memory("loadZero64", address);
  code.lane("loadLane64", address, 1);
}

/** Leaves a vector whose first two words are the integers. */
export function emitWhole(to: Emission, node: Whole): void {
  const { code } = to;
  switch (node.op) {
    case "whole":
      return code.splatWhole(node.value);
    case "wholeLocal":
      return code.get(to.locals[node.local]!);
    case "word":
      emitNumeric(to, node.of);
      code.tee(to.mask);
      code.get(to.mask);
      return code.shuffle(node.which === 1 ? HIGH_WORDS : LOW_WORDS);
    case "toWhole":
      return emitToWhole(to, node.of);
    case "index":
      return emitIndex(to, node.of, node.whole);
    case "shl":
    case "shr":
    case "shru":
      emitWhole(to, node.of);
      code.whole(node.by);
      return code.vector(node.op);
    default:
      emitWhole(to, node.left);
      emitWhole(to, node.right);
      return code.vector(node.op);
  }
}

/** ToInt32: the whole part, modulo 2^32; exact for every double, and 0 for what is not finite. */
function emitToWhole(to: Emission, of: Numeric): void {
  const { code } = to;
  const whole = code.local("vector");
  emitNumeric(to, of);
  code.vector("trunc");
  code.tee(whole);
  code.get(whole);
  code.splat(1 / TWO_32);
  code.vector("mul");
  code.vector("floor");
  code.splat(TWO_32);
  code.vector("mul");
  code.vector("sub");
  code.vector("toUnsigned");
}

/** Out of range it saturates, which no table is as long as. */
function emitIndex(to: Emission, of: Numeric, whole: boolean): void {
  const { code } = to;
  emitNumeric(to, of);
  if (whole) return code.vector("toSigned");
  const number = code.local("vector");
  code.tee(number);
  code.vector("toSigned");
  code.tee(to.mask);
  code.vector("fromSigned");
  code.get(number);
  code.vector("eq");
  code.vector("allTrue64");
  code.plain("i32Eqz");
  code.leave(to.giveUp, "if");
  code.get(number);
  code.vector("toSigned");
}

/** Leaves a vector with all bits of a lane set where the condition holds. */
export function emitCondition(to: Emission, node: Condition): void {
  const { code } = to;
  switch (node.op) {
    case "conditionLocal":
      return code.get(to.locals[node.local]!);
    case "not":
      emitCondition(to, node.of);
      return code.vector("not");
    case "both":
    case "either":
      if (isCheap(node.right)) {
        emitCondition(to, node.left);
        emitCondition(to, node.right);
        return code.vector(node.op === "both" ? "and" : "or");
      }
      emitTogether(to, node.left);
      code.open("ifVector");
      if (node.op === "both") emitCondition(to, node.right);
      else code.splatWhole(-1);
      code.otherwise();
      if (node.op === "both") code.splatWhole(0);
      else emitCondition(to, node.right);
      return code.close();
    default:
      emitNumeric(to, node.left);
      emitNumeric(to, node.right);
      return code.vector(node.op);
  }
}

/** Leaves a 32-bit integer, 0 unless the condition holds in both lanes. Lanes that differ do not go on together. */
export function emitTogether(to: Emission, node: Condition): void {
  const { code } = to;
  if (node.op === "not") {
    emitTogether(to, node.of);
    return code.plain("i32Eqz");
  }
  if (node.op === "both" || node.op === "either") {
    emitTogether(to, node.left);
    code.open("ifWhole");
    if (node.op === "both") emitTogether(to, node.right);
    else code.whole(1);
    code.otherwise();
    if (node.op === "both") code.whole(0);
    else emitTogether(to, node.right);
    return code.close();
  }
  // One bit a lane, 0 to 3: of 1 and 2, one more has the bit for 2.
  emitCondition(to, node);
  code.vector("bits64");
  code.tee(to.words[0]);
  code.whole(1);
  code.plain("i32Add");
  code.whole(2);
  code.plain("i32And");
  code.leave(to.giveUp, "if");
  code.get(to.words[0]);
}

function emitChoice(to: Emission, { test, yes, no }: Extract<Numeric, { op: "choose" }>): void {
  const { code } = to;
  if (isCheap(yes) && isCheap(no)) {
    emitNumeric(to, yes);
    emitNumeric(to, no);
    emitCondition(to, test);
    return code.vector("bitselect");
  }
  emitTogether(to, test);
  code.open("ifVector");
  emitNumeric(to, yes);
  code.otherwise();
  emitNumeric(to, no);
  code.close();
}

/** The function's steps in place of the call, with locals of their own. */
function emitCall(to: Emission, called: number, operands: readonly Numeric[]): void {
  const { code, program } = to;
  const { locals: count, body, result } = program.functions[called]!;
  const locals = Array.from({ length: count }, () => code.local("vector"));
  operands.forEach((operand, i) => {
    emitNumeric(to, operand);
    code.set(locals[i]!);
  });
  const inside: Emission = { ...to, locals, blocks: new Map() };
  to.take(inside, body);
  emitNumeric(inside, result);
}

/** Instructions that both ways of a choice may take at most to be computed always. */
const MOST_CHEAP = 16;

/** Whether a value costs few instructions, none of which can end the native path. */
const isCheap = (node: Numeric | Condition): boolean => costOf(node) <= MOST_CHEAP;

function costOf(node: Numeric | Condition | Whole): number {
  switch (node.op) {
    case "number":
    case "local":
    case "wholeLocal":
    case "conditionLocal":
    case "whole":
      return 0;
    case "input":
      return node.otherwise === null ? 0 : costOf(node.otherwise);
    case "table":
    case "call":
    case "index":
      return Infinity;
    case "choose":
      return 1 + costOf(node.test) + costOf(node.yes) + costOf(node.no);
    case "div":
    case "sqrt":
      return 5 + ("of" in node ? costOf(node.of) : costOf(node.left) + costOf(node.right));
    case "toWhole":
    case "remainder":
      return 6 + costOf(node.of);
    default:
      return 1 + ("of" in node ? costOf(node.of) : costOf(node.left) + costOf(node.right));
  }
}
