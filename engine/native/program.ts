/**
 * A model as a program: what its function does to numbers, with everything that is known beforehand already done. Plain
 * data, which a build can keep. Each node means what ECMAScript does, bit for bit.
 */
export interface Program {
  /** Number of locals of the body. */
  readonly locals: number;
  readonly body: readonly Step[];
  /** Value of each measurand after the body. */
  readonly outputs: Readonly<Record<string, Numeric>>;
  /** What `table` reads. */
  readonly tables: readonly (readonly number[])[];
  /** What `call` calls. */
  readonly functions: readonly ProgramFunction[];
}

/** A function of numbers, with locals of its own; the first of them are its parameters. */
export interface ProgramFunction {
  readonly parameters: number;
  readonly locals: number;
  readonly body: readonly Step[];
  readonly result: Numeric;
}

export type BinaryOperation = "add" | "sub" | "mul" | "div" | "min" | "max";
export type UnaryOperation = "neg" | "abs" | "sqrt" | "floor" | "ceil" | "trunc";
export type Comparison = "eq" | "ne" | "lt" | "le" | "gt" | "ge";

export type Numeric =
  | { readonly op: "number"; readonly value: number }
  | { readonly op: "local"; readonly local: number }
  /** An input; `otherwise` where the study leaves it out. */
  | { readonly op: "input"; readonly name: string; readonly otherwise: Numeric | null }
  | { readonly op: "table"; readonly table: number; readonly at: Whole }
  | { readonly op: UnaryOperation; readonly of: Numeric }
  | { readonly op: BinaryOperation; readonly left: Numeric; readonly right: Numeric }
  /** The remainder of a division by a power of two, 1 or greater. */
  | { readonly op: "remainder"; readonly of: Numeric; readonly by: number }
  | { readonly op: "choose"; readonly test: Condition; readonly yes: Numeric; readonly no: Numeric }
  /** A 32-bit integer as a number, with its sign or without. */
  | { readonly op: "signed" | "unsigned"; readonly of: Whole }
  | { readonly op: "call"; readonly called: number; readonly operands: readonly Numeric[] };

/** 32 bits, as the operators of ECMAScript on bits take them. */
export type Whole =
  | { readonly op: "whole"; readonly value: number }
  | { readonly op: "wholeLocal"; readonly local: number }
  /** ToInt32. */
  | { readonly op: "toWhole"; readonly of: Numeric }
  /** An index; a number that is none ends the native path for that trial, unless it is known to be whole. */
  | { readonly op: "index"; readonly of: Numeric; readonly whole: boolean }
  /** One word of a double: 1 is the high one. */
  | { readonly op: "word"; readonly which: 0 | 1; readonly of: Numeric }
  | { readonly op: "and" | "or" | "xor" | "plus" | "minus"; readonly left: Whole; readonly right: Whole }
  | { readonly op: "shl" | "shr" | "shru"; readonly of: Whole; readonly by: number };

export type Condition =
  | { readonly op: "conditionLocal"; readonly local: number }
  | { readonly op: Comparison; readonly left: Numeric; readonly right: Numeric }
  /** Object.is */
  | { readonly op: "same"; readonly left: Numeric; readonly right: Numeric }
  | { readonly op: "both" | "either"; readonly left: Condition; readonly right: Condition }
  | { readonly op: "not"; readonly of: Condition };

export type Value = Numeric | Whole | Condition;

export type Step =
  | { readonly step: "set"; readonly local: number; readonly value: Value }
  | {
      readonly step: "if";
      readonly test: Condition;
      readonly yes: readonly Step[];
      readonly no: readonly Step[];
    }
  /** Steps that `leave` with the same number ends; a `repeat` begins anew at its end, and a block about it ends it. */
  | { readonly step: "block" | "repeat"; readonly block: number; readonly body: readonly Step[] }
  | { readonly step: "leave"; readonly block: number }
  /** What is no part of a program, such as an exception: the trial is left to the plain path. */
  | { readonly step: "giveUp" };
