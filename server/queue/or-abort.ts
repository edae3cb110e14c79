import { cancelled } from "../errors.ts";

/** Work that nobody waits for any more once a signal comes: a queue may not answer. @throws {Fault} `cancelled` */
export async function orAbort<T>(work: Promise<T>, signal: AbortSignal | undefined): Promise<T> {
  if (signal === undefined) return work;
  if (signal.aborted) throw cancelled();
  let stop = (): void => undefined;
  try {
    return await Promise.race([
      work,
      new Promise<never>((_, reject) => {
        stop = () => reject(cancelled());
        signal.addEventListener("abort", stop, { once: true });
      }),
    ]);
  } finally {
    signal.removeEventListener("abort", stop);
  }
}
