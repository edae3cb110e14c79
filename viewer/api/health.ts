/** How a part of the server is, and in words what was found. */
export interface PartHealth {
  readonly ok: boolean;
  readonly found: string;
}

/** `GET /healthz`: 200 if every part is well, else 503. */
export interface ServerHealth {
  readonly ok: boolean;
  readonly parts: Readonly<Record<"store" | "pool" | "disk", PartHealth>>;
}
