// The group that checks the linearised model: every line passes here, and a wrong figure is found.
import { expect, test } from "vitest";
import type { CheckContext } from "../../../server/selfcheck/check.ts";
import { linearised, RECTANGULARS, sums } from "../../../server/selfcheck/groups/linearised.ts";

/** The checks draw nothing. */
const nothing = {} as CheckContext;

test("every line passes", async () => {
  const lines = (await Promise.all(linearised.checks(true).map((check) => check.lines(nothing)))).flat();
  expect(lines.filter(({ passed }) => !passed)).toEqual([]);
  expect(lines.length).toBeGreaterThan(15);
});

test("an endpoint that is wrong by 2·10⁻⁶ u is found", async () => {
  const wrong = RECTANGULARS.map(([name, statements, [low, high]]) => [name, statements, [low, high + 2e-6]] as const);
  const lines = await sums("wrong", "a test", wrong).lines(nothing);
  expect(lines.map(({ passed }) => passed)).toEqual(RECTANGULARS.map(() => false));
});
