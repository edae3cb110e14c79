import { cancels } from "./cancels-part.ts";
import { fleet } from "./fleet-part.ts";
import { forgeAll } from "./forge-all.ts";
import { hostileFiles } from "./hostile-files.ts";
import { kills } from "./kills-part.ts";
import { requests } from "./requests-part.ts";
import type { Part } from "./part.ts";

/** Every part of the campaign, in the order in which they run. */
export const parts: readonly Part[] = [forgeAll, hostileFiles, kills, cancels, fleet, requests];
