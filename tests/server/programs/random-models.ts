import { mersenneTwister } from "../../../engine/random/mersenne-twister.ts";

/** Uniform random numbers with a fixed seed. */
export function randomly(seed: string): () => number {
  const { uniform } = mersenneTwister.open(seed, "programs")(0).sequence(0, 0);
  return uniform;
}

const FUNCTIONS = ["exp", "ln", "log10", "log1p", "expm1", "sin", "cos", "tan", "asin", "acos", "atan", "sinh", "cosh"];
const MORE = ["tanh", "cbrt"];
const PAIRS = ["pow", "atan2", "hypot"];
export const NAMES = ["a", "b", "c"] as const;

/** Text of a model's function of a, b and c: straight lines, choices, loops, early returns. */
export function randomBody(random: () => number): string {
  const pick = <T>(from: readonly T[]): T => from[Math.floor(random() * from.length)]!;
  const names = NAMES.map((name) => `x.${name}`);
  const constant = (): string => pick(["0", "1", "-1", "0.5", "2", "3.7", "1e-3", "-0.25", "100", "K", "TABLE[2]"]);
  const leaf = (): string => (random() < 0.75 ? pick(names) : constant());
  const test = (depth: number): string => {
    const one = `${value(depth - 1)} ${pick(["<", "<=", ">", ">=", "===", "!=="])} ${value(depth - 1)}`;
    if (random() < 0.7) return one;
    return random() < 0.3 ? `!(${one})` : `(${one} ${pick(["&&", "||"])} ${value(depth - 1)} < ${value(depth - 1)})`;
  };
  const value = (depth: number): string => {
    if (depth <= 0 || random() < 0.15) return leaf();
    const part = (): string => value(depth - 1);
    const kind = random();
    if (kind < 0.5) return `(${part()} ${pick(["+", "-", "*", "/"])} ${part()})`;
    if (kind < 0.56) return `-(${part()})`;
    if (kind < 0.66) return `Math.${pick(["abs", "sqrt", "floor", "ceil", "trunc", "sign"])}(${part()})`;
    if (kind < 0.71) return `Math.${pick(["min", "max"])}(${part()}, ${part()})`;
    if (kind < 0.83) return `e.${pick([...FUNCTIONS, ...MORE])}(${part()})`;
    if (kind < 0.87) return `e.${pick(PAIRS)}(${part()}, ${part()})`;
    if (kind < 0.93) return `(${test(depth)} ? ${part()} : ${part()})`;
    if (kind < 0.95) return `helper(${part()}, ${part()})`;
    if (kind < 0.97) return `TABLE[(${part()} * 3) & 7]`;
    if (kind < 0.985) return `((${part()}) % ${pick(["1", "2", "8"])})`;
    return `(((${part()}) ${pick(["|", "^", "&"])} 5) ${pick([">>", ">>>", "<<"])} 1)`;
  };
  const lines: string[] = [];
  const local = (): void => {
    const name = `v${lines.length}`;
    const kind = random();
    const text = value(3);
    if (kind < 0.5) lines.push(`const ${name} = ${text};`);
    else if (kind < 0.65)
      lines.push(`let ${name} = ${text}; if (${test(2)}) ${name} += ${value(2)}; else ${name} = ${value(1)};`);
    else if (kind < 0.75)
      lines.push(
        `let ${name} = ${text}; for (let i = 0; i < 3; i++) ${name} = ${name} * 0.5 + TABLE[i] * ${value(1)};`,
      );
    else if (kind < 0.85)
      lines.push(
        `let ${name} = 1; let n${name} = 0; while (${name} < Math.abs(${value(1)}) && n${name} < 9) { ${name} *= 1.7; n${name}++; if (${name} === x.b) continue; if (${name} > 50) break; }`,
      );
    else if (kind < 0.93) lines.push(`const ${name} = ${text}; if (${test(2)}) return ${value(2)};`);
    else lines.push(`const { p: ${name} } = { p: ${text}, q: 1 };`);
    names.push(name);
  };
  for (let count = Math.floor(random() * 4); count > 0; count--) local();
  return `${lines.join("\n    ")}\n    return ${value(4)};`;
}

/** Text of a module with these models, by default an array of them. */
export const moduleOf = (bodies: readonly string[]): string => `
import { defineModel, elementary as e } from "trialband";
const K = Math.sqrt(2) + 1e-9;
const TABLE = Float64Array.of(0.5, -1.25, 3, 0, 1e10, -7, 0.1, 2);
function helper(p: number, q: number): number {
  if (p > q) return p - q;
  for (const factor of [0.5, 2]) q = q * factor - p;
  return q;
}
const inputs = { ${NAMES.map((name) => `${name}: { symbol: "${name}", meaning: "${name}", unit: "1" }`).join(", ")} };
const measurands = { y: { symbol: "y", meaning: "y", unit: "1" } };
export default [
${bodies.map((body, i) => `  defineModel({ id: "random-${i}", title: "t", inputs, measurands, evaluate: (x) => {\n    ${body}\n  } }),`).join("\n")}
];
`;

/** Values that lie everywhere a function may change its ways. */
export function randomTrials(random: () => number, count: number): number[][] {
  const special = [
    0,
    -0,
    1,
    -1,
    0.5,
    2,
    -2,
    1e-10,
    -1e-300,
    5e-324,
    1e300,
    -1e18,
    2 ** 31,
    -(2 ** 40),
    0.0625,
    Infinity,
    -Infinity,
    NaN,
  ];
  const one = (): number => {
    const kind = random();
    if (kind < 0.1) return special[Math.floor(random() * special.length)]!;
    if (kind < 0.2) return (random() - 0.5) * 10 ** Math.floor(random() * 30 - 15);
    return (random() - 0.4) * 6;
  };
  return Array.from({ length: count }, () => NAMES.map(one));
}
