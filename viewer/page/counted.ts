import { fillText } from "../present/fill.ts";
import { whole } from "./numbers.ts";

/** A message that speaks of one and of several in two forms. */
export interface Forms {
  readonly one: string;
  readonly other: string;
}

/** The form for a count; `{n}` is the count itself. */
export const counted = ({ one, other }: Forms, count: number, parts: Readonly<Record<string, string>> = {}): string =>
  fillText(count === 1 ? one : other, { n: whole(count), ...parts });
