import { filled } from "../fill.ts";
import type { Label } from "./scene.ts";

/** A run of a label: words, or a symbol with the words that follow it, which return from its subscript to the line. */
export type Run = { readonly words: string } | { readonly symbol: string; readonly after: string };

export function runsOf(label: Label): Run[] {
  const parts = joined(typeof label === "string" ? [label] : label);
  return parts.flatMap((part, i): Run[] => {
    const [before, next] = [parts[i - 1], parts[i + 1]];
    if (typeof part !== "string") return [{ symbol: part.symbol, after: typeof next === "string" ? next : "" }];
    return typeof before === "object" ? [] : [{ words: part }];
  });
}

/** Neighbouring words as one part. */
function joined(parts: Exclude<Label, string>): Exclude<Label, string> {
  const found: (string | { readonly symbol: string })[] = [];
  for (const part of parts) {
    const last = found.at(-1);
    if (typeof part === "string" && typeof last === "string") found[found.length - 1] = last + part;
    else found.push(part);
  }
  return found;
}

/**
 * A message as a label, its places filled: `labelOf("ellipse, {k}", { k: { symbol: "k_p" } })`.
 *
 * @throws {Error} a place that nothing is given for: a fault in a message file
 */
export const labelOf = (
  message: string,
  parts: Readonly<Record<string, string | { readonly symbol: string }>>,
): Exclude<Label, string> => filled(message, parts);

/** A label as plain text. */
export const labelText = (label: Label): string =>
  runsOf(label)
    .map((run) => ("words" in run ? run.words : run.symbol + run.after))
    .join("");
