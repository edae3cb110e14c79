import { randomUUID } from "node:crypto";
import { hostname } from "node:os";
import type { AccumulationState, Prepared } from "../../engine/internal.ts";
import { digestOf } from "../canonical.ts";
import type { Fleet } from "../runs/far-drawing.ts";
import type { ModelReference } from "../shelves/model.ts";
import type { KeptStudy } from "../shelves/study.ts";
import { openBoard, type Board } from "./board.ts";
import { connectionOf, loadPackages, PREFIX } from "./connection.ts";
import { drawBy } from "./coordinator.ts";
import { decode } from "./codec.ts";
import type { Ground, Lane } from "./ground.ts";
import { build, javascriptEngine, laneOf, type Recipe, type SentModel } from "./messages.ts";
import { orAbort } from "./or-abort.ts";
import { namedDigest } from "./named-digest.ts";
import type { QueueSettings } from "./settings.ts";

export interface FleetOptions {
  /** Called with what a person should know: nobody takes the jobs, the queue does not answer. */
  readonly notice: (words: string) => void;
}

/** Milliseconds between two looks at whether a draw's coordinator is gone, and how often it is looked. */
const LOOK_AGAIN = 1000;
const LOOKS = 7;

/**
 * Connects to a queue whose workers draw trials.
 *
 * @throws {Fault} `queue-unreachable`
 */
export async function openFleet(settings: QueueSettings, { notice }: FleetOptions): Promise<Fleet> {
  const { Queue: QueueClass, QueueEvents: EventsClass } = await loadPackages();
  const board = await openBoard(settings);
  const paces = new Map<string, Ground["pace"]>();
  const lanes = new Map<string, Lane>();
  let most = 0;

  const laneFor = async (name: string): Promise<Lane> => {
    const found = lanes.get(name);
    if (found !== undefined) return found;
    const options = { connection: connectionOf(settings), prefix: PREFIX };
    const queue = new QueueClass(name, options);
    const events = new EventsClass(name, options);
    // Failed attempts to reach the queue; the coordinator says so when it waits.
    queue.on("error", () => undefined);
    events.on("error", () => undefined);
    // Every draw that waits listens for its end.
    events.setMaxListeners(0);
    await events.waitUntilReady();
    const lane = { queue, events };
    lanes.set(name, lane);
    return lane;
  };

  return {
    get workers() {
      return Math.max(1, most);
    },
    async claim(kept, prepared, outer) {
      const recipe = await orAbort(recipeOf(board, kept, prepared), outer);
      const lane = laneOf(recipe);
      // Of its own: one server may draw the very same study twice at once.
      const owner = `${hostname()} ${process.pid} ${randomUUID()}`;
      const draw = await orAbort(claimed(board, owner, recipe, lane), outer);
      const state = await orAbort(board.state(draw), outer);
      const model = JSON.stringify(recipe.model);
      const pace = paces.get(model) ?? { secondsABatch: null };
      paces.set(model, pace);
      return {
        state: state === null ? null : (decode(state) as AccumulationState),
        draw: async (gathered, add, told, signal) =>
          drawBy(
            {
              board,
              lane: await laneFor(lane),
              laneName: lane,
              draw,
              owner,
              claimAgain: () => claimAs(board, draw, owner, recipe, lane),
              notice,
              shown: settings.shown,
              pace,
              threadsSeen: (threads) => (most = Math.max(most, threads)),
            },
            { prepared, gathered, add, told },
            signal,
          ),
      };
    },
    async close() {
      await Promise.allSettled(
        [...lanes.values()].flatMap(({ queue, events }) => [inTime(queue.close()), inTime(events.close())]),
      );
      board.redis.disconnect();
    },
  };
}

/** A queue that is away must not keep a command from ending. */
const inTime = (work: Promise<unknown>): Promise<unknown> =>
  Promise.race([work, new Promise((resolve) => setTimeout(resolve, 500).unref())]);

/** What travels of a study; a model of one's own lies in the queue before its draw is announced. */
async function recipeOf(board: Board, { study, reference }: KeptStudy, prepared: Prepared): Promise<Recipe> {
  return { build, model: await sentModel(board, reference), study: { ...study, sweep: null }, limit: prepared.limit };
}

async function sentModel(board: Board, reference: ModelReference): Promise<SentModel> {
  const { parameters } = reference;
  if (reference.kind === "registered") return { kind: "registered", id: reference.id, parameters };
  const { digest, source } = reference;
  await board.putModule(digest, source);
  return { kind: "own", digest, named: namedDigest(source), engine: javascriptEngine, parameters };
}

const claimAs = (board: Board, draw: string, owner: string, recipe: Recipe, lane: string): Promise<string> =>
  board.claim(draw, owner, JSON.stringify(recipe), lane, recipe.study.title);

/**
 * The name of a draw: that of what it draws, so that a coordinator that is started again finds what it left. If another
 * one is at the very same draw, this one gets a name of its own.
 */
async function claimed(board: Board, owner: string, recipe: Recipe, lane: string): Promise<string> {
  const digest = digestOf(JSON.parse(JSON.stringify(recipe))).slice(0, 24);
  for (let look = 0; look < LOOKS; look++) {
    if ((await claimAs(board, `d${digest}`, owner, recipe, lane)) !== "held") return `d${digest}`;
    // It may have been killed a moment ago.
    await new Promise((resolve) => setTimeout(resolve, LOOK_AGAIN));
  }
  const own = `d${digest}x${randomUUID().slice(0, 8)}`;
  await claimAs(board, own, owner, recipe, lane);
  return own;
}
