/**
 * Elementary functions with fixed bits.
 *
 * ECMAScript leaves the last bits of `Math.log`, `exp`, `sin`, `pow`… to each JavaScript engine, and they do differ
 * between engines and versions. Only + − × ÷ and √ (IEEE 754) are the same everywhere. These functions are built from
 * those alone, so a record made with them re-runs to the bit anywhere. Models that want that use these, not `Math.*`.
 *
 * They are the @stdlib ports of FreeBSD msun and Cephes: at most about 1 ulp from the true value.
 */
import acos from "@stdlib/math-base-special-acos";
import asin from "@stdlib/math-base-special-asin";
import atan from "@stdlib/math-base-special-atan";
import atan2 from "@stdlib/math-base-special-atan2";
import cbrt from "@stdlib/math-base-special-cbrt";
import cos from "@stdlib/math-base-special-cos";
import cosh from "@stdlib/math-base-special-cosh";
import exp from "@stdlib/math-base-special-exp";
import expm1 from "@stdlib/math-base-special-expm1";
import hypot from "@stdlib/math-base-special-hypot";
import ln from "@stdlib/math-base-special-ln";
import log10 from "@stdlib/math-base-special-log10";
import log1p from "@stdlib/math-base-special-log1p";
import pow from "@stdlib/math-base-special-pow";
import sin from "@stdlib/math-base-special-sin";
import sinh from "@stdlib/math-base-special-sinh";
import tan from "@stdlib/math-base-special-tan";
import tanh from "@stdlib/math-base-special-tanh";

export { acos, asin, atan, atan2, cbrt, cos, cosh, exp, expm1, hypot, ln, log10, log1p, pow, sin, sinh, tan, tanh };
