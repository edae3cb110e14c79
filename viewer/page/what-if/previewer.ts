import { fillText } from "../../present/fill.ts";
import { words } from "../language.ts";
import type { PreviewAnswer, PreviewQuestion } from "./protocol.ts";

/** Asks the worker for previews. */
export interface Previewer {
  /**
   * Asks for a study as stated and with a change: first what is computed without trials, then previews of few trials, and
   * of more when no newer question has come. What was asked before is answered no more.
   */
  ask(stated: unknown, changed: unknown, others: readonly unknown[], take: (answer: PreviewAnswer) => void): void;
}

/** Starts the worker with the first question, and keeps it: its code is warm from then on. */
export function createPreviewer(): Previewer {
  let worker: Worker | null = null;
  let id = 0;
  let taker: ((answer: PreviewAnswer) => void) | null = null;

  const take = (answer: PreviewAnswer): void => {
    if (answer.id === id) taker?.(answer);
  };

  const start = (): Worker => {
    const made = new Worker(new URL("./worker.ts", import.meta.url), { type: "module" });
    made.addEventListener("message", ({ data }: MessageEvent<PreviewAnswer>) => take(data));
    made.addEventListener("error", (event) => {
      event.preventDefault();
      take({
        id,
        message: fillText(words.sheet.previewFailed, { why: event.message || words.sheet.previewNotLoaded }),
        problems: [],
      });
    });
    return made;
  };

  return {
    ask(stated, changed, others, taken) {
      worker ??= start();
      id += 1;
      taker = taken;
      const question: PreviewQuestion = { id, stated, changed, others };
      worker.postMessage(question, []);
    },
  };
}
