import type { Request, Response } from "express";
import { listQuery } from "../../viewer/api/paging.ts";
import { refused } from "../errors.ts";
import { bodyOf } from "./body.ts";

/**
 * Answers with a list, or with a part of it: `?limit=50`, and `&after=ID` for those that follow. The header Link leads to
 * the next part, RFC 8288 (relation `next`). A reader who sends the ETag of what it has gets 304 while nothing changed.
 *
 * @throws {Fault} `bad-input`
 */
export function answerList<T extends { readonly id: string }>(
  request: Request,
  response: Response,
  list: readonly T[],
): void {
  const { limit = list.length, after } = bodyOf(listQuery, request.query);
  const start = after === undefined ? 0 : list.findIndex(({ id }) => id === after) + 1;
  if (after !== undefined && start === 0) throw refused("after", after, "the id of one that is on the list");
  const page = list.slice(start, start + limit);
  if (start + page.length < list.length) {
    const next = new URLSearchParams({ limit: String(limit), after: page.at(-1)!.id });
    response.set("link", `<${request.baseUrl}${request.path}?${next.toString()}>; rel="next"`);
  }
  response.set("cache-control", "no-cache").json(page);
}
