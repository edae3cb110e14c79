import type { WatchEvent } from "../../api/watched-logs.ts";

/** Longest wait between two tries, ms. */
const LONGEST_WAIT = 5000;
const FIRST_WAIT = 500;

/**
 * Follows a log. The browser takes a stream that was cut up again by itself, with the id of the last event; where it gives
 * up, this does not.
 *
 * @param address of the stream of events
 * @param cut told whether the stream is cut
 * @returns stops following
 */
export function followLog(
  address: string,
  event: (event: WatchEvent) => void,
  cut: (cut: boolean) => void,
): () => void {
  let stream: EventSource;
  let timer: ReturnType<typeof setTimeout> | undefined;
  let wait = FIRST_WAIT;
  const open = (): void => {
    stream = new EventSource(address);
    stream.addEventListener("open", () => {
      wait = FIRST_WAIT;
      cut(false);
    });
    stream.addEventListener("message", ({ data }: MessageEvent<string>) => event(JSON.parse(data) as WatchEvent));
    stream.addEventListener("error", () => {
      cut(true);
      if (stream.readyState !== EventSource.CLOSED) return;
      timer = setTimeout(open, wait);
      wait = Math.min(LONGEST_WAIT, 2 * wait);
    });
  };
  open();
  return () => {
    clearTimeout(timer);
    stream.close();
  };
}
