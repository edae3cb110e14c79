import type { Atoms } from "../distributions/distribution.ts";
import { exp } from "../elementary/index.ts";
import { powerOfTwoAbove } from "../numerics/power-of-two.ts";
import { cellWeights, type CellWeights } from "./cell-weights.ts";
import { atomsDistribution, loneTerm, normalSum, sumOfAtoms, withAtoms } from "./exact-distributions.ts";
import { latticeOf, type Lattice } from "./lattice.ts";
import { latticeDistribution } from "./lattice-distribution.ts";
import { partOf, type LinearTerm, type Part } from "./linear-term.ts";
import { cellFactors, inverseRealTransform, realTransform, type Spectrum } from "./real-transform.ts";
import type { SumDistribution } from "./sum-distribution.ts";

/** Half-width of the lattice, in standard deviations, beyond which nothing of a sum of light tails is left. */
const WIDE = 20;
/** A normal has nothing to speak of beyond this many standard deviations. */
const NORMAL_REACH = 9;
/** Most values of the discrete terms together that are kept one by one, beside continuous terms and alone. */
const MOST_ATOMS_BESIDE = 4096;
const MOST_ATOMS_ALONE = 65_536;
/** exp(−x) for a greater x is below the last digit of anything. */
const NOTHING = 46;

/** Which terms are taken as their normal twins, by place. */
export type Swapped = ReadonlySet<number>;
export const NONE_SWAPPED: Swapped = new Set();

/** How fine the lattice is, and how much wider than usual. */
export interface Fineness {
  readonly cells: number;
  readonly widening: number;
}

/** A sum, with what its error is judged by. */
export interface BuiltSum {
  readonly distribution: SumDistribution;
  /** Cells of the lattice; `null` where the distribution is known in closed form. */
  readonly lattice: Lattice | null;
  /** Σ over terms of the probability beyond the reach, on both sides. */
  readonly cut: number;
  /** Probability found in the guard. */
  readonly guard: number;
}

/** A term on a lattice. */
interface Transformed {
  readonly spectrum: Spectrum;
  readonly cut: CellWeights["cut"];
}

/** Sums of the same terms, any of them stated or as its normal twin. */
export interface SumOfTerms {
  readonly terms: readonly LinearTerm[];
  build(swapped: Swapped, fineness: Fineness): BuiltSum;
}

/**
 * The distribution of Σ d_i of independent terms.
 *
 * Normal terms are one normal, in closed form in the transform; discrete terms are kept as values, or put on the lattice
 * where there are too many; each other term is put on the lattice and transformed once for each lattice, so that a swap of
 * terms costs a product and one inverse transform.
 */
export function sumOfTerms(terms: readonly LinearTerm[]): SumOfTerms {
  const parts = terms.map(partOf);
  const known = new Map<string, (Transformed | undefined)[]>();
  const transformedOn = (lattice: Lattice, frequencies: number): ((i: number) => Transformed) => {
    const key = `${lattice.halfWidth} ${lattice.cells} ${lattice.reach}`;
    let all = known.get(key);
    if (all === undefined) known.set(key, (all = parts.map(() => undefined)));
    return (i) => {
      const found = all[i];
      if (found !== undefined && found.spectrum.re.length >= frequencies) return found;
      const { weights, cut } = cellWeights(parts[i]!, lattice);
      return (all[i] = { spectrum: realTransform(weights, frequencies), cut });
    };
  };
  return {
    terms,
    build(swapped, fineness) {
      let variance = 0;
      let mean = 0;
      const discrete: number[] = [];
      const continuous: number[] = [];
      parts.forEach((part, i) => {
        if (swapped.has(i)) variance += terms[i]!.twin * terms[i]!.twin;
        else if (part.normal) {
          variance += part.standardDeviation * part.standardDeviation;
          mean += part.mean;
        } else if (part.atoms === null) continuous.push(i);
        else discrete.push(i);
      });
      const alone = variance === 0 && continuous.length === 0;
      let atoms: Atoms | null = sumOfAtoms(
        discrete.map((i) => parts[i]!.atoms!),
        alone ? MOST_ATOMS_ALONE : MOST_ATOMS_BESIDE,
      );
      if (atoms === null) {
        continuous.push(...discrete);
        atoms = { values: Float64Array.of(0), probabilities: Float64Array.of(1) };
      } else if (alone) return exactly(atomsDistribution(atoms));
      // The mean of the normal terms, which is 0 as a rule, moves everything.
      const shifted: Atoms = { ...atoms, values: atoms.values.map((value) => value + mean) };
      const still = shifted.values.length === 1 && shifted.values[0] === 0;
      const placed = (sum: SumDistribution): SumDistribution => (still ? sum : withAtoms(sum, shifted));
      if (continuous.length === 0) return exactly(placed(normalSum(Math.sqrt(variance))));
      const [only] = continuous;
      if (continuous.length === 1 && variance === 0 && parts[only!]!.atoms === null)
        return exactly(placed(loneTerm(terms[only!]!)));
      const lattice = latticeFor(
        continuous.map((i) => parts[i]!),
        Math.sqrt(variance),
        fineness,
      );
      const frequencies = frequenciesOf(variance, lattice);
      const found = continuous.map(transformedOn(lattice, frequencies));
      const cells = inverseRealTransform(
        product(
          found.map(({ spectrum }) => spectrum),
          variance,
          lattice,
          frequencies,
        ),
        frequencies,
      );
      const moments = continuous.reduce(
        (sum, i) => ({
          mean: sum.mean + parts[i]!.mean,
          variance: sum.variance + parts[i]!.standardDeviation * parts[i]!.standardDeviation,
        }),
        { mean: 0, variance },
      );
      const sum = latticeDistribution(lattice, cells, {
        mean: moments.mean,
        standardDeviation: Math.sqrt(moments.variance),
      });
      return {
        distribution: placed(sum),
        lattice,
        cut: found.reduce((total, { cut }) => total + cut[0] + cut[1], 0),
        guard: lattice.guarded ? guardOf(cells) : 0,
      };
    },
  };
}

const exactly = (distribution: SumDistribution): BuiltSum => ({ distribution, lattice: null, cut: 0, guard: 0 });

function latticeFor(parts: readonly Part[], normal: number, { cells, widening }: Fineness): Lattice {
  const variance = parts.reduce(
    (sum, { standardDeviation }) => sum + standardDeviation * standardDeviation,
    normal * normal,
  );
  const usual = WIDE * Math.sqrt(variance) * widening;
  const together = parts.reduce(
    (sum, { support }) => sum + Math.max(Math.abs(support[0]), Math.abs(support[1])),
    NORMAL_REACH * normal,
  );
  // A few cells more than the terms reach together, for the neighbours of the outermost.
  const whole = together * (1 + 64 / cells);
  return whole <= usual
    ? latticeOf(powerOfTwoAbove(whole), cells, false)
    : latticeOf(powerOfTwoAbove(usual), cells, true);
}

/** Frequencies whose product is made at once: they and a term's transform there stay in a core's first cache. */
const AT_ONCE = 256;

/** How many frequencies, from 0 on, the normal terms leave anything of. */
function frequenciesOf(variance: number, { cells, halfWidth }: Lattice): number {
  const unit = Math.PI / halfWidth;
  let end = 0;
  for (; end <= cells / 2; end++) {
    const ω = end * unit;
    if ((variance * ω * ω) / 2 > NOTHING) break;
  }
  return end;
}

/** The product of the transforms, with that of the normal terms and of a cell. @param end frequencies that are not 0 */
function product(spectra: readonly Spectrum[], variance: number, lattice: Lattice, end: number): Spectrum {
  const half = lattice.cells / 2;
  const re = new Float64Array(half + 1);
  const im = new Float64Array(half + 1);
  const cell = cellFactors(lattice.cells);
  const unit = Math.PI / lattice.halfWidth;
  for (let k = 0; k < end; k++) {
    const ω = k * unit;
    re[k] = exp(-((variance * ω * ω) / 2)) * cell[k]!;
  }
  for (let from = 0; from < end; from += AT_ONCE) {
    const to = Math.min(end, from + AT_ONCE);
    for (const { re: c, im: d } of spectra) {
      for (let k = from; k < to; k++) {
        const [a, b] = [re[k]!, im[k]!];
        re[k] = a * c[k]! - b * d[k]!;
        im[k] = a * d[k]! + b * c[k]!;
      }
    }
  }
  return { re, im };
}

/** Probability in the outermost sixteenth of either side. */
function guardOf(cells: Float64Array): number {
  const half = cells.length / 2;
  const part = half / 16;
  let sum = 0;
  for (let k = half - part; k < half + part; k++) sum += Math.abs(cells[k]!);
  return sum;
}
