/**
 * Elementary functions whose results are identical, bit for bit, on every machine.
 *
 * ECMAScript leaves the last bits of `Math.log`, `exp`, `sin`, `pow`… to each JavaScript engine, and they differ
 * between engines and versions. Only + − × ÷ and √ (IEEE 754) are the same everywhere. These functions use nothing
 * else, so a record made with them reproduces exactly, bit for bit, anywhere. Models call them in place of `Math.*`.
 *
 * Their error is at most 1 unit in the last place, for most of them little over half a unit. They have the special
 * values of `Math.*` and take about as long. Most use tables computed in integers when the module is loaded
 * (fixed-point.ts). Sines, cosines and tangents above 2^18 radians, or very close to a multiple of π/128, come from the
 * @stdlib port of FreeBSD msun.
 *
 * @module
 */
export { acos } from "./acos.ts";
export { asin } from "./asin.ts";
export { atan } from "./atan.ts";
export { atan2 } from "./atan2.ts";
export { cbrt } from "./cbrt.ts";
export { cos } from "./cos.ts";
export { cosh } from "./cosh.ts";
export { exp } from "./exp.ts";
export { expm1 } from "./expm1.ts";
export { hypot } from "./hypot.ts";
export { ln } from "./ln.ts";
export { log10 } from "./log10.ts";
export { log1p } from "./log1p.ts";
export { pow } from "./pow.ts";
export { sin } from "./sin.ts";
export { sinh } from "./sinh.ts";
export { tan } from "./tan.ts";
export { tanh } from "./tanh.ts";
