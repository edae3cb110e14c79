/** A figure of a record that its repetition does not give. */
export interface Deviation {
  readonly place: string;
  readonly filed: string;
  readonly repeated: string;
}

/** Every place at which two documents are not identical, bit for bit. */
export function deviations(filed: unknown, repeated: unknown, place = ""): Deviation[] {
  if (Object.is(filed, repeated)) return [];
  if (
    typeof filed === "object" &&
    typeof repeated === "object" &&
    filed !== null &&
    repeated !== null &&
    Array.isArray(filed) === Array.isArray(repeated)
  ) {
    const keys = new Set([...Object.keys(filed), ...Object.keys(repeated)]);
    return [...keys].flatMap((key) =>
      deviations(
        (filed as Record<string, unknown>)[key],
        (repeated as Record<string, unknown>)[key],
        place === "" ? key : `${place}.${key}`,
      ),
    );
  }
  return [{ place, filed: JSON.stringify(filed) ?? "nothing", repeated: JSON.stringify(repeated) ?? "nothing" }];
}
