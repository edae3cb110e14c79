import { expect, test } from "vitest";
import { withOwn } from "../../../server/routes/survey-study.ts";

const listed = { list: () => Promise.resolve([{ id: "a", title: "Listed" }]), read: () => Promise.resolve({}) };

/** Two studies of the laboratory's own, of which the second has lost its runs. */
const dependencies = {
  desk: {
    ownStudies: () => [
      { id: "p1", name: "Ours" },
      { id: "p2", name: "All its runs removed" },
    ],
  },
  runs: {
    list: () => [
      { id: "r2", own: "p1" },
      { id: "r1", own: "p1" },
    ],
    read: (id: string) => Promise.resolve({ document: { of: id } }),
  },
};

const studies = withOwn(listed as never, dependencies as never);

test("a study whose runs were all removed is not offered, since nothing is left to read", async () => {
  expect(await studies.list()).toEqual([
    { id: "own:p1", title: "Ours" },
    { id: "a", title: "Listed" },
  ]);
  await expect(studies.read("own:p2")).rejects.toMatchObject({ code: "no-such-study" });
});

test("of several runs the latest has the study", async () => {
  expect(await studies.read("own:p1")).toEqual({ of: "r2" });
});
