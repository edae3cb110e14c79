import { afterEach, beforeEach, describe, expect, test, vi } from "vitest";
import type { Problem } from "../../../../engine/index.ts";
import { RequestError } from "../../../../viewer/page/api.ts";
import { createChecker, PAUSE, type Checked } from "../../../../viewer/page/new-study/checker.ts";
import type { StudyDocument } from "../../../../viewer/page/new-study/draft.ts";

type Answer = { readonly problems: readonly Problem[] };

const problem: Problem = { place: "model", value: "nothing", accepted: "one of the models" };

describe("the checker of a study being written", () => {
  beforeEach(() => void vi.useFakeTimers());
  afterEach(() => void vi.useRealTimers());

  /** A checker whose questions are answered by hand, in any order. */
  function byHand(study: StudyDocument) {
    const questions: { study: StudyDocument; answer: (a: Answer) => void; fail: (e: unknown) => void }[] = [];
    const told: Checked[] = [];
    const checker = createChecker(
      () => study,
      (asked) => new Promise((answer, fail) => questions.push({ study: asked, answer, fail })),
      (answer) => told.push(answer),
    );
    return { checker, questions, told };
  }

  test("asks once for a flow of changes, after the pause", () => {
    const { checker, questions } = byHand({ title: "a" });
    for (let i = 0; i < 5; i++) {
      checker.soon();
      vi.advanceTimersByTime(PAUSE - 1);
    }
    expect(questions).toHaveLength(0);
    vi.advanceTimersByTime(1);
    expect(questions.map(({ study }) => study)).toEqual([{ title: "a" }]);
  });

  test("a check at once takes the place of the one that waits", async () => {
    const { checker, questions } = byHand({ title: "a" });
    checker.soon();
    const answer = checker.now();
    vi.advanceTimersByTime(2 * PAUSE);
    expect(questions).toHaveLength(1);
    questions[0]!.answer({ problems: [problem] });
    expect(await answer).toEqual({ problems: [problem], failure: null });
  });

  test("shows the answer to the latest question alone, and gives it to everyone who asked", async () => {
    const { checker, questions, told } = byHand({ title: "a" });
    const [first, second] = [checker.now(), checker.now()];
    questions[1]!.answer({ problems: [] });
    questions[0]!.answer({ problems: [problem] });
    const latest = { problems: [], failure: null };
    expect([await first, await second]).toEqual([latest, latest]);
    expect(told).toEqual([latest]);
  });

  test("an older answer that comes first is not shown", async () => {
    const { checker, questions, told } = byHand({ title: "a" });
    const [first, second] = [checker.now(), checker.now()];
    questions[0]!.answer({ problems: [problem] });
    await vi.advanceTimersByTimeAsync(0);
    expect(told).toEqual([]);
    questions[1]!.answer({ problems: [] });
    await Promise.all([first, second]);
    expect(told).toEqual([{ problems: [], failure: null }]);
  });

  test("states a missing title beside the other problems, which the server would not get to", async () => {
    const { checker, questions } = byHand({ title: "", seed: "1" });
    const answer = checker.now();
    expect(questions[0]!.study).toEqual({ title: "untitled", seed: "1" });
    questions[0]!.answer({ problems: [problem] });
    expect((await answer).problems!.map(({ place }) => place)).toEqual(["title", "model"]);
  });

  test("tells why a study cannot be checked, and checks again", async () => {
    const { checker, questions, told } = byHand({ title: "a" });
    const refused = checker.now();
    questions[0]!.fail(new RequestError(0, { code: "away", message: "The server does not answer.", problems: [] }));
    expect(await refused).toEqual({ problems: null, failure: "The server does not answer." });
    const answered = checker.now();
    questions[1]!.answer({ problems: [] });
    expect(await answered).toEqual({ problems: [], failure: null });
    expect(told).toHaveLength(2);
  });
});
