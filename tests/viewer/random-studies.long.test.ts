// @module-tag long
import { expect, test } from "vitest";
import { checkRandomStudies } from "./random-studies.ts";

test(
  "sixty random studies: nothing is printed that is no number, and nothing contradicts itself",
  { timeout: 600_000 },
  () => expect(checkRandomStudies(11, 60)).toBeGreaterThan(25),
);
