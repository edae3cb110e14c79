// @module-tag long
// Every contestant that this machine has computes the same figures.
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, test } from "vitest";
import { compareWithKnown, KNOWN_TRIALS } from "./harness/agreement.ts";
import type { Answer } from "./harness/answer.ts";
import { openContestant } from "./harness/contestant.ts";
import { cPeer, numpyPeer, type Peer } from "./harness/contestants.ts";
import { BINS, openOurs } from "./harness/ours.ts";
import { disagreements } from "./harness/rounds.ts";
import { oursAsKnown, root, WORKLOADS } from "./ours-as-known.ts";

const made = mkdtempSync(join(tmpdir(), "trialband-bench-test-"));
const places = { root, made };
afterAll(() => rmSync(made, { recursive: true }));

const peers: Record<string, Peer> = {
  "NumPy, one sort": numpyPeer(places, "sort"),
  "NumPy, tails alone": numpyPeer(places, "partition"),
  C: cPeer(places),
};

describe("every contestant computes the same", () => {
  const ours = oursAsKnown(WORKLOADS);

  for (const [title, peer] of Object.entries(peers)) {
    const missing = "absent" in peer;
    test.skipIf(missing)(`each workload by ${title}${missing ? ` (${peer.absent})` : ""}`, async () => {
      if (missing) return;
      const contestant = await openContestant(peer.command);
      try {
        expect(contestant.name).toMatch(/NumPy \d|gcc \d/);
        for (const workload of WORKLOADS) {
          const seeds = [1, 2];
          const theirs: Answer[] = [];
          const own: Answer[] = [];
          for (const seed of seeds) {
            theirs.push(await contestant.ask(workload, KNOWN_TRIALS, seed));
            own.push(await ours().run(workload, KNOWN_TRIALS, seed));
          }
          expect(
            theirs.flatMap(({ outputs }) => outputs).every(({ histogram }) => histogram.counts.length === BINS),
          ).toBe(true);
          expect(theirs.flatMap((answer) => compareWithKnown(answer)).filter(({ agrees }) => !agrees)).toEqual([]);
          expect(
            disagreements(
              new Map([
                ["ours-1", own],
                [contestant.id, theirs],
              ]),
            ),
          ).toEqual([]);
          // Another seed, another sample; the same seed, the same one.
          expect(theirs[0]!.checksum).not.toBe(theirs[1]!.checksum);
          expect((await contestant.ask(workload, KNOWN_TRIALS, 1)).checksum).toBe(theirs[0]!.checksum);
        }
      } finally {
        await contestant.close();
      }
    });
  }

  test("the pool's workers load these models and reproduce the checksums exactly", async () => {
    const two = await openOurs(root, 2);
    try {
      for (const workload of WORKLOADS) {
        const [a, b] = [await ours().run(workload, KNOWN_TRIALS, 5), await two.run(workload, KNOWN_TRIALS, 5)];
        expect(b.checksum).toBe(a.checksum);
        expect(
          disagreements(
            new Map([
              ["ours-1", [a]],
              ["ours-2", [b]],
            ]),
          ),
        ).toEqual([]);
      }
    } finally {
      await two.close();
    }
  });
});
