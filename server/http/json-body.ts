import express, { type RequestHandler } from "express";
import { Fault } from "../errors.ts";
import { requireShallow } from "../intake/shallow.ts";

/** Largest study that the page opens. It is parsed on the thread that serves, in a twentieth of a second. */
const MOST = "5mb";
/** Largest record that the page opens. */
const MOST_OF_RECORD = "16mb";

const parsed = express.json({
  limit: MOST,
  strict: false,
  verify(_request, _response, body, encoding) {
    // RFC 8259, 8.1.
    if (!/^utf-?8$/i.test(encoding))
      throw new Fault("unsupported-media-type", `The body is JSON in ${encoding}; expected UTF-8.`);
    requireShallow(body);
  },
});

/** Bytes, which another thread reads. */
const unread = express.raw({ type: "application/json", limit: MOST_OF_RECORD });

/** Reads a body of JSON; a record's file stays as it came, in `request.body` as a Buffer. */
export const jsonBody: RequestHandler = (request, response, next) =>
  (/^\/api\/records(\/|$)/i.test(request.path) ? unread : parsed)(request, response, next);
