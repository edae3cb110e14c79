import type { CancelSignal } from "../../engine/internal.ts";

/** A worker as the drawing sees it, a page's or a thread of Node.js. */
export interface DrawingWorker {
  ask(message: unknown): void;
  onAnswer(listener: (message: unknown) => void): void;
  /** Calls back once if the worker ends by itself, with why in words. */
  onEnd(listener: (reason: string) => void): void;
  terminate(): void;
}

/** An `AbortSignal`, without the types of a page or of Node.js. */
export interface AbortableSignal extends CancelSignal {
  addEventListener(type: "abort", listener: () => void): void;
  removeEventListener(type: "abort", listener: () => void): void;
}

/** Workers at most: more take longer to start than they save. */
export const MOST_WORKERS = 16;

/** @throws {RangeError} a number that cannot be used */
export function workersFrom(asked: number | undefined, cores: number, name: string): number {
  if (asked === undefined) return Math.max(1, Math.min(cores, MOST_WORKERS));
  if (Number.isInteger(asked) && asked >= 1 && asked <= 256) return asked;
  throw new RangeError(`${name}: got ${asked}; expected a whole number from 1 to 256`);
}
