/** A part of a study that nobody has checked yet: of whatever kind it should not be. */
export type Fields = Readonly<Record<string, unknown>>;

export const objectOr = (value: unknown): Fields =>
  typeof value === "object" && value !== null && !Array.isArray(value) ? (value as Fields) : {};

export const listOr = (value: unknown): readonly unknown[] => (Array.isArray(value) ? value : []);

export const textOr = (value: unknown, other: string): string =>
  typeof value === "string" && value !== "" ? value : other;
