import { refused } from "../errors.ts";

/** A part of a request's body that must be an object. @throws {Fault} `bad-input` */
export function objectOf(body: unknown, accepted: string, place = ""): Record<string, unknown> {
  if (typeof body === "object" && body !== null && !Array.isArray(body)) return body as Record<string, unknown>;
  throw refused(place, body, accepted);
}
