import type { Redis } from "ioredis";
import { Fault } from "../errors.ts";
import { connect, PREFIX } from "./connection.ts";
import { NEWS, readRecipe, type News, type WorkerNote } from "./messages.ts";
import type { QueueSettings } from "./settings.ts";

/** Seconds that the queue keeps what nobody takes away: a coordinator may come back so long. */
const KEPT = 2 * 86_400;
/** Seconds after which a worker that says nothing is taken for gone. */
export const WORKER_GONE = 10;
/** Milliseconds after which a coordinator that says nothing is taken for gone. */
const OWNER_GONE = 5000;

const WORKERS = `${PREFIX}:workers`;
/** When each worker was heard of, and the trials of its answers. */
const SEEN = `${WORKERS}:seen`;
const COUNTED = `${WORKERS}:trials`;
const DRAWS = `${PREFIX}:draws`;
const drawKey = (draw: string): string => `${PREFIX}:draw:${draw}`;
const answersKey = (draw: string): string => `${PREFIX}:answers:${draw}`;
const refusalsKey = (draw: string): string => `${PREFIX}:refusals:${draw}`;
const planKey = (draw: string): string => `${PREFIX}:plan:${draw}`;
const moduleKey = (digest: string): string => `${PREFIX}:module:${digest}`;

// Times are the queue's own: the machines' clocks may differ.
const NOW = "local t = redis.call('TIME') local now = t[1] * 1000 + math.floor(t[2] / 1000)";

/** Begins a draw, or takes over one whose coordinator is gone. */
const CLAIM = `${NOW}
local seen = redis.call('HGET', KEYS[1], 'seen')
local owner = redis.call('HGET', KEYS[1], 'owner')
if owner and owner ~= ARGV[1] and now - tonumber(seen) < tonumber(ARGV[4]) then return 'held' end
redis.call('HSET', KEYS[1], 'owner', ARGV[1], 'seen', now, 'recipe', ARGV[2], 'lane', ARGV[5], 'title', ARGV[6])
redis.call('HSETNX', KEYS[1], 'began', now)
for i = 1, 4 do redis.call('EXPIRE', KEYS[i], ARGV[3]) end
redis.call('SADD', KEYS[5], ARGV[7])
return owner and 'taken over' or 'begun'`;

/** A coordinator is there still. */
const BEAT = `${NOW}
local owner = redis.call('HGET', KEYS[1], 'owner')
if owner and owner ~= ARGV[1] then return 'lost' end
if not owner then return 'gone' end
redis.call('HSET', KEYS[1], 'seen', now, 'trials', ARGV[2])
for i = 1, 3 do redis.call('EXPIRE', KEYS[i], ARGV[3]) end
return 'held'`;

/**
 * An answer is kept if its draw goes on: the first one only, of which any other is a duplicate. Its trials count for its
 * worker in the same step, so that nobody finds an answer whose trials are not counted yet.
 */
const ANSWER = `if redis.call('EXISTS', KEYS[1]) == 0 then return 0 end
local new = redis.call('HSETNX', KEYS[2], ARGV[1], ARGV[2])
redis.call('EXPIRE', KEYS[2], ARGV[3])
if new == 1 and redis.call('HEXISTS', KEYS[3], ARGV[4]) == 1 then redis.call('HINCRBY', KEYS[4], ARGV[4], ARGV[5]) end
return new`;

// A queue that was away may have lost what it counted: the worker knows it too.
const NOTE = `${NOW}
redis.call('HSET', KEYS[1], ARGV[1], ARGV[2])
redis.call('ZADD', KEYS[2], now, ARGV[1])
local counted = tonumber(redis.call('HGET', KEYS[3], ARGV[1]) or '-1')
if counted < tonumber(ARGV[3]) then redis.call('HSET', KEYS[3], ARGV[1], ARGV[3]) end
return 1`;

/** Workers seen lately; those that are gone for long are forgotten. */
const LOOK = `${NOW}
local old = redis.call('ZRANGEBYSCORE', KEYS[2], '-inf', now - 60000)
for _, id in ipairs(old) do
  redis.call('HDEL', KEYS[1], id) redis.call('ZREM', KEYS[2], id) redis.call('HDEL', KEYS[3], id)
end
local ids = redis.call('ZRANGE', KEYS[2], 0, -1, 'WITHSCORES')
local out = {}
for i = 1, #ids, 2 do
  local note = redis.call('HGET', KEYS[1], ids[i])
  if note then
    out[#out + 1] = note
    out[#out + 1] = tostring((now - tonumber(ids[i + 1])) / 1000)
    out[#out + 1] = redis.call('HGET', KEYS[3], ids[i]) or '0'
  end
end
return out`;

const AGE = `${NOW}
local seen = redis.call('HGET', KEYS[1], 'seen')
if not seen then return '-1' end
return tostring((now - tonumber(seen)) / 1000)`;

/** Who has drawn an answer, and how many trials it has. */
interface Drawn {
  readonly worker: string;
  readonly trials: number;
}

export type SeenWorker = WorkerNote & { /** Seconds since it was heard of. */ readonly silent: number };

/** A draw that goes on, as others see it. */
export interface OpenDraw {
  readonly draw: string;
  readonly title: string;
  readonly lane: string;
  /** JSON of a `Recipe`. */
  readonly recipe: string;
  readonly trials: number;
  /** Seconds since its coordinator was heard of. */
  readonly silent: number;
}

/** Connects to a queue's board. @throws {Fault} `queue-unreachable` */
export async function openBoard(settings: QueueSettings): Promise<Board> {
  const redis = await connect(settings);
  try {
    await requireOwnKeys(redis, settings.shown);
  } catch (error) {
    redis.disconnect();
    throw error;
  }
  return boardOn(redis);
}

/** What coordinators and workers leave for each other beside the jobs. */
export function boardOn(redis: Redis) {
  const publish = (news: News): Promise<unknown> => redis.publish(NEWS, JSON.stringify(news));
  return {
    redis,

    async claim(draw: string, owner: string, recipe: string, lane: string, title: string): Promise<string> {
      const keys = [drawKey(draw), answersKey(draw), planKey(draw), refusalsKey(draw), DRAWS];
      const found = await redis.eval(CLAIM, keys.length, ...keys, owner, recipe, KEPT, OWNER_GONE, lane, title, draw);
      if (found !== "held") await publish({ begun: draw });
      return String(found);
    },
    /** @returns `held`; `lost`: another coordinator has it; `gone`: the queue does not know it any more */
    beat: async (draw: string, owner: string, trials: number): Promise<string> =>
      String(await redis.eval(BEAT, 3, drawKey(draw), answersKey(draw), planKey(draw), owner, trials, KEPT)),
    /** Takes away all there is of a draw: workers leave it at once, and what they answer later is dropped. */
    async end(draw: string): Promise<void> {
      await redis
        .multi()
        .unlink(drawKey(draw), answersKey(draw), planKey(draw), refusalsKey(draw))
        .srem(DRAWS, draw)
        .exec();
      await publish({ ended: draw });
    },
    /** Forgets plan and answers, for one that begins anew. */
    restart: (draw: string) =>
      redis.multi().unlink(answersKey(draw), planKey(draw)).hdel(drawKey(draw), "state").exec(),

    plan: async (draw: string): Promise<(readonly [first: number, batches: number])[]> =>
      (await redis.lrange(planKey(draw), 0, -1)).map((text) => JSON.parse(text) as [number, number]),
    addToPlan: async (draw: string, jobs: readonly (readonly [number, number])[]) =>
      void (await redis
        .multi()
        .rpush(planKey(draw), ...jobs.map((job) => JSON.stringify(job)))
        .expire(planKey(draw), KEPT)
        .exec()),

    answered: (draw: string): Promise<string[]> => redis.hkeys(answersKey(draw)),
    answer: (draw: string, name: string): Promise<Buffer | null> => redis.hgetBuffer(answersKey(draw), name),
    /** @returns whether it is the first answer to that job, and still wanted */
    async putAnswer(draw: string, name: string, bytes: Uint8Array, { worker, trials }: Drawn): Promise<boolean> {
      const keys = [drawKey(draw), answersKey(draw), WORKERS, COUNTED];
      const text = Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength);
      return (await redis.eval(ANSWER, keys.length, ...keys, name, text, KEPT, worker, trials)) === 1;
    },
    dropAnswer: (draw: string, name: string) => redis.hdel(answersKey(draw), name),
    /** Keeps what is gathered in place of the answers that it is made of. */
    keepState: (draw: string, state: Uint8Array, answers: readonly string[]) =>
      redis
        .multi()
        .hset(drawKey(draw), "state", Buffer.from(state))
        .hdel(answersKey(draw), ...answers)
        .exec(),
    state: (draw: string): Promise<Buffer | null> => redis.hgetBuffer(drawKey(draw), "state"),

    recipe: (draw: string): Promise<string | null> => redis.hget(drawKey(draw), "recipe"),
    async draws(): Promise<OpenDraw[]> {
      const found: OpenDraw[] = [];
      for (const draw of await redis.smembers(DRAWS)) {
        const [recipe, lane, title, trials] = await redis
          .hmget(drawKey(draw), "recipe", "lane", "title", "trials")
          // Something else under its name.
          .catch(() => []);
        // One that nobody can read is nobody's: its words do not keep the others from theirs.
        if (recipe == null || lane == null || readRecipe(recipe) === null) {
          await redis.srem(DRAWS, draw);
          continue;
        }
        const silent = Number(await redis.eval(AGE, 1, drawKey(draw)));
        found.push({ draw, recipe, lane, title: title ?? "", trials: Number(trials ?? 0), silent });
      }
      return found;
    },

    putModule: (digest: string, text: string) => redis.set(moduleKey(digest), text, "EX", KEPT),
    module: (digest: string): Promise<string | null> => redis.get(moduleKey(digest)),

    async note(id: string, note: WorkerNote): Promise<void> {
      await redis.eval(NOTE, 3, WORKERS, SEEN, COUNTED, id, JSON.stringify(note), note.trials);
    },
    forget: (id: string) => redis.multi().hdel(WORKERS, id).zrem(SEEN, id).hdel(COUNTED, id).exec(),
    async workers(): Promise<SeenWorker[]> {
      const found = (await redis.eval(LOOK, 3, WORKERS, SEEN, COUNTED)) as string[];
      return Array.from({ length: found.length / 3 }, (_, i) => i).flatMap((i) => {
        const note = readNote(found[3 * i]!);
        return note === null ? [] : [{ ...note, silent: Number(found[3 * i + 1]), trials: Number(found[3 * i + 2]) }];
      });
    },
    /** A worker's words on why it does not take a draw. */
    refuse: (draw: string, worker: string, words: string) =>
      redis.multi().hset(refusalsKey(draw), worker, words).expire(refusalsKey(draw), KEPT).exec(),
    refusals: (draw: string): Promise<Record<string, string>> => redis.hgetall(refusalsKey(draw)),
  };
}

/** @returns `null` for text that no worker has written */
function readNote(text: string): WorkerNote | null {
  try {
    const note = JSON.parse(text) as WorkerNote;
    const counts = [note.threads, note.active, note.rate];
    const words = [note.name, note.since, note.build.version, ...note.lanes];
    return counts.every(Number.isSafeInteger) && words.every((one) => typeof one === "string") ? note : null;
  } catch {
    return null;
  }
}

/**
 * Whether what is in a queue under the names used here can be Trialband's.
 *
 * @throws {Fault} `queue-unreachable`: it is another program's
 */
async function requireOwnKeys(redis: Redis, shown: string): Promise<void> {
  for (const [key, type] of [
    [DRAWS, "set"],
    [WORKERS, "hash"],
  ] as const) {
    const found = await redis.type(key);
    if (found !== "none" && found !== type)
      throw new Fault(
        "queue-unreachable",
        `The queue at ${shown} holds another program's key ${key} (${found}; expected ${type}). Use another database of it, as redis://HOST:PORT/1.`,
      );
  }
}

export type Board = ReturnType<typeof boardOn>;
