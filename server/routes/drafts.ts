import {
  draft,
  draftHead,
  DRAFT_ID,
  draftList,
  draftSent,
  type Draft,
  type DraftHead,
  type DraftList,
} from "../../viewer/api/drafts.ts";
import { refused } from "../errors.ts";
import { json } from "../openapi/described.ts";
import { bodyOf } from "./body.ts";
import { versionSeen } from "./if-match.ts";
import type { RouteRegistration } from "./route.ts";

const path = { id: "Id of the draft: 8 to 64 small letters, digits and hyphens." };

/** Studies that are being written: kept until they are run or discarded. */
export const drafts: RouteRegistration = (router, { desk }) => {
  router.get(
    "/drafts",
    "read",
    {
      id: "listDrafts",
      summary: "Studies that are being written, the one changed last first",
      answers: { 200: { description: "Each draft in short.", content: json(draftList) } },
    },
    (_request, response) => {
      response.json(desk.drafts() satisfies DraftList);
    },
  );

  router.get(
    "/drafts/:id",
    "read",
    {
      id: "getDraft",
      summary: "A draft with its form",
      description: "Also one that was discarded, so that a link to it still leads there.",
      path,
      answers: { 200: { description: "The draft.", content: json(draft) } },
      faults: ["no-such-draft"],
    },
    (request, response) => {
      response.json(desk.readDraft(request.params.id) satisfies Draft);
    },
  );

  router.put(
    "/drafts/:id",
    "run",
    {
      id: "writeDraft",
      summary: "Keep a draft as it stands",
      description: "A new one if there is none of this id; one that was discarded is there again.",
      path,
      reads: { "If-Match": 'Revision that the writer has seen, "0" for a new one: 412 if it has another by now.' },
      body: json(draftSent),
      answers: {
        200: {
          description: "It is kept.",
          content: json(draftHead),
          headers: { ETag: 'Revision of the draft, such as "4".' },
        },
      },
      faults: ["no-such-study", "changed-meanwhile", "cannot-keep", "busy"],
    },
    (request, response) => {
      const { id } = request.params;
      if (!DRAFT_ID.test(id)) throw refused("id", id, path.id);
      const head = desk.writeDraft(id, bodyOf(draftSent, request.body), versionSeen(request.headers["if-match"]));
      response.set("etag", `"${head.revision}"`).json(head satisfies DraftHead);
    },
  );

  router.delete(
    "/drafts/:id",
    "run",
    {
      id: "discardDraft",
      summary: "Discard a draft",
      description: "It can be taken up again.",
      path,
      answers: { 204: { description: "It is off the list." } },
      faults: ["no-such-draft", "cannot-keep", "busy"],
    },
    (request, response) => {
      desk.discardDraft(request.params.id);
      response.status(204).end();
    },
  );

  router.post(
    "/drafts/:id/undo-discarding",
    "run",
    {
      id: "undoDiscarding",
      summary: "Take a discarded draft up again",
      path,
      answers: { 200: { description: "The draft as the list has it again.", content: json(draftHead) } },
      faults: ["no-such-draft", "cannot-keep", "busy"],
    },
    (request, response) => {
      response.json(desk.takeUpDraft(request.params.id) satisfies DraftHead);
    },
  );
};
