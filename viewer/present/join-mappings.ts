import type { StatedMapping } from "../../models/index.ts";

type Entries<V> = Readonly<Record<string, V>> | undefined;

const both = <V extends object>(a: Entries<V>, b: Entries<V>): Readonly<Record<string, V>> =>
  Object.fromEntries(
    [...new Set([...Object.keys(a ?? {}), ...Object.keys(b ?? {})])].map((key) => [
      key,
      { ...a?.[key], ...b?.[key] } as V,
    ]),
  );

/** Statements about a table's layout with more of them: later ones replace earlier ones, field by field. */
export function joinMappings(first: StatedMapping, then: StatedMapping): StatedMapping {
  const { columns, rows, cells, ...rest } = then;
  return {
    ...first,
    ...rest,
    ...(columns === undefined ? {} : { columns: both(first.columns, columns) }),
    ...(rows === undefined ? {} : { rows: both(first.rows, rows) }),
    ...(cells === undefined ? {} : { cells: { ...first.cells, ...cells } }),
  };
}
