import type { Request } from "express";
import { refused } from "../errors.ts";

/** A record's file that came as JSON and was left unread. @throws {Fault} `bad-input`: no such body */
export function recordFileOf(request: Request): Buffer {
  const body: unknown = request.body;
  if (Buffer.isBuffer(body)) return body;
  throw refused("", request.headers["content-type"] ?? "nothing", "a record's file, sent as application/json");
}
