/**
 * JSON in one form only: keys sorted by code unit, no white space, numbers as ECMAScript writes them. Two documents with
 * the same content have the same text, so a digest of it is a digest of the content.
 *
 * Source: RFC 8785, JSON Canonicalization Scheme.
 */
export function canonicalJson(value: unknown): string {
  if (Array.isArray(value))
    return `[${value.map((item) => canonicalJson(item === undefined ? null : item)).join(",")}]`;
  if (typeof value === "object" && value !== null) {
    const entries = Object.entries(value).filter(([, item]) => item !== undefined);
    // Code unit order, as RFC 8785 asks: not that of any language.
    entries.sort(([a], [b]) => (a < b ? -1 : a > b ? 1 : 0));
    return `{${entries.map(([key, item]) => `${JSON.stringify(key)}:${canonicalJson(item)}`).join(",")}}`;
  }
  return JSON.stringify(value);
}
