import { words } from "../later-words.ts";
import type { SelfcheckEvent } from "../../api/selfcheck.ts";
import { postedEvents } from "../posted-events.ts";

/**
 * Carries out a selfcheck and yields what happens.
 *
 * @throws as `postedEvents`
 */
export const selfcheckEvents = (quick: boolean, signal: AbortSignal): AsyncGenerator<SelfcheckEvent> =>
  postedEvents(`api/selfcheck?quick=${quick ? 1 : 0}`, { signal }, words.selfcheck.lost);
