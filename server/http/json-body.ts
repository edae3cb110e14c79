import express, { type RequestHandler } from "express";
import { Fault } from "../errors.ts";

/** Lists and objects within each other; a study or a record has some dozen. */
const DEEPEST = 100;

/** Reads a body of JSON, and refuses one whose depth would exhaust the stack of what reads it on. */
export const jsonBody: readonly RequestHandler[] = [
  express.json({ limit: "16mb", strict: false }),
  (request, _response, next) => {
    requireShallow(request.body as unknown);
    next();
  },
];

/** Level by level, not by recursion, which is what deep values break. */
function requireShallow(value: unknown): void {
  let level: object[] = isObject(value) ? [value] : [];
  for (let depth = 1; level.length > 0; depth++) {
    if (depth > DEEPEST)
      throw new Fault("bad-input", "The request cannot be used.", [
        {
          place: "",
          value: `lists or objects more than ${DEEPEST} deep`,
          accepted: `lists and objects at most ${DEEPEST} deep`,
        },
      ]);
    level = level.flatMap((one) => (Object.values(one) as unknown[]).filter(isObject));
  }
}

const isObject = (value: unknown): value is object => typeof value === "object" && value !== null;
