import type { RunRecord } from "../../engine/index.ts";
import { fieldWords as spaced } from "./field-words.ts";
import type { Messages } from "./messages/messages.ts";
import type { Label } from "./pictures/scene.ts";

/**
 * A place in a record, such as `measurands.error.linear.estimate`, in words: the symbol of the quantity, and what it is.
 * A field without words of its own is named as its words are written together.
 */
export function placeLabel(
  place: string,
  { inputs, measurands }: Pick<RunRecord, "inputs" | "measurands">,
  { recordPlaces }: Pick<Messages, "recordPlaces">,
): Exclude<Label, string> {
  const parts = place.split(".");
  const found: (string | { readonly symbol: string })[] = [];
  for (const [i, part] of parts.entries()) {
    const before = parts[i - 1];
    if (i === 0 && (part === "measurands" || part === "inputs")) continue;
    if (found.length > 0) found.push(", ");
    const quantities = before === "measurands" ? measurands : before === "inputs" ? inputs : {};
    if (Object.hasOwn(quantities, part)) found.push({ symbol: quantities[part]!.symbol });
    else if (/^\d+$/.test(part))
      found.push(
        isPair(before) && Number(part) < 2 ? recordPlaces[part === "0" ? "lower" : "upper"] : `${Number(part) + 1}`,
      );
    else found.push(Object.hasOwn(recordPlaces, part) ? recordPlaces[part as keyof typeof recordPlaces] : spaced(part));
  }
  return found;
}

/** Fields whose two numbers are a lower and an upper endpoint. */
const isPair = (field: string | undefined): boolean =>
  field === "interval" ||
  field === "symmetric" ||
  field === "shortest" ||
  field === "shapley" ||
  field === "difference";
