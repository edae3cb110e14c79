import { LRUCache } from "lru-cache";
import type { Accumulation } from "../../engine/internal.ts";
import type { KeptSample } from "./run-study.ts";

/** Runs whose whole sample is kept in memory; an older one is drawn again on request and reproduces exactly, bit for bit. */
const KEPT = 3;
/** Milliseconds after which the memory of a sample that is no longer kept serves another run. */
const RELEASE_AFTER = 2000;

/** The samples of the runs that were asked for last. */
export class Samples {
  readonly #held = new LRUCache<string, Promise<KeptSample>>({ max: KEPT, dispose: releaseLater });

  keep(id: string, run: KeptSample): void {
    this.#held.set(id, Promise.resolve(run));
  }

  forget(id: string): void {
    this.#held.delete(id);
  }

  /** @param draw draws the run's trials again */
  async of(id: string, draw: () => Promise<KeptSample>): Promise<Accumulation> {
    let found = this.#held.get(id);
    if (found === undefined) {
      found = draw();
      this.#held.set(id, found);
      found.catch(() => this.#held.delete(id));
    }
    return (await found).gathered;
  }
}

/** Later, so that a reader who was given the sample a moment ago can still use it. */
function releaseLater(sample: Promise<KeptSample>): void {
  setTimeout(
    () =>
      void sample.then(
        ({ release }) => release(),
        () => undefined,
      ),
    RELEASE_AFTER,
  ).unref();
}
