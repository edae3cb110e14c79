import type { SketchAnswer, SketchQuestion } from "./protocol.ts";

/** Asks the worker for sketches. */
export interface Sketcher {
  /**
   * Asks for the sketches of a study as stated and with a change, which come twice: of few trials at once, of more when
   * no newer question has come. What was asked before is answered no more.
   */
  ask(stated: unknown, changed: unknown, take: (answer: SketchAnswer) => void): void;
}

/** Starts the worker with the first question, and keeps it: its code is warm from then on. */
export function createSketcher(): Sketcher {
  let worker: Worker | null = null;
  let id = 0;
  let taker: ((answer: SketchAnswer) => void) | null = null;

  const take = (answer: SketchAnswer): void => {
    if (answer.id === id) taker?.(answer);
  };

  const start = (): Worker => {
    const made = new Worker(new URL("./worker.ts", import.meta.url), { type: "module" });
    made.addEventListener("message", ({ data }: MessageEvent<SketchAnswer>) => take(data));
    made.addEventListener("error", (event) => {
      event.preventDefault();
      take({
        id,
        message: `The sketch could not be drawn: ${event.message || "its code did not load"}.`,
        problems: [],
      });
    });
    return made;
  };

  return {
    ask(stated, changed, taken) {
      worker ??= start();
      id += 1;
      taker = taken;
      const question: SketchQuestion = { id, stated, changed };
      worker.postMessage(question, []);
    },
  };
}
