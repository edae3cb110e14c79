import { CODE, doubleBytes, signed, unsigned, VECTOR } from "./wasm-code.ts";

/** Puts the instructions of one function together, and knows how deep in blocks it stands. */
export interface Assembler {
  readonly bytes: number[];
  plain(name: keyof typeof CODE): void;
  vector(name: keyof typeof VECTOR): void;
  /** An instruction on a vector in memory; `lane` for those that take one. */
  memory(name: "load" | "loadSplat64" | "store" | "loadZero64", offset: number): void;
  lane(name: "loadLane64" | "storeLane64", offset: number, lane: number): void;
  /** A lane of 32 bits. */
  extract(lane: number): void;
  shuffle(lanes: readonly number[]): void;
  get(local: number): void;
  set(local: number): void;
  tee(local: number): void;
  whole(value: number): void;
  /** Both lanes of a vector the same double, or its four the same integer. */
  splat(value: number): void;
  splatWhole(value: number): void;
  open(kind: "block" | "loop" | "if" | "ifWhole" | "ifVector"): number;
  /** Goes to the end of an open block (to the beginning of a loop), always or if a 32-bit integer is not 0. */
  leave(block: number, when?: "always" | "if"): void;
  otherwise(): void;
  close(): void;
  /** A new local of this type. */
  local(type: "vector" | "whole"): number;
  /** Types of the locals behind the parameters. */
  readonly locals: readonly ("vector" | "whole")[];
}

/** @param parameters how many locals the function has as its parameters */
export function assembler(parameters: number): Assembler {
  const bytes: number[] = [];
  const locals: ("vector" | "whole")[] = [];
  let depth = 0;
  const vector = (name: keyof typeof VECTOR): void => void bytes.push(0xfd, ...unsigned(VECTOR[name]));
  const numbered = (name: keyof typeof CODE, value: number): void => void bytes.push(...CODE[name], ...unsigned(value));
  const constant = (eight: readonly number[]): void => {
    vector("const");
    bytes.push(...eight, ...eight);
  };
  return {
    bytes,
    locals,
    plain: (name) => void bytes.push(...CODE[name]),
    vector,
    memory(name, offset) {
      vector(name);
      bytes.push(0, ...unsigned(offset));
    },
    lane(name, offset, lane) {
      vector(name);
      bytes.push(0, ...unsigned(offset), lane);
    },
    extract(lane) {
      vector("whole_extract");
      bytes.push(lane);
    },
    shuffle(lanes) {
      vector("shuffle");
      bytes.push(...lanes);
    },
    get: (local) => numbered("get", local),
    set: (local) => numbered("set", local),
    tee: (local) => numbered("tee", local),
    whole: (value) => void bytes.push(...CODE.i32Const, ...signed(value)),
    splat: (value) => constant(doubleBytes(value)),
    splatWhole(value) {
      const four = [value, value >> 8, value >> 16, value >> 24].map((byte) => byte & 255);
      constant([...four, ...four]);
    },
    open(kind) {
      bytes.push(...CODE[kind]);
      depth += 1;
      return depth;
    },
    leave(block, when = "always") {
      numbered(when === "always" ? "br" : "brIf", depth - block);
    },
    otherwise: () => void bytes.push(...CODE.else),
    close() {
      bytes.push(...CODE.end);
      depth -= 1;
    },
    local(type) {
      locals.push(type);
      return parameters + locals.length - 1;
    },
  };
}
