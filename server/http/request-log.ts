import { randomUUID } from "node:crypto";
import type { RequestHandler, Response } from "express";
import type { Logger } from "pino";

/** The id of the request that is answered, as in its header X-Request-Id and in the log. */
export const requestId = (response: Response): string => String(response.getHeader("x-request-id"));

/**
 * Gives each request an id and writes a line when it is answered or cut: method, path, status and milliseconds. Neither
 * headers, nor bodies, nor what follows the question mark are logged: tokens and a person's words stand there.
 */
export const logRequests =
  (log: Logger): RequestHandler =>
  (request, response, next) => {
    const id = randomUUID();
    const began = performance.now();
    const { method, path } = request;
    response.set("x-request-id", id);
    response.on("close", () => {
      const { statusCode: status, writableFinished } = response;
      const ms = Math.round(performance.now() - began);
      log.info({ id, method, path, status, ms, ...(writableFinished ? {} : { cut: true }) }, "request");
    });
    next();
  };
