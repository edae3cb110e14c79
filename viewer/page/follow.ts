import type { RunEvent } from "../api/runs.ts";
import type { Run } from "./run.ts";
import { eventsOf, readRun, RequestError } from "./api.ts";

/** Who follows a run. */
export interface Follower {
  event(event: RunEvent): void;
  /** The run as the server has it, after the stream was cut. */
  caughtUp(run: Run): void;
  /** Whether the stream is cut and being tried again. */
  cut(cut: boolean): void;
  /** The server no longer knows the run. */
  lost(error: RequestError): void;
}

const FIRST_WAIT = 400;
const LONGEST_WAIT = 5000;
const goesOn = (run: Run): boolean => run.state === "waiting" || run.state === "running";

/**
 * Follows a run's events until it ends. If the stream is cut (the server restarts) it asks how the run stands and
 * takes the stream up again, waiting longer after each failure.
 *
 * @returns a function that stops following
 */
export function follow(id: string, follower: Follower): () => void {
  let stream: EventSource | null = null;
  let timer: ReturnType<typeof setTimeout> | undefined;
  let wait = FIRST_WAIT;
  let stopped = false;

  const stop = (): void => {
    stopped = true;
    clearTimeout(timer);
    stream?.close();
  };

  const open = (): void => {
    stream = new EventSource(eventsOf(id));
    stream.addEventListener("open", () => {
      wait = FIRST_WAIT;
      follower.cut(false);
    });
    stream.addEventListener("message", ({ data }: MessageEvent<string>) => {
      const event = JSON.parse(data) as RunEvent;
      if (event.type === "finished" || event.type === "failed" || event.type === "cancelled") stop();
      follower.event(event);
    });
    stream.addEventListener("error", () => {
      // The browser's own retry gives up on some answers; this one does not.
      stream?.close();
      if (stopped) return;
      follower.cut(true);
      later();
    });
  };

  const later = (): void => {
    timer = setTimeout(() => void resume(), wait);
    wait = Math.min(LONGEST_WAIT, 2 * wait);
  };

  const resume = async (): Promise<void> => {
    try {
      const run = await readRun(id);
      if (stopped) return;
      if (!goesOn(run)) stop();
      follower.caughtUp(run);
      if (!stopped) open();
    } catch (error) {
      if (stopped) return;
      if (error instanceof RequestError && error.status === 404) {
        stop();
        follower.lost(error);
      } else later();
    }
  };

  open();
  return stop;
}
