/** The circles among files, each as its files in the order of their imports; imports of types count too. */
export function circles(of: ReadonlyMap<string, readonly string[]>): string[] {
  const found: string[] = [];
  const done = new Set<string>();
  const walk = (file: string, path: readonly string[]): void => {
    const before = path.indexOf(file);
    if (before >= 0) {
      found.push([...path.slice(before), file].join(" → "));
      return;
    }
    if (done.has(file)) return;
    for (const next of of.get(file) ?? []) walk(next, [...path, file]);
    done.add(file);
  };
  for (const file of of.keys()) walk(file, []);
  return found;
}

/** The nodes that a walk along the edges leads back to. */
export function onCircles(graph: ReadonlyMap<string, ReadonlySet<string>>): string[] {
  const reached = (from: string): Set<string> => {
    const seen = new Set<string>();
    const open = [...(graph.get(from) ?? [])];
    for (let next = open.pop(); next !== undefined; next = open.pop()) {
      if (seen.has(next)) continue;
      seen.add(next);
      open.push(...(graph.get(next) ?? []));
    }
    return seen;
  };
  return [...graph.keys()].filter((node) => reached(node).has(node)).toSorted();
}
