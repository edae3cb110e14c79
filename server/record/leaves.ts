/** An empty list or object: emptying one is a change like any other. */
export const NO_ITEMS = Symbol("[]");
export const NO_FIELDS = Symbol("{}");

/** A value of a document that holds no others. */
export type Leaf = string | number | boolean | null | typeof NO_ITEMS | typeof NO_FIELDS;

/** The leaves of a JSON document by their places, such as `measurands.error.linear.interval.0`. */
export type Leaves = ReadonlyMap<string, Leaf>;

/** A dot in a name must not make two places one. */
const segment = (key: string): string => key.replaceAll("~", "~0").replaceAll(".", "~1");

/** Every leaf below a value; what is `undefined` is not there. */
export function leavesOf(document: unknown): Leaves {
  const leaves = new Map<string, Leaf>();
  const visit = (value: unknown, place: string): void => {
    if (value === undefined) return;
    if (typeof value !== "object" || value === null) {
      leaves.set(place, value as Leaf);
      return;
    }
    const entries = Object.entries(value);
    if (entries.length === 0) leaves.set(place, Array.isArray(value) ? NO_ITEMS : NO_FIELDS);
    for (const [key, item] of entries) visit(item, place === "" ? segment(key) : `${place}.${segment(key)}`);
  };
  visit(document, "");
  return leaves;
}

/** A leaf in words. */
export function showLeaf(leaf: Leaf | undefined): string {
  if (leaf === undefined) return "nothing";
  return typeof leaf === "symbol" ? leaf.description! : JSON.stringify(leaf);
}
