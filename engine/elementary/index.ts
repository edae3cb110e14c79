/**
 * Elementary functions with fixed bits.
 *
 * ECMAScript leaves the last bits of `Math.log`, `exp`, `sin`, `pow`… to each JavaScript engine, and they do differ
 * between engines and versions. Only + − × ÷ and √ (IEEE 754) are the same everywhere. These functions are built from
 * those alone, so a record made with them re-runs to the bit anywhere. Models that want that use these, not `Math.*`.
 *
 * They are at most 1 unit of the last place from the true value, most of them little over half a unit, have the special
 * values of `Math.*`, and take about as long. Most rest on tables that are worked out in whole numbers when the module
 * is loaded (fixed-point.ts); sines, cosines and tangents of more than 2^18 radians, or hard by a multiple of π/128, are
 * the @stdlib port of FreeBSD msun.
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
