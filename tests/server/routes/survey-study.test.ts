import { expect, test } from "vitest";
import { Fault } from "../../../server/errors.ts";
import { fittingStudies, withOwn } from "../../../server/routes/survey-study.ts";

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

test("a study that is removed while the list is read is left out of it, and fails no other", async () => {
  const surveyed = { shown: { statements: { a: {} } }, bath: undefined };
  const leaving = {
    list: () => Promise.resolve([{ id: "gone", title: "Gone" }, ...["lost", "there"].map((id) => ({ id, title: id }))]),
    read: (id: string) =>
      id === "there"
        ? Promise.resolve({ inputs: { a: {} } })
        : Promise.reject(new Fault(id === "gone" ? "no-such-study" : "no-such-run", "It is not there.")),
  };
  expect(await fittingStudies(surveyed as never, leaving)).toEqual([
    { id: "there", title: "there", sameBath: false, fits: true },
  ]);
  const failing = { ...leaving, read: () => Promise.reject(new Fault("internal", "altered")) };
  await expect(fittingStudies(surveyed as never, failing)).rejects.toThrow("altered");
});

test("of several runs the latest has the study", async () => {
  expect(await studies.read("own:p1")).toEqual({ of: "r2" });
});
