/** The input values of one trial, as a model sees them. */
export type TrialObject = Record<string, number>;

const makers = new Map<string, () => TrialObject>();
/** The same by a model's declaration of its inputs: found without putting the names together. */
const declared = new WeakMap<object, () => TrialObject>();
/** Shapes kept; a process that meets more lists of inputs than this starts again. */
const MOST_SHAPES = 1000;

/**
 * Makes trial objects for a model's inputs, in one shape for one list of names, however often it is asked for.
 *
 * A JavaScript engine compiles a model for the shapes of object it has met, and gives up after four: measured at 10⁶
 * trials of 12 inputs, 28 ms with one shape against 220 ms once the same model had been run with six.
 */
export function trialObjects(inputs: Readonly<Record<string, unknown>>): () => TrialObject {
  const known = declared.get(inputs);
  if (known !== undefined) return known;
  const names = Object.keys(inputs);
  const key = names.join();
  if (makers.size >= MOST_SHAPES) makers.clear();
  const made = makers.get(key) ?? maker(names);
  makers.set(key, made);
  declared.set(inputs, made);
  return made;
}

function maker(names: readonly string[]): () => TrialObject {
  // Names are plain identifiers (defineModel checks), so they can stand in source text. ½ makes each a field of doubles.
  const fields = names.map((name) => `this.${name} = 0.5;`).join(" ");
  try {
    return new Function(
      `"use strict"; class Trial { constructor() { ${fields} } } return () => new Trial();`,
    )() as () => TrialObject;
  } catch (cause) {
    if (!(cause instanceof EvalError)) throw cause;
    // A page that forbids generated code: slower, the same values.
    return () => Object.fromEntries(names.map((name) => [name, 0.5]));
  }
}
