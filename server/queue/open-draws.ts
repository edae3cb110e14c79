import type { ModelPlace } from "../shelves/model.ts";
import type { Board } from "./board.ts";
import { laneOf, readRecipe, type Recipe } from "./messages.ts";
import { placeHere, refusalOf, type Trust } from "./trust.ts";

/** A draw that a worker is at. */
export interface OpenedDraw {
  readonly place: ModelPlace;
  /** The study as JSON. */
  readonly study: string;
  /** One shared integer: 1 once it has ended. */
  readonly stop: Int32Array;
  readonly ended: AbortController;
}

/** Milliseconds that a draw which has ended is remembered, so that a job of it that comes late is dropped at once. */
const REMEMBERED = 60_000;

/** The draws that a worker knows, from their recipes in the queue. */
export function openDraws(board: Board, trust: Trust, name: string, tell: (words: string) => void) {
  const opened = new Map<string, Promise<OpenedDraw | null>>();
  const judged = new Map<string, string | null>();

  const open = async (draw: string): Promise<OpenedDraw | null> => {
    const text = await board.recipe(draw);
    const recipe = text === null ? null : readRecipe(text);
    if (recipe === null) return null;
    const refusal = refusalOf(recipe, trust);
    if (refusal !== null) throw new Error(`refused: ${refusal}`);
    return {
      place: await placeHere(recipe, trust, board),
      study: JSON.stringify(recipe.study),
      stop: new Int32Array(new SharedArrayBuffer(4)),
      ended: new AbortController(),
    };
  };

  const end = (draw: string): void => {
    const found = opened.get(draw);
    judged.delete(draw);
    if (found === undefined) return;
    void found.then(
      (one) => {
        if (one === null) return;
        Atomics.store(one.stop, 0, 1);
        one.ended.abort();
      },
      () => undefined,
    );
    setTimeout(() => {
      if (opened.get(draw) === found) opened.delete(draw);
    }, REMEMBERED).unref();
  };

  return {
    /** @returns `null` for a draw that has ended */
    async get(draw: string): Promise<OpenedDraw | null> {
      let found = opened.get(draw);
      if (found === undefined) {
        found = open(draw);
        opened.set(draw, found);
      }
      const one = await found.catch((error: unknown) => {
        opened.delete(draw);
        throw error;
      });
      if (one === null || one.ended.signal.aborted) {
        // It may have begun anew under the same name.
        opened.delete(draw);
        return one === null ? null : this.get(draw);
      }
      return one;
    },
    /** Looks at all draws, says in words which ones it refuses, and notices those that have ended. @returns their queues */
    async look(): Promise<string[]> {
      const lanes: string[] = [];
      const there = new Set<string>();
      for (const { draw, recipe: text, title } of await board.draws()) {
        there.add(draw);
        const recipe = JSON.parse(text) as Recipe;
        let refusal = judged.get(draw);
        if (refusal === undefined) {
          refusal = refusalOf(recipe, trust);
          judged.set(draw, refusal);
          if (refusal !== null) {
            tell(`Refused: ${title}: ${refusal}`);
            await board.refuse(draw, name, refusal);
          }
        }
        if (refusal === null) lanes.push(laneOf(recipe));
      }
      for (const draw of opened.keys()) if (!there.has(draw)) end(draw);
      for (const draw of judged.keys()) if (!there.has(draw)) judged.delete(draw);
      return lanes;
    },
    end,
    endAll(): void {
      for (const draw of opened.keys()) end(draw);
    },
  };
}
