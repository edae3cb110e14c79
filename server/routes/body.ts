import { show } from "../../engine/index.ts";
import type { z } from "zod";
import { Fault } from "../errors.ts";

/**
 * A request's body or query, checked. The messages of a schema in `viewer/api` say what is accepted.
 *
 * @throws {Fault} `bad-input`, with every problem
 */
export function bodyOf<T extends z.ZodType>(schema: T, body: unknown): z.output<T> {
  const parsed = schema.safeParse(body);
  if (parsed.success) return parsed.data;
  const problems = parsed.error.issues.flatMap((issue) =>
    (issue.code === "unrecognized_keys" ? issue.keys.map((key) => [...issue.path, key]) : [issue.path]).map((path) => ({
      place: path.join("."),
      value: show(valueAt(body, path)),
      accepted: issue.message,
    })),
  );
  throw new Fault("bad-input", "The request cannot be used.", problems);
}

const valueAt = (body: unknown, path: readonly PropertyKey[]): unknown =>
  path.reduce((value, key) => (value as Readonly<Record<PropertyKey, unknown>> | null | undefined)?.[key], body);
