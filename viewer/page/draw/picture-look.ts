/** Properties that carry the look of a picture; written onto its parts, they make it independent of the page. */
const LOOKS = [
  "fill",
  "fill-opacity",
  "stroke",
  "stroke-width",
  "stroke-dasharray",
  "stroke-linejoin",
  "stroke-opacity",
  "paint-order",
  "opacity",
  "font-family",
  "font-size",
  "font-style",
  "font-weight",
  "white-space",
] as const;

/** Writes the look that a part has on the page onto another. */
export function dress(target: Element, source: Element): void {
  const look = getComputedStyle(source);
  for (const name of LOOKS)
    target.setAttribute(
      name,
      name === "fill" || name === "stroke" ? within(look.getPropertyValue(name)) : look.getPropertyValue(name),
    );
}

/** A reference to a pattern with the page's address in it, as one within the file. */
const within = (paint: string): string => paint.replace(/^url\("?[^#"]*#([\w-]+)"?\)/, "url(#$1)");

/** A copy of a part that looks the same anywhere. */
export function dressedCopy<T extends Element>(source: T): T {
  const copy = source.cloneNode(true) as T;
  const targets = [copy, ...copy.querySelectorAll("*")];
  [source, ...source.querySelectorAll("*")].forEach((part, i) => dress(targets[i]!, part));
  return copy;
}
