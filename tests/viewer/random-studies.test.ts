// Sixty of them: random-studies.long.test.ts.
import { expect, test } from "vitest";
import { checkRandomStudies } from "./random-studies.ts";

test("twelve random studies: nothing is printed that is no number, and nothing contradicts itself", () =>
  expect(checkRandomStudies(11, 12)).toBeGreaterThan(2));
