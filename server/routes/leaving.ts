import type { Response } from "express";

/** Aborted once nobody waits for an answer any more. */
export function leaving(response: Response): AbortSignal {
  const left = new AbortController();
  response.on("close", () => left.abort());
  return left.signal;
}
