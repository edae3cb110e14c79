const literal = (text: string): string => text.replace(/[.*+?^$()|[\]\\/]/g, String.raw`\$&`);

/**
 * Translates whole texts by a list of phrases: a text that has one, or that fits one with places, each of which must be
 * known too. A place whose name begins with `own` holds any text. `null` for what has no words.
 *
 * @param partOf translates what stands in a place
 */
export function phraseBook(
  phrases: Readonly<Record<string, string>>,
  partOf: (part: string) => string | null,
): (text: string) => string | null {
  /** The longest first, so that the one that says most is taken. */
  const patterns = Object.entries(phrases)
    .filter(([english]) => english.includes("{"))
    .toSorted(([a], [b]) => b.length - a.length)
    .map(([english, translation]) => ({
      pattern: new RegExp(`^${literal(english).replace(/\{(\w+)\}/g, "(?<$1>.+?)")}$`, "u"),
      translation,
    }));
  return (text) => {
    if (Object.hasOwn(phrases, text)) return phrases[text]!;
    for (const { pattern, translation } of patterns) {
      const places = pattern.exec(text)?.groups;
      if (places === undefined) continue;
      const filled = Object.entries(places).map(
        ([name, part]) => [name, name.startsWith("own") ? part : partOf(part)] as const,
      );
      if (filled.some(([, part]) => part === null)) continue;
      const parts = Object.fromEntries(filled);
      return translation.replace(/\{(\w+)\}/g, (_, name: string) => parts[name]!);
    }
    return null;
  };
}
