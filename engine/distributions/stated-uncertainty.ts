import type * as z from "zod";
import { refuse } from "../errors.ts";
import { number, positive } from "./distribution.ts";
import { normalQuantile } from "../numerics/standard-normal.ts";
import { tQuantile } from "../numerics/standard-t.ts";
import { inUnit, ofOne } from "./field-unit.ts";

/**
 * An uncertainty as certificates state it: a standard uncertainty, or an expanded one with its coverage factor k or
 * its coverage probability (JCGM 100, 4.3.3 and 4.3.4).
 */
export const uncertaintyFields = {
  standardUncertainty: positive().optional().meta(inUnit("Standard uncertainty u")),
  expandedUncertainty: positive().optional().meta(inUnit("Expanded uncertainty U")),
  coverageFactor: positive().optional().meta(ofOne("Coverage factor k stated with U")),
  coverageProbability: number().gt(0).lt(1).optional().meta(ofOne("Coverage probability stated with U")),
};

type Stated = { readonly [F in keyof typeof uncertaintyFields]: z.output<(typeof uncertaintyFields)[F]> };

/**
 * The standard uncertainty from either form.
 *
 * @param degreesOfFreedom those of the stated uncertainty: with a coverage probability, k is the quantile of t
 * @throws {InputError}
 */
export function readUncertainty(stated: Partial<Stated>, place: string, degreesOfFreedom = Infinity): number {
  const { standardUncertainty, expandedUncertainty, coverageFactor, coverageProbability } = stated;
  if (standardUncertainty !== undefined) {
    for (const field of ["expandedUncertainty", "coverageFactor", "coverageProbability"] as const) {
      if (stated[field] !== undefined) {
        refuse(`${place}.${field}`, stated[field], "nothing, since standardUncertainty is given");
      }
    }
    return standardUncertainty;
  }
  if (expandedUncertainty === undefined) {
    return refuse(
      `${place}.standardUncertainty`,
      undefined,
      "a number greater than 0: give standardUncertainty, or expandedUncertainty with coverageFactor or coverageProbability",
    );
  }
  if ((coverageFactor === undefined) === (coverageProbability === undefined)) {
    return refuse(
      `${place}.coverageFactor`,
      coverageFactor,
      "exactly one of coverageFactor and coverageProbability, as the certificate states with U",
    );
  }
  if (coverageFactor !== undefined) return expandedUncertainty / coverageFactor;
  const upper = (1 + coverageProbability!) / 2;
  return (
    expandedUncertainty / (degreesOfFreedom === Infinity ? normalQuantile(upper) : tQuantile(upper, degreesOfFreedom))
  );
}
