import type { Request, RequestHandler, Response } from "express";
import type { RouteParameters } from "express-serve-static-core";
import type { Sample } from "../../engine/internal.ts";
import type { Checker } from "../checks/checker.ts";
import type { Reader } from "../checks/reader.ts";
import type { Documents } from "../documents/documents.ts";
import type { Runs } from "../runs/runs.ts";
import type { Desk } from "../store/desk.ts";
import type { EvidenceStore } from "../store/evidence.ts";
import type { StudyShelf } from "../shelves/studies.ts";
import type { Described } from "../openapi/described.ts";
import type { OpenApiDocument } from "../openapi/document.ts";
import type { Verifier } from "../verify/verifier.ts";
import type { WatchedLogs } from "../watch/watched-logs.ts";
import type { QueueState } from "../../viewer/api/queue.ts";
import type { Role } from "../../viewer/api/access.ts";

/** What routes ask of the runs. */
export interface KeptRuns extends Pick<
  Runs,
  | "startedBy"
  | "start"
  | "list"
  | "removed"
  | "get"
  | "read"
  | "cancel"
  | "remove"
  | "bringBack"
  | "annotate"
  | "follow"
> {
  sample(id: string): Promise<{ sample(measurand: string): Sample }>;
}

/** What routes are made from. */
export interface Dependencies {
  readonly runs: KeptRuns;
  readonly shelf: StudyShelf;
  readonly desk: Desk;
  readonly workers: number;
  /** What the workers of the queue are at; `null` if there is no queue. */
  readonly queue: (() => Promise<QueueState>) | null;
  readonly checker: Pick<Checker, "check" | "explore">;
  readonly reader: Omit<Reader, "close">;
  readonly documents: Omit<Documents, "close">;
  readonly evidence: EvidenceStore;
  readonly verifier: Verifier;
  readonly watched: WatchedLogs;
  /** The interface's document. */
  readonly document: () => OpenApiDocument;
  /** Ends the session of who asks. */
  readonly signOut: (request: Request, response: Response) => void;
}

/**
 * Adds a route, with the role that it needs of who asks and what the interface's document says of it: a
 * route that states none of them does not compile.
 */
type Adds = <Path extends string>(
  path: Path,
  needs: Role,
  described: Described<NoInfer<Path>>,
  handler: RequestHandler<RouteParameters<Path>>,
) => void;

/** Where routes are added. */
export type Routes = Readonly<Record<"get" | "post" | "put" | "delete", Adds>>;

/** A group of routes: adds itself to those under /api. One file a resource, one line in index.ts. */
export type RouteRegistration = (router: Routes, dependencies: Dependencies) => void;
