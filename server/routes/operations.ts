import { openMetrics } from "../http/metrics.ts";
import type { Operation } from "../openapi/described.ts";
import { collected } from "./guarded.ts";
import { routes } from "./index.ts";
import { observation } from "./observation.ts";
import type { Dependencies } from "./route.ts";

/** Every route there can be, for the document of the interface without a server. */
export function everyOperation(): readonly Operation[] {
  const found: Operation[] = [];
  const add = (operation: Operation): void => void found.push(operation);
  // No handler is called, and only handlers ask something of what they are made from.
  const nothing = {} as Dependencies;
  observation(openMetrics(), () => Promise.reject(new Error("asked of no server")))(collected("", add), nothing);
  const api = collected("/api", add);
  for (const register of routes) register(api, nothing);
  return found;
}
