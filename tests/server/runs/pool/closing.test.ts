// What becomes of threads whose task is given up, and of a pool that is closed. Needs dist/, and a process of its own: it
// counts threads.
import { expect, test } from "vitest";
import { openPool } from "../../../../server/runs/pool/pool.ts";
import { LONG } from "../../../setup/long.ts";

const threads = (): number => (process.report.getReport() as unknown as { workers: unknown[] }).workers.length;

/** One that every thread refuses at once. */
const refused = (job: string) => ({
  job,
  recipe: "{}",
  first: 0,
  counts: [1],
  rooms: [new SharedArrayBuffer(8)],
  stop: new Int32Array(new SharedArrayBuffer(4)),
});

const closes = async (times: number): Promise<void> => {
  for (let i = 0; i < times; i++) {
    const closing = await openPool(2);
    const left = new AbortController();
    // Threads that have loaded their file are those that a pool replaces.
    await expect(closing.draw(refused(String(i)), new AbortController().signal)).rejects.toBeDefined();
    const given = closing.draw(refused("up"), left.signal);
    left.abort();
    await expect(given).rejects.toMatchObject({ code: "cancelled" });
    await closing.close();
  }
  await expect.poll(threads, { interval: 100 }).toBe(0);
};
const CLOSES = "a pool that is closed while a task is given up leaves no thread behind";
test(CLOSES, () => closes(2));
test(`${CLOSES}, often`, LONG, () => closes(5));

// The library tells such an answer by an event of errors, which ends a process that does not listen: an uncaught error here.
const drops = async (times: number): Promise<void> => {
  const pool = await openPool(2);
  for (let i = 0; i < times; i++) {
    await pool.draw(refused(`${i} before`), new AbortController().signal).catch(() => undefined);
    const left = new AbortController();
    const given = pool.draw(refused(String(i)), left.signal).catch((error: unknown) => error);
    // The thread answers within this pause, and the answer is delivered once this turn ends.
    const until = performance.now() + 3;
    while (performance.now() < until);
    left.abort();
    await given;
  }
  await pool.close();
};
const DROPS = "an answer to a task that was given up while it was on its way is dropped";
test(DROPS, () => drops(3));
test(`${DROPS}, often`, LONG, () => drops(10));
