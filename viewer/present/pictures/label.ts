import type { Label } from "./scene.ts";

/** A run of a label: words, or a symbol with the words that follow it, which return from its subscript to the line. */
export type Run = { readonly words: string } | { readonly symbol: string; readonly after: string };

export function runsOf(label: Label): Run[] {
  const parts = typeof label === "string" ? [label] : label;
  return parts.flatMap((part, i): Run[] => {
    const [before, next] = [parts[i - 1], parts[i + 1]];
    if (typeof part !== "string") return [{ symbol: part.symbol, after: typeof next === "string" ? next : "" }];
    return typeof before === "object" ? [] : [{ words: part }];
  });
}
