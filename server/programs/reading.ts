import type { Expression, Pattern, Statement, VariableDeclaration } from "acorn";
import type { Step, Value } from "../../engine/internal.ts";
import type { ModuleScope } from "./module-scope.ts";
import { notAProgram, NotAProgram, type FunctionNode, type Known, type Names } from "./values.ts";

/** One call of a function while it is read in place. */
export interface Frame {
  /** Names that the function assigns to after their declaration. */
  readonly assigned: ReadonlySet<string>;
  /** Block that a `return` leaves, where it stands in something that a trial decides. */
  readonly block: number;
  /** Whether a step leaves that block. */
  left: boolean;
  /** What the function returns: read from locals, if there is more than one `return`. */
  result: Known | null;
  /** How many ifs and loops that a trial decides are open. */
  depth: number;
  /** Blocks that `break` and `continue` leave, of the innermost loop. */
  loop: { readonly end: number; readonly next: number } | null;
}

export interface Apart<T> {
  readonly steps: Step[];
  readonly found: T;
}

/** Whether what follows a statement is reached. */
export type Onward = "on" | "left";

/** The state of reading one model, and the ways of reading, which call each other. */
export interface Reading {
  readonly scope: ModuleScope;
  readonly tables: number[][];
  /** Functions that are being read in place, from the outermost. */
  readonly open: FunctionNode[];
  /** The double that a scratch array was last set to, by the array's memory. */
  readonly words: Map<ArrayBufferLike, Known>;
  local(): number;
  block(): number;
  step(step: Step): void;
  /** What `read` adds, as steps of their own. */
  apart<T>(read: () => T): Apart<T>;
  /**
   * The same for a way that only some trials take; `null` if it is no part of a program, so that such a trial is left to
   * the plain path.
   */
  branch<T>(frame: Frame, read: () => T): Apart<T> | null;
  /** Locals that are assigned to more than once. */
  readonly variables: Set<number>;
  /** The same value, computed once and kept as it is now. */
  settled(known: Known): Known;
  value(expression: Expression, names: Names, frame: Frame): Known;
  run(statement: Statement | VariableDeclaration, names: Names, frame: Frame): Onward;
  call(node: FunctionNode, names: Names, operands: readonly Known[]): Known;
  /** Gives the names of a pattern their values. */
  bind(pattern: Pattern, value: Known, names: Names, frame: Frame): void;
}

/** Most steps of a program: what is longer takes longer to compile than it saves. */
const MOST_STEPS = 20_000;

/** What a reading counts and collects, and what is collected in the end. */
export interface Collector {
  readonly reading: Pick<
    Reading,
    "tables" | "open" | "words" | "variables" | "local" | "block" | "step" | "apart" | "branch" | "settled"
  >;
  locals(): number;
  steps(): readonly Step[];
}

/** @param tables where tables are collected */
export function collector(tables: number[][]): Collector {
  let locals = 0;
  let blocks = 0;
  let steps: Step[] = [];
  let count = 0;
  const open: FunctionNode[] = [];
  const words = new Map<ArrayBufferLike, Known>();
  const variables = new Set<number>();
  const step = (added: Step): void => {
    count += 1;
    if (count > MOST_STEPS) notAProgram("too many steps");
    steps.push(added);
  };
  const keep = (value: Value): number => {
    const local = locals++;
    step({ step: "set", local, value });
    return local;
  };
  const apart = <T>(read: () => T): Apart<T> => {
    const outer = steps;
    steps = [];
    const own = steps;
    try {
      return { found: read(), steps: own };
    } finally {
      steps = outer;
    }
  };
  const settled = (known: Known): Known => {
    switch (known.kind) {
      case "number": {
        const { node } = known;
        const still =
          node.op === "number" ||
          (node.op === "input" && node.otherwise === null) ||
          (node.op === "local" && !variables.has(node.local));
        return still ? known : { kind: "number", node: { op: "local", local: keep(node) } };
      }
      case "whole":
        return known.node.op === "wholeLocal"
          ? known
          : { ...known, node: { op: "wholeLocal", local: keep(known.node) } };
      case "condition":
        return known.node.op === "conditionLocal"
          ? known
          : { kind: "condition", node: { op: "conditionLocal", local: keep(known.node) } };
      case "fields":
        return { kind: "fields", fields: new Map([...known.fields].map(([name, of]) => [name, settled(of)])) };
      case "list":
        return { kind: "list", items: known.items.map((of) => settled(of)) };
      default:
        return known;
    }
  };
  return {
    reading: {
      tables,
      open,
      words,
      variables,
      local: () => locals++,
      block: () => blocks++,
      step,
      apart,
      branch(frame, read) {
        const before = new Map(words);
        const opened = open.length;
        frame.depth += 1;
        try {
          return apart(read);
        } catch (error) {
          if (!(error instanceof NotAProgram)) throw error;
          open.length = opened;
          return null;
        } finally {
          frame.depth -= 1;
          // What only some trials wrote is not known behind it.
          const written = [...words].filter(([buffer, known]) => before.get(buffer) !== known);
          for (const [buffer] of written) before.delete(buffer);
          words.clear();
          for (const [buffer, known] of before) words.set(buffer, known);
        }
      },
      settled,
    },
    locals: () => locals,
    steps: () => steps,
  };
}
