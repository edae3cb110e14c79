import type * as z from "zod";

type Json = z.core.util.JSONType;

/**
 * A type whose every part is read-only: what a schema's output is once it has been read. A part that may be any JSON stays
 * as it is, since its type refers to itself.
 */
export type Immutable<T> = [Json] extends [T] ? T : ImmutableParts<T>;

type ImmutableParts<T> = T extends object ? { readonly [K in keyof T]: Immutable<T[K]> } : T;
