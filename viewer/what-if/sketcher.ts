import type { SketchAnswer, SketchQuestion } from "./protocol.ts";

/** Asks the worker for sketches. */
export interface Sketcher {
  /** Asks; an older question that still waits is dropped and never answered. */
  ask(study: unknown, take: (answer: SketchAnswer) => void): void;
}

interface Asked {
  readonly question: SketchQuestion;
  readonly take: (answer: SketchAnswer) => void;
}

/** Starts the worker with the first question, and keeps it: its code is warm from then on. */
export function createSketcher(): Sketcher {
  let worker: Worker | null = null;
  let count = 0;
  let waiting: Asked | null = null;
  let asked: Asked | null = null;

  const next = (): void => {
    if (asked !== null || waiting === null) return;
    asked = waiting;
    waiting = null;
    worker!.postMessage(asked.question, []);
  };

  const take = (answer: SketchAnswer): void => {
    const mine = asked;
    asked = null;
    // Overtaken already: the newer question is on its way.
    if (waiting === null) mine?.take(answer);
    next();
  };

  const start = (): Worker => {
    const made = new Worker(new URL("./worker.ts", import.meta.url), { type: "module" });
    made.addEventListener("message", ({ data }: MessageEvent<SketchAnswer>) => take(data));
    made.addEventListener("error", (event) => {
      event.preventDefault();
      take({ id: asked?.question.id ?? 0, message: `The sketch could not be drawn: ${event.message || "its code did not load"}.`, problems: [] });
    });
    return made;
  };

  return {
    ask(study, taken) {
      worker ??= start();
      waiting = { question: { id: (count += 1), study }, take: taken };
      next();
    },
  };
}
