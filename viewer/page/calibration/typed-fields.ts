/** What is typed into the fields of a calibration's certificates and not taken yet, by the id of each field. */
export type TypedFields = Readonly<Record<string, string>>;

const placeOf = (id: string): string => `trialband-certificate-fields-${id}`;

/** What was typed and not taken; `null` if there is nothing. */
export function typedFieldsOf(id: string): TypedFields | null {
  try {
    const kept: unknown = JSON.parse(localStorage.getItem(placeOf(id)) ?? "null");
    if (typeof kept !== "object" || kept === null) return null;
    return Object.fromEntries(
      Object.entries(kept).filter((entry): entry is [string, string] => typeof entry[1] === "string"),
    );
  } catch {
    // A browser that keeps nothing, or what another program left there.
    return null;
  }
}

/** Keeps it in this browser until it is taken (`null`). */
export function keepTypedFields(id: string, typed: TypedFields | null): void {
  try {
    if (typed === null) localStorage.removeItem(placeOf(id));
    else localStorage.setItem(placeOf(id), JSON.stringify(typed));
  } catch {
    // The fields stay on the page.
  }
}
