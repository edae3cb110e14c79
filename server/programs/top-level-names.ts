/** A statement begins where a line does; the bundler indents what continues it, but for closing brackets. */
const STATEMENT = /^(?:export )?(?:async )?(var|let|const|function\*?|class) ?([\w$]*)/gm;

/** Names that a module declares at its top level, with where their statements begin. */
export function topLevelNames(source: string): ReadonlyMap<string, readonly number[]> {
  const found = new Map<string, number[]>();
  const add = (name: string, at: number): void => void found.set(name, [...(found.get(name) ?? []), at]);
  for (const match of source.matchAll(STATEMENT)) {
    const [, keyword, name] = match;
    if (name !== "") add(name!, match.index);
    else if (keyword === "var" || keyword === "const" || keyword === "let") {
      const pattern = /^\w+ \{([^{}=]*)\} = /.exec(source.slice(match.index, match.index + 2000));
      for (const part of pattern?.[1]!.split(",") ?? []) add(part.split(":").at(-1)!.trim(), match.index);
    }
  }
  return found;
}
