import { show } from "../../engine/index.ts";
import { Fault } from "../errors.ts";

/** A part of a request's body that must be an object. @throws {Fault} `bad-input` */
export function objectOf(body: unknown, accepted: string, place = ""): Record<string, unknown> {
  if (typeof body === "object" && body !== null && !Array.isArray(body)) return body as Record<string, unknown>;
  throw refused(place, body, accepted);
}

/** A request that cannot be used, with its one problem. */
export const refused = (place: string, value: unknown, accepted: string): Fault =>
  new Fault("bad-input", "The request cannot be used.", [{ place, value: show(value), accepted }]);
