import fc from "fast-check";
import { expect, test } from "vitest";
import { FairQueue } from "../../../server/runs/fair-queue.ts";

const taken = (queue: FairQueue<string>): string[] => Array.from({ length: queue.size }, () => queue.take()!);

test("names take turns, and each name's own come in their order", () => {
  const queue = new FairQueue<string>();
  for (const item of ["a1", "a2", "a3", "b1", "c1", "b2"]) queue.add(item[0]!, item);
  expect(taken(queue)).toEqual(["a1", "b1", "c1", "a2", "b2", "a3"]);
  expect(queue.take()).toBeUndefined();
});

test("one that comes late waits for one turn of each name, however much the others have asked for", () => {
  const queue = new FairQueue<string>();
  for (let i = 0; i < 50; i++) queue.add("much", `m${i}`);
  queue.take();
  queue.add("late", "l");
  expect([queue.take(), queue.take()]).toContain("l");
});

test("whatever is added, taken and removed: nothing is lost, and the size is right", () => {
  fc.assert(
    fc.property(fc.array(fc.tuple(fc.constantFrom("add", "take", "remove"), fc.nat(3))), (steps) => {
      const queue = new FairQueue<number>();
      const there = new Set<number>();
      steps.forEach(([step, name], i) => {
        if (step === "add") {
          queue.add(String(name), i);
          there.add(i);
        } else if (step === "take") {
          const item = queue.take();
          if (item === undefined) expect(there.size).toBe(0);
          else expect(there.delete(item)).toBe(true);
        } else {
          const [first] = there;
          expect(queue.remove(first ?? -1)).toBe(first !== undefined);
          if (first !== undefined) there.delete(first);
        }
        expect(queue.size).toBe(there.size);
      });
    }),
    { seed: 7, numRuns: 300 },
  );
});
