import type { RouteParameters } from "express-serve-static-core";
import type { z } from "zod";
import type { Role } from "../../viewer/api/access.ts";
import type { FaultCode } from "../errors.ts";

/** A body, in a request or an answer. */
export interface Content {
  readonly type: string;
  /** `text` and `bytes` where a schema has nothing to say. */
  readonly schema: z.ZodType | "text" | "bytes";
  /** Of a stream of events: what the data of each is. */
  readonly event?: z.ZodType;
}

/** An answer of a status. */
export interface Answer {
  readonly description: string;
  /** Several where it depends on what is asked for. */
  readonly content?: Content | readonly Content[];
  /** Headers beside those that every answer has, and what each is. */
  readonly headers?: Readonly<Record<string, string>>;
  /** Headers that it has at times. */
  readonly mayHave?: Readonly<Record<string, string>>;
}

/** What the interface's document says of a route: it stands where the route is added. */
export interface Described<Path extends string = string> {
  /** Its name, the same from version to version: generated clients call it. */
  readonly id: string;
  readonly summary: string;
  readonly description?: string;
  /** What each parameter of the path is. */
  readonly path?: Readonly<Record<keyof RouteParameters<Path>, string>>;
  readonly query?: z.ZodObject;
  /** Headers of the request that the route reads, and what each is. */
  readonly reads?: Readonly<Record<string, string>>;
  readonly body?: Content & { readonly optional?: true };
  /** By status; those of refusals come from `faults`. */
  readonly answers: Readonly<Record<number, Answer>>;
  /** Faults beside those that any request can meet. */
  readonly faults?: readonly FaultCode[];
}

/** A route as it was added. */
export interface Operation {
  readonly method: "get" | "post" | "put" | "delete";
  /** From the root of the server, with a colon before each parameter. */
  readonly path: string;
  /** The role it needs of who asks. */
  readonly needs: Role;
  readonly described: Described;
}

export const json = (schema: z.ZodType): Content => ({ type: "application/json", schema });

/** A stream of events, WHATWG HTML, 9.2. */
export const events = (event: z.ZodType): Content => ({ type: "text/event-stream", schema: "text", event });

export const bytes: Content = { type: "application/octet-stream", schema: "bytes" };

export const contentsOf = ({ content = [] }: Answer): readonly Content[] => [content].flat();
