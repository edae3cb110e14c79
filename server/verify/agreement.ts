import { tQuantile } from "../../engine/internal.ts";
import { showLeaf, type Leaf, type Leaves } from "../record/leaves.ts";

/** A figure that scatters from draw to draw, held against repetitions with other draws. */
export interface ScatteredFigure {
  readonly place: string;
  readonly filed: number;
  /** Mean over the repetitions. */
  readonly repeated: number;
  /** Standard error of the filed figure less that mean, from the spread of the repetitions. */
  readonly standardError: number;
  /** Difference in standard errors. */
  readonly ratio: number;
}

/** A place at which a record does not agree with its repetitions. */
export interface Disagreement {
  readonly place: string;
  readonly filed: string;
  readonly expected: string;
  /** Whether it is a matter of words or of a field that the record lacks, and no figure, verdict or decision. */
  readonly wording: boolean;
}

export interface Agreement {
  readonly disagreements: readonly Disagreement[];
  /** Figures, words and decisions that are the same for all draws: exactly, numbers to 1e-9. */
  readonly same: number;
  /** Verdicts, decisions and sentences that follow from the record's own figures. */
  readonly madeAgain: number;
  readonly scattered: readonly ScatteredFigure[];
  /** The ratio that chance exceeds in one of a thousand records of this many figures. */
  readonly limit: number;
}

/** What a record is held against. */
export interface Evidence {
  /** The repetitions: the record's own study, then the same with other seeds. */
  readonly repetitions: readonly Leaves[];
  /** What follows from the record's own figures. */
  readonly madeAgain: Leaves;
  /** The same with its sentences as earlier versions worded them; without it, today's alone are known. */
  readonly formerly?: Leaves;
  /** Whether the record's format could not hold what stands at this place. */
  readonly lacking: (place: string) => boolean;
}

/** A figure that no draw moves is computed to rounding: other builds round otherwise. */
const ROUNDING = 1e-9;
/** Near 0 a point of a curve is as exact as the largest of its points. */
const ROUNDING_OF_LARGEST = 1e-15;
/** Chance that a record that is as it was filed is refused, shared among its figures (Bonferroni). */
const CHANCE = 0.001;
/** Fewest repetitions with a figure from whose spread it is judged. */
const FEWEST = 3;

/**
 * Holds a record against repetitions with other draws, leaf by leaf, whatever its fields are. No table says which fields
 * scatter: the repetitions show it.
 *
 * - What follows from the record's own figures must be what is made again from them.
 * - What is the same in every repetition must be the same in the record: text exactly, numbers to 1e-9.
 * - A number that differs between repetitions lies within its standard error, found from their spread.
 * - Anything else that differs between them must be as one of them has it.
 */
export function agreementOf(filed: Leaves, { repetitions, madeAgain, formerly, lacking }: Evidence): Agreement {
  const disagreements: Disagreement[] = [];
  const scattered: ScatteredFigure[] = [];
  const families = familiesOf(repetitions);
  let same = 0;
  let followed = 0;
  const places = new Set([filed, madeAgain, ...repetitions].flatMap((leaves) => [...leaves.keys()]));
  for (const place of places) {
    if (lacking(place)) continue;
    const found = filed.get(place);
    const again = repetitions.map((leaves): Leaf | undefined => leaves.get(place));
    const disagree = (expected: string, wording: boolean): void =>
      void disagreements.push({ place, filed: showLeaf(found), expected, wording });
    const following = madeAgain.get(place);
    if (following !== undefined) {
      if (!alike(found, following) && (found === undefined || found !== formerly?.get(place))) {
        disagree(`${showLeaf(following)}, which follows from its other figures`, worded(found, following));
        continue;
      }
      followed += 1;
      if (typeof found !== "number") continue;
    }
    const numbers = again.filter((leaf) => typeof leaf === "number");
    const family = families.get(familyOf(place));
    const rounding = ROUNDING_OF_LARGEST * (family?.largest ?? 0);
    const still = again.every((leaf) => alike(leaf, again[0], rounding));
    const counted = family?.counts === true && family.scatters;
    if (typeof found === "number" && numbers.length >= FEWEST && (!still || counted)) {
      scattered.push(scatteredFigure(place, found, numbers, counted));
      continue;
    }
    if (still ? alike(found, again[0], rounding) : again.includes(found) || family?.words.has(found) === true)
      same += 1;
    else disagree(showLeaf(again[0]), worded(found, again[0]));
  }
  const limit = limitFor(scattered.length, repetitions.length);
  for (const { place, filed: figure, repeated, standardError, ratio } of scattered)
    if (!(Math.abs(ratio) <= limit))
      disagreements.push({
        place,
        filed: String(figure),
        expected: `${repeated} with standard error ${standardError.toPrecision(2)}: ${Math.abs(ratio).toFixed(1)} standard errors apart, at most ${limit.toFixed(1)}`,
        wording: false,
      });
  return { disagreements, same, madeAgain: followed, scattered, limit };
}

/** Whether it is a matter of words, or of a field that the record lacks. What a decision is called by has no space in it. */
const worded = (found: Leaf | undefined, expected: Leaf | undefined): boolean =>
  found === undefined ||
  (isText(found) && (expected === undefined || isText(expected)) && /\s/.test(`${found}${expected}`));

const isText = (leaf: Leaf | undefined): leaf is string => typeof leaf === "string";

/** The same to rounding. */
function alike(a: Leaf | undefined, b: Leaf | undefined, rounding = 0): boolean {
  if (a === b) return true;
  if (typeof a !== "number" || typeof b !== "number") return false;
  return Math.abs(a - b) <= Math.max(rounding, ROUNDING * Math.max(Math.abs(a), Math.abs(b)));
}

/** What leaves with the same place but for their positions in lists have in common. */
interface Family {
  /** Whole numbers throughout. */
  readonly counts: boolean;
  /** Whether any of them differs between repetitions. */
  readonly scatters: boolean;
  /** The largest magnitude in a list; 0 if there is no list. */
  readonly largest: number;
  /** Texts at places that not every repetition has: names in a list as long as it happens to be. */
  readonly words: ReadonlySet<Leaf | undefined>;
}

const familyOf = (place: string): string => place.replace(/(^|\.)\d+(?=\.|$)/g, "$1*");

function familiesOf(repetitions: readonly Leaves[]): ReadonlyMap<string, Family> {
  const families = new Map<
    string,
    { counts: boolean; scatters: boolean; largest: number; words: Set<Leaf | undefined> }
  >();
  const places = new Set(repetitions.flatMap((leaves) => [...leaves.keys()]));
  for (const place of places) {
    const name = familyOf(place);
    const family = families.get(name) ?? { counts: true, scatters: false, largest: 0, words: new Set() };
    families.set(name, family);
    const again = repetitions.map((leaves): Leaf | undefined => leaves.get(place));
    family.counts &&= again.every((leaf) => Number.isSafeInteger(leaf));
    family.scatters ||= again.some((leaf) => !alike(leaf, again[0]));
    if (name !== place)
      for (const leaf of again) if (typeof leaf === "number") family.largest = Math.max(family.largest, Math.abs(leaf));
    if (again.includes(undefined)) again.filter(isText).forEach((leaf) => family.words.add(leaf));
  }
  return families;
}

function scatteredFigure(place: string, filed: number, again: readonly number[], counted: boolean): ScatteredFigure {
  const n = again.length;
  const repeated = again.reduce((sum, value) => sum + value / n, 0);
  const squares = again.reduce((sum, value) => sum + (value - repeated) * (value - repeated), 0);
  // A count that happens to be the same in every repetition scatters all the same, by the law of Poisson.
  const least = counted ? Math.max(1, repeated) : 0;
  const standardError = Math.sqrt(Math.max(squares / (n - 1), least) * (1 + 1 / n));
  const difference = filed - repeated;
  return {
    place,
    filed,
    repeated,
    standardError,
    ratio: difference === 0 ? 0 : difference / standardError,
  };
}

/** The ratio that CHANCE exceeds among this many figures, whose spread is known from this many repetitions. */
const limitFor = (figures: number, repetitions: number): number =>
  -tQuantile(CHANCE / (2 * Math.max(1, figures)), Math.max(1, repetitions - 1));
