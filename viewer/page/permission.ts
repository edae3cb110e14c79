import { words } from "./language.ts";
import type { Role } from "../api/access.ts";
import { html } from "./draw/node.ts";

/** What a role lets one do, as the page says it. */
const LACKS = {
  run: words.frame.lacksRun,
  administer: words.frame.lacksAdminister,
} as const satisfies Partial<Record<Role, string>>;

/**
 * Says why something is not offered, to those alone to whom it is not: controls with `data-needs` step aside for them
 * (style/permission.css). The server refuses in any case.
 */
export const lacking = (role: keyof typeof LACKS): HTMLElement =>
  html("p", { class: "note", "data-lacks": role }, LACKS[role]);
